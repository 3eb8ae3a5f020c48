"""What is taken for an input that is not there: one value, two ends, or ends beside the engine."""

from collections.abc import Mapping as AnyMapping

from planner.datafiles.nodes import Mapping, Node
from planner.errors import Problem, nearest
from planner.rulebook.columns import parse_range
from planner.rulebook.keys import check_keys, text_of, texts_of
from planner.rulebook.literals import read_literal
from planner.rulebook.ranges import Unreadable, bad
from planner.rulebook.syntax import STAGES, Assume, Field, Record
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Band, Interval, OneOf, Value

KEYS = ("value", "between", "above", "below", "because", "until", "source")
_SAMPLE = 'write between: "[0.03 mm .. 0.20 mm]", above: engine.bore'


def read_assume(name: str, node: Node | None, declared: ValueType) -> Assume | None:
    """Read ``assume:`` of an input.

    Parameters
    ----------
    name
        The input.
    node
        Its block; none when nothing is assumed.
    declared
        Type of the input.

    Returns
    -------
    Assume or None
        What is assumed; a name in above or below is checked by `check_bases`.

    Raises
    ------
    Unreadable
        With the first thing wrong in it.
    """
    if node is None:
        return None
    label = f"{name}: assume"
    block = _block(node, label)
    because, source = text_of(block.get("because"), label), text_of(block.get("source"), label)
    if not because or not source:
        raise bad(f"{label} has no because or no source", "say why, and from where", node.place)
    value, between = block.get("value"), block.get("between")
    if (value is None) == (between is None):
        raise bad(
            f"{label} needs exactly one of value and between",
            "write value: for one figure, between: for two ends",
            node.place,
        )
    base = _base(block, label)
    words: tuple[str, ...] = ()
    ends = None
    if between is not None and declared.form == "choice":
        words = _words(between, declared, label)
    elif between is not None:
        ends = _ends(between, declared, label)
    return Assume(
        because=because,
        source=source,
        until=_until(block, label),
        value=None if value is None else read_literal(value, declared, label),
        between=ends,
        words=words,
        base=base,
        below=block.get("below") is not None,
        place=block.key_place("below" if block.get("below") is not None else "above"),
    )


def _base(block: Mapping, label: str) -> str:
    """Read the engine's field that the ends are counted from."""
    above, below = text_of(block.get("above"), label), text_of(block.get("below"), label)
    if above and below:
        raise bad(f"{label} is both above and below something", "keep one", block.place)
    if (above or below) and block.get("between") is None:
        raise bad(f"{label} has no ends to count from {above or below}", _SAMPLE, block.place)
    return above or below


def _until(block: Mapping, label: str) -> str | None:
    until = text_of(block.get("until"), label) or None
    if until is not None and until not in STAGES:
        raise bad(f"{label}: until is {until!r}", f"allowed: {', '.join(STAGES)}", block.place)
    return until


def _words(node: Node, declared: ValueType, label: str) -> tuple[str, ...]:
    """Read the words of a choice that are left: a list, or words with commas."""
    written = [word.strip() for text in texts_of(node, label) for word in text.split(",")]
    for word in written:
        if word not in declared.words:
            offer = nearest(word, declared.words)
            hint = f"did you mean {offer}? " if offer else ""
            raise bad(
                f"{label}: {word!r} is not one of its words",
                f"{hint}allowed: {', '.join(declared.words)}",
                node.place,
            )
    if len(set(written)) < 2:
        raise bad(f"{label} leaves one word", "write value: for one", node.place)
    return tuple(word for word in declared.words if word in written)


def _ends(node: Node, declared: ValueType, label: str) -> tuple[float, float]:
    found = parse_range(text_of(node, label), node.place, unit=declared.unit, kind=declared.kind)
    if isinstance(found, Problem):
        raise Unreadable(found)
    return (found.low, found.high)


def _block(node: Node, label: str) -> Mapping:
    if not isinstance(node, Mapping):
        raise bad(f"{label} is not a block of keys", f"write {{{', '.join(KEYS)}}}", node.place)
    odd = check_keys(node, KEYS, label)
    if odd:
        raise Unreadable(odd[0])
    return node


def check_bases(
    fields: AnyMapping[str, Field], records: AnyMapping[str, Record], problems: list[Problem]
) -> None:
    """Hold every name that ends are counted from against the fields of the records."""
    for field in fields.values():
        base = field.assume.base if field.assume is not None else ""
        if not base or field.assume is None:
            continue
        known = {
            name: declared for record in records.values() for name, declared in _numbers(record)
        }
        found = known.get(base)
        if found is None:
            offer = nearest(base, known)
            fix = f"did you mean {offer}?" if offer else "name a field of the engine: engine.bore"
            what = f"{field.name}: assume counts from {base}, which is no number of the engine"
            problems.append(Problem(what, fix, field.assume.place))
        elif found.dimension != field.type.dimension:
            what = f"{field.name}: assume counts from {base}, which is of another unit"
            problems.append(Problem(what, "count from a figure of the same kind", field.place))


def _numbers(record: Record) -> list[tuple[str, ValueType]]:
    """List the single numbers of a record: its numbers, and the ends of its limits."""
    found = []
    for name, field in record.fields.items():
        parts = {"number": ("",), "limits": (".low", ".high"), "band": (".low", ".high")}
        found += [
            (f"{record.name}.{name}{part}", field.type) for part in parts.get(field.type.form, ())
        ]
    return found


def assumed_value(
    assume: Assume, declared: ValueType, records: AnyMapping[str, AnyMapping[str, Value]]
) -> Value | None:
    """Return what is assumed on this job.

    Parameters
    ----------
    assume
        What the rules assume.
    declared
        Type of the input; ends never reach past its range.
    records
        Fields of the chosen engine.

    Returns
    -------
    Value or None
        A value, a stretch or the words left; nothing when the engine lacks the figure that the
        ends are counted from.
    """
    if assume.words:
        return OneOf(assume.words)
    if assume.between is None:
        return assume.value
    low, high = assume.between
    if assume.base:
        base = _figure(assume.base, records)
        if base is None:
            return None
        low, high = (base - high, base - low) if assume.below else (base + low, base + high)
    low = low if declared.low is None else max(low, declared.low)
    high = high if declared.high is None else min(high, declared.high)
    return Interval(low, high) if low < high else None


def _figure(base: str, records: AnyMapping[str, AnyMapping[str, Value]]) -> float | None:
    record, name, *part = base.split(".")
    value = records.get(record, {}).get(name)
    if isinstance(value, Band) and part:
        value = getattr(value, part[0])
    return value if isinstance(value, float) else None
