"""Declared names: units, kinds, ranges and sets, read from ``inputs`` and ``gives``."""

from collections.abc import Sequence as AnySequence

from planner.datafiles.nodes import Mapping, Node
from planner.errors import BorewrightError, Problem, nearest
from planner.rulebook.assumptions import read_assume
from planner.rulebook.columns import Span, parse_range
from planner.rulebook.keys import check_keys, flag_of, text_of, texts_of
from planner.rulebook.literals import quantity_or_problem, read_literal, unit_or_problem
from planner.rulebook.ranges import Unreadable, bad
from planner.rulebook.syntax import STAGES, Field
from planner.rulebook.value_type import Form, ValueType
from planner.rulebook.values import Value
from planner.units.dimension import NONE, PRESSURE
from planner.units.kinds import known_kind
from planner.units.table import Unit

TYPE_KEYS = ("unit", "kind", "form", "range", "one_of", "step", "per", "grid")
FIELD_KEYS = (
    *TYPE_KEYS,
    "ask",
    "how",
    "stage",
    "job",
    "optional",
    "assume",
    "unlisted",
    "finding",
    "points",
    "means",
    "source",
)
FORMS: tuple[Form, ...] = ("number", "band", "limits", "choice", "names", "grid")


def read_type(node: Mapping, label: str) -> ValueType:
    """Read what a name holds.

    Parameters
    ----------
    node
        The declaring block.
    label
        How messages call it.

    Returns
    -------
    ValueType
        Its type; ``per`` is in the order written.

    Raises
    ------
    Unreadable
        With the first thing wrong in it.
    """
    per = texts_of(node.get("per"), f"{label}: per")
    words = texts_of(node.get("one_of"), f"{label}: one_of")
    form = _form(node, label, is_choice=bool(words))
    if len(per) > 2:
        raise bad(
            f"{label} stands per {', '.join(per)}",
            "at most two sets at once",
            node.key_place("per"),
        )
    if form in ("choice", "names"):
        return ValueType(form=form, words=words, per=per)
    unit = _unit(node, label)
    kind = _kind(node, label, unit)
    dimension = unit.dimension if unit else NONE
    bare = ValueType(form="number", unit=unit, dimension=dimension, kind=kind)
    span = _span(node, label, bare)
    step = node.get("step")
    return ValueType(
        form=form,
        unit=unit,
        dimension=dimension,
        kind=kind,
        per=per,
        low=span.low,
        high=span.high,
        low_open=span.low_open,
        high_open=span.high_open,
        step=None if step is None else _step(step, bare, label),
    )


def _form(node: Mapping, label: str, *, is_choice: bool) -> Form:
    if is_choice:
        return "choice"
    if node.get("grid") is not None:
        return "grid"
    text = text_of(node.get("form"), f"{label}: form") or "number"
    for form in FORMS:
        if text == form:
            return form
    offer = nearest(text, FORMS)
    raise bad(
        f"{label} has form {text!r}",
        f"did you mean {offer}? allowed: {', '.join(FORMS)}",
        node.key_place("form"),
    )


def _unit(node: Mapping, label: str) -> Unit | None:
    text = text_of(node.get("unit"), f"{label}: unit")
    return unit_or_problem(text, node.key_place("unit")) if text else None


def _kind(node: Mapping, label: str, unit: Unit | None) -> str | None:
    text = text_of(node.get("kind"), f"{label}: kind")
    dimension = unit.dimension if unit else NONE
    if text:
        try:
            return known_kind(text, dimension)
        except BorewrightError as error:
            raise Unreadable(error.at(node.key_place("kind"))) from error
    if unit is not None and unit.kind:
        return unit.kind
    if dimension == PRESSURE:
        raise bad(
            f"{label} is a pressure without a kind",
            "add kind: gauge, absolute, pressure difference or stress",
            node.place,
        )
    return None


def _span(node: Mapping, label: str, bare: ValueType) -> Span:
    text = text_of(node.get("range"), f"{label}: range")
    if not text:
        raise bad(
            f"{label} has no range",
            'add range: "[low .. high]" with its unit: it is what "complete" is proved over',
            node.place,
        )
    found = parse_range(text, node.key_place("range"), unit=bare.unit, kind=bare.kind)
    if isinstance(found, Problem):
        raise Unreadable(found)
    return found


def _step(node: Node, bare: ValueType, label: str) -> float:
    """Read a rounding step: a distance on the unit's scale, so its zero does not count."""
    expected = bare.dimension if bare.unit is not None else None
    found = quantity_or_problem(text_of(node, label), node.place, expected, f"{label}: step")
    step = found.value * found.unit.factor
    if found.unit.dimension != bare.dimension or step <= 0:
        raise bad(f"{label}: step is {found.value:g}", "write the rounding step", node.place)
    return step


def read_field(name: str, node: Mapping, problems: list[Problem]) -> Field | None:
    """Read one declared input or field, collecting what is wrong with it.

    Parameters
    ----------
    name
        Its name.
    node
        Its block.
    problems
        Where to put what is found.

    Returns
    -------
    Field or None
        The field; nothing when its type could not be read.
    """
    problems += check_keys(node, FIELD_KEYS, name)
    try:
        declared = read_type(node, name)
        stage = text_of(node.get("stage"), f"{name}: stage") or "enquiry"
        if stage not in STAGES:
            raise bad(
                f"{name} has stage {stage!r}",
                f"allowed: {', '.join(STAGES)}",
                node.key_place("stage"),
            )
        return Field(
            name=name,
            type=declared,
            place=node.place,
            ask=text_of(node.get("ask"), name) or text_of(node.get("finding"), name),
            how=text_of(node.get("how"), name),
            stage=stage,
            job=text_of(node.get("job"), name) or f"goals.{name}",
            optional=flag_of(node.get("optional"), f"{name}: optional"),
            assume=read_assume(name, node.get("assume"), declared),
            unlisted=_unlisted(name, node.get("unlisted"), declared),
            unlisted_because=_because(node.get("unlisted")),
            finding=text_of(node.get("finding"), name),
            grid_axes=texts_of(node.get("grid"), name),
            points=_points(name, node),
        )
    except Unreadable as error:
        problems.append(error.problem)
        return None


def _points(name: str, node: Mapping) -> dict[str, tuple[str, ...]]:
    """Read where a grid is measured: the names of the points along each of its axes."""
    block = node.get("points")
    if block is None:
        return {}
    axes = texts_of(node.get("grid"), name)
    if not isinstance(block, Mapping) or block.keys() != axes:
        raise bad(
            f"{name}: points does not follow its grid",
            f"write points: {{{', '.join(f'{axis}: [...]' for axis in axes)}}}",
            block.place,
        )
    return {key.text: texts_of(inner, name) for key, inner in block.entries}


def _unlisted(name: str, node: Node | None, declared: ValueType) -> Value | None:
    if node is None:
        return None
    block = _block(node, f"{name}: unlisted", ("value", "because"))
    value = block.get("value")
    if value is None or block.get("because") is None:
        raise bad(
            f"{name}: unlisted needs value and because",
            "say what an item that is not listed has, and why",
            node.place,
        )
    return read_literal(value, declared, f"{name}: unlisted")


def _because(node: Node | None) -> str:
    return text_of(node.get("because"), "because") if isinstance(node, Mapping) else ""


def _block(node: Node, label: str, allowed: AnySequence[str]) -> Mapping:
    if not isinstance(node, Mapping):
        raise bad(f"{label} is not a block of keys", f"write {{{', '.join(allowed)}}}", node.place)
    odd = check_keys(node, allowed, label)
    if odd:
        raise Unreadable(odd[0])
    return node
