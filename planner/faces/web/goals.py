"""The goals as a form: what is asked at the counter, and what a view of the page sets anew."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from planner.datafiles.nodes import Node, Scalar
from planner.datafiles.reader import read_yaml_text
from planner.datafiles.splice import plain, spliced
from planner.errors import Problem, ProblemsFound
from planner.faces.web.workshop import Settings
from planner.rulebook.syntax import Field, Rulebook
from planner.teardown.asked import node_at
from planner.units import to_unit

COUNTER = (
    "boost",
    "fuel",
    "ethanol",
    "use",
    "rev_ceiling",
    "power",
    "longest_full_load",
    "full_boost_speed",
)
"""Asked first, in the order of the talk at the counter."""

_STEPS = {
    "bar": 0.05,
    "rpm": 100.0,
    "kW": 5.0,
    "s": 5.0,
    "degC": 1.0,
    "m": 50.0,
    "g_load": 0.05,
    "deg": 1.0,
}
_LONGEST = 200


@dataclass(frozen=True, slots=True)
class Slider:
    """Ends and step of a slider, in the field's unit, and where it stands."""

    low: str
    high: str
    step: str
    at: str


@dataclass(frozen=True, slots=True)
class Goal:
    """One field of the form.

    Attributes
    ----------
    path
        Where it stands in the job, and its name in the form.
    value
        As typed.
    saved
        As the saved job has it.
    words
        Of a choice.
    """

    name: str
    path: str
    ask: str
    value: str
    saved: str
    words: tuple[str, ...] = ()
    unit: str = ""
    slider: Slider | None = None
    problems: tuple[Problem, ...] = ()


def goal_fields(rulebook: Rulebook) -> dict[str, Field]:
    """Return the inputs that the form asks for, by path, the counter's first."""
    asked = [
        each
        for each in rulebook.inputs.values()
        if each.job.startswith("goals.") and each.stage == "enquiry" and not each.type.per
    ]
    asked.sort(key=lambda each: COUNTER.index(each.name) if each.name in COUNTER else len(COUNTER))
    return {each.job: each for each in asked}


def settings_of(query: Iterable[tuple[str, str]], text: str, rulebook: Rulebook) -> Settings:
    """Read what a view sets anew.

    Parameters
    ----------
    query
        Keys and values of a request; keys that are no goal are left aside.
    text
        The saved job.
    rulebook
        Names the goals.

    Returns
    -------
    tuple of str
        ``KEY=VALUE`` for each goal that differs from the saved job, in the form's order.
    """
    root = read_yaml_text(text, "job")
    asked = {key: value.strip()[:_LONGEST] for key, value in query}
    return tuple(
        f"{path}={value or 'unknown'}"
        for path in goal_fields(rulebook)
        if (value := asked.get(path)) is not None and value != _typed(node_at(root, path))
    )


def goals_of(
    text: str, settings: Settings, rulebook: Rulebook, problems: Iterable[Problem] = ()
) -> tuple[list[Goal], list[Goal]]:
    """Make the fields of the form: those asked first, and the rest."""
    root = read_yaml_text(text, "job")
    anew = _anew(settings)
    wrong = list(problems)
    made = [
        _goal(each, root, anew, tuple(p for p in wrong if _is_about(p, path)))
        for path, each in goal_fields(rulebook).items()
    ]
    return [x for x in made if x.name in COUNTER], [x for x in made if x.name not in COUNTER]


def elsewhere(problems: Iterable[Problem], rulebook: Rulebook) -> list[Problem]:
    """Return the problems that stand at no field of the form."""
    paths = list(goal_fields(rulebook))
    return [each for each in problems if not any(_is_about(each, path) for path in paths)]


def with_goals(text: str, settings: Settings) -> str:
    """Write a view's goals into the job's text; nothing else of it moves."""
    for path, value in _anew(settings).items():
        node = read_yaml_text(value, path)
        if not isinstance(node, Scalar):
            raise ProblemsFound([Problem(f"{path} is one value, not {value!r}", "type one value")])
        text = spliced(text, tuple(path.split(".")), plain(node))
    return text


def query_of(settings: Settings) -> list[tuple[str, str]]:
    """Return the keys and values that a link of this view carries."""
    return list(_anew(settings).items())


def next_steps(before: Settings, after: Settings, rulebook: Rulebook) -> list[Settings]:
    """Guess where the one figure that was just moved goes next: on, further on, and back.

    Parameters
    ----------
    before, after
        What the page showed, and shows now.
    rulebook
        Names the goals and their units.

    Returns
    -------
    list of tuple of str
        Settings to work out while somebody looks; none when more than one goal moved.
    """
    old, new = _anew(before), _anew(after)
    moved = [path for path in {*old, *new} if old.get(path) != new.get(path)]
    if len(moved) != 1 or moved[0] not in new:
        return []
    field = goal_fields(rulebook)[moved[0]]
    number, _, unit = new[moved[0]].partition(" ")
    step = _STEPS.get(field.type.unit.name) if field.type.unit else None
    if step is None or not _is_number(number):
        return []
    was = old.get(moved[0], "").partition(" ")[0]
    way = -step if _is_number(was) and float(was) > float(number) else step
    ahead = [float(number) + way * count for count in (1, 2, -1)]
    return [
        tuple(
            f"{path}={f'{each:.6g} {unit}'.strip() if path == moved[0] else value or 'unknown'}"
            for path, value in new.items()
        )
        for each in ahead
    ]


def _anew(settings: Settings) -> dict[str, str]:
    pairs = (each.partition("=") for each in settings)
    return {key: "" if value == "unknown" else value for key, _, value in pairs}


def _typed(node: Node | None) -> str:
    return node.text if isinstance(node, Scalar) and node.value is not None else ""


def _goal(each: Field, root: Node, anew: Mapping[str, str], problems: tuple[Problem, ...]) -> Goal:
    saved = _typed(node_at(root, each.job))
    value = anew.get(each.job, saved)
    return Goal(
        name=each.name,
        path=each.job,
        ask=each.ask,
        value=value,
        saved=saved,
        words=tuple(_words(each, value)),
        unit=each.type.unit.name if each.type.unit else "",
        slider=_slider(each, value) if each.type.form == "number" and each.type.unit else None,
        problems=problems,
    )


def _words(each: Field, value: str) -> Iterator[str]:
    yield from each.type.words
    if each.type.words and value and value not in each.type.words:
        yield value


def _slider(each: Field, value: str) -> Slider | None:
    """Make a slider over the declared range, in the unit that the rules declare."""
    declared = each.type
    if declared.unit is None or declared.low is None or declared.high is None:
        return None
    low, high = (to_unit(end, declared.unit) for end in (declared.low, declared.high))
    step = _STEPS.get(declared.unit.name, (high - low) / 100)
    number, _, unit = value.partition(" ")
    same = not unit or unit.split()[0] == declared.unit.name
    at = number if same and _is_number(number) else ""
    if not same:
        return None
    return Slider(f"{low:.6g}", f"{high:.6g}", f"{step:.6g}", at)


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True


def _is_about(problem: Problem, path: str) -> bool:
    place = problem.place.file if problem.place else ""
    return place == f"--set {path}" or problem.what.startswith((f"{path}:", f"{path} "))
