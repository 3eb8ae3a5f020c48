"""Reading ``operations``: what is done, in which order and why, and what to beware of."""

from collections.abc import Mapping as AMapping

from planner.datafiles.nodes import Mapping, Node, Scalar, Sequence
from planner.errors import Place, Problem
from planner.rulebook.advice import block, check_names, read_cautions, voices
from planner.rulebook.conditions import read_when
from planner.rulebook.files import Entry
from planner.rulebook.inputs import unknown_source
from planner.rulebook.keys import check_keys, flag_of, text_of, texts_of
from planner.rulebook.literals import read_number
from planner.rulebook.ranges import Unreadable, bad
from planner.rulebook.scope import AlreadyTold, Scope
from planner.rulebook.syntax import Inspect, Operation, Source, When
from planner.rulebook.texts import check_text
from planner.rulebook.value_type import ValueType
from planner.units.find import find_unit

OPERATION_KEYS = (
    "does",
    "lane",
    "station",
    "class",
    "hours",
    "when",
    "optional",
    "needs",
    "after",
    "implied",
    "inspect",
    "hold",
    "why",
    "if_skipped",
    "rework",
    "cautions",
    "source",
    "note",
)
CLASSES = ("work", "inspection", "gate", "commissioning")


def read_operations(
    entries: dict[str, Entry],
    scope: Scope,
    sources: AMapping[str, Source],
    problems: list[Problem],
) -> dict[str, Operation]:
    """Read every operation and hold its references against the others."""
    known = frozenset(entries)
    found = {}
    for name, entry in entries.items():
        try:
            found[name] = _operation(name, entry, scope, known, problems)
        except Unreadable as error:
            problems.append(error.problem)
            continue
        source = found[name].source
        if source not in sources:
            problems.append(unknown_source(source, entry.key, dict(sources)))
    return found


def _operation(
    name: str, entry: Entry, scope: Scope, known: frozenset[str], problems: list[Problem]
) -> Operation:
    node = block(entry.node, f"operation {name}")
    problems += check_keys(node, OPERATION_KEYS, f"operation {name}")
    for key in ("does", "lane", "station", "if_skipped"):
        if not text_of(node.get(key), name):
            problems.append(Problem(f"operation {name} has no {key}", f"add {key}:", entry.key))
    needs = texts_of(node.get("needs"), f"{name}: needs")
    after = _reasons(node.get("after"), f"{name}: after", problems)
    implied = _reasons(node.get("implied"), f"{name}: implied", problems)
    check_names((*needs, *after, *implied), known, "operation", node.key_place("after"), problems)
    when, called_only = _when(node, scope, problems)
    why_node = node.get("why")
    for key in ("does", "if_skipped", "hold"):
        check_text(text_of(node.get(key), name), scope, node.key_place(key), problems)
    return Operation(
        name=name,
        does=text_of(node.get("does"), name),
        lane=text_of(node.get("lane"), name),
        station=text_of(node.get("station"), name),
        hours=_hours(node.get("hours"), name),
        work_class=_class(node, name),
        when=when,
        called_only=called_only,
        optional=flag_of(node.get("optional"), name),
        needs=needs,
        after=after,
        implied=implied,
        inspect=_inspects(node.get("inspect"), name, scope, problems),
        hold=text_of(node.get("hold"), name),
        why=voices(why_node, scope, problems) if isinstance(why_node, Mapping) else {},
        if_skipped=text_of(node.get("if_skipped"), name),
        rework=text_of(node.get("rework"), name),
        cautions=read_cautions(node.get("cautions"), scope, problems),
        source=text_of(node.get("source"), name),
        place=entry.key,
    )


def _class(node: Mapping, name: str) -> str:
    found = text_of(node.get("class"), name) or "work"
    if found not in CLASSES:
        raise bad(
            f"operation {name} has class {found!r}",
            f"allowed: {', '.join(CLASSES)}",
            node.key_place("class"),
        )
    return found


def _when(node: Mapping, scope: Scope, problems: list[Problem]) -> tuple[When, bool]:
    found = node.get("when")
    if isinstance(found, Scalar):
        if found.text.strip() == "called":
            return (), True
        raise bad(f"when is {found.text!r}", "write called, or {NAME: cell, ...}", found.place)
    return read_when(found, scope, problems), False


def _reasons(node: Node | None, label: str, problems: list[Problem]) -> dict[str, str]:
    if node is None:
        return {}
    if not isinstance(node, Mapping):
        problems.append(
            Problem(f"{label} gives no reasons", "write OPERATION: why it comes first", node.place)
        )
        return {}
    reasons = {}
    for key, inner in node.entries:
        text = text_of(inner, label)
        if not text:
            problems.append(
                Problem(f"{label} {key.text} has no reason", "say why it comes first", key.place)
            )
        reasons[key.text] = text
    return reasons


def _hours(node: Node | None, name: str) -> tuple[float, float, float]:
    hour = find_unit("h")
    declared = ValueType("number", hour, hour.dimension, low=0.0, high=200 * 3600.0)
    found = block(node, f"{name}: hours") if node is not None else None
    if found is None:
        raise bad(f"operation {name} has no hours", "add hours: {low:, likely:, high:}", None)
    parts = []
    for key in ("low", "likely", "high"):
        inner = found.get(key)
        if inner is None:
            raise bad(f"operation {name} has no {key} hours", f"add {key}:", found.place)
        parts.append(read_number(inner, declared, f"{name}: {key} hours", hour) / 3600.0)
    if sorted(parts) != parts:
        raise bad(f"operation {name}: its hours do not rise", "low, likely, high", found.place)
    return (parts[0], parts[1], parts[2])


def _inspects(
    node: Node | None, name: str, scope: Scope, problems: list[Problem]
) -> tuple[Inspect, ...]:
    if node is None:
        return ()
    if not isinstance(node, Sequence):
        raise bad(
            f"{name}: inspect is not a list", "write - {measure: ..., target: ...}", node.place
        )
    found = []
    for item in node.items:
        inspect = block(item, f"{name}: inspect")
        problems += check_keys(
            inspect, ("measure", "target", "text", "instrument"), f"{name}: inspect"
        )
        target = text_of(inspect.get("target"), name)
        if target:
            _check_target(target, scope, inspect.key_place("target"), problems)
        text = text_of(inspect.get("text"), name)
        check_text(text, scope, inspect.place, problems)
        found.append(
            Inspect(
                text_of(inspect.get("measure"), name),
                target or None,
                text,
                text_of(inspect.get("instrument"), name),
                inspect.place,
            )
        )
    return tuple(found)


def _check_target(target: str, scope: Scope, place: Place, problems: list[Problem]) -> None:
    try:
        scope.resolve(target, place)
    except Unreadable as error:
        problems.append(error.problem)
    except AlreadyTold:
        return
