"""Values as a person writes them in YAML, read by the type their name was declared with."""

from collections.abc import Callable

from planner.datafiles.nodes import Mapping, Node, Scalar, Sequence
from planner.errors import BorewrightError, Place, Problem, nearest
from planner.rulebook.ranges import Unreadable, bad, inside, plausible, sample_text
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Band, Grid, Names, Value
from planner.units.dimension import Dimension
from planner.units.find import find_unit
from planner.units.parse import Quantity, parse_number, parse_quantity, to_si
from planner.units.table import Unit


def read_literal(
    node: Node, declared: ValueType, label: str, block_unit: Unit | None = None
) -> Value:
    """Read one value by its declared type.

    Parameters
    ----------
    node
        What stands in the file.
    declared
        Type of the name.
    label
        How messages call the value, for example ``goals.boost``.
    block_unit
        Unit of the readings block the value stands in, for bare numbers.

    Returns
    -------
    Value
        SI floats, bands, words, names or a grid.

    Raises
    ------
    Unreadable
        With the problem at its place.
    """
    readers: dict[str, Callable[[], Value]] = {
        "number": lambda: read_number(node, declared, label, block_unit),
        "band": lambda: read_band(node, declared, label, block_unit),
        "limits": lambda: read_band(node, declared, label, block_unit),
        "choice": lambda: read_word(node, declared, label),
        "names": lambda: read_names(node, label),
        "grid": lambda: read_grid(node, declared, label, block_unit),
    }
    return readers[declared.form]()


def read_number(node: Node, declared: ValueType, label: str, unit: Unit | None = None) -> float:
    """Read one number with its unit and hold it against the declared range."""
    scalar = _scalar(node, label, "one number")
    return _number(scalar.text, scalar.place, declared, label, unit)


def read_band(node: Node, declared: ValueType, label: str, unit: Unit | None = None) -> Band:
    """Read ``low / target / high unit``, ``low / high unit`` or a mapping of the parts."""
    if isinstance(node, Mapping):
        return _band_of_parts(node, declared, label, unit)
    scalar = _scalar(node, label, "a band such as 0.080 / 0.090 / 0.100 mm")
    pieces = [piece.strip() for piece in scalar.text.split(" / ")]
    wanted = 3 if declared.form == "band" else 2
    if len(pieces) != wanted:
        sample = "low / target / high" if wanted == 3 else "low / high"
        raise bad(
            f"{label} is {scalar.text!r}, not {sample}",
            f"write {wanted} numbers with ' / ' between them and the unit once, at the end",
            scalar.place,
        )
    suffix = _unit_text(pieces[-1])
    texts = [*(f"{piece} {suffix}".strip() for piece in pieces[:-1]), pieces[-1]]
    one = declared.as_number()
    numbers = [_number(text, scalar.place, one, label, unit) for text in texts]
    return _rising(numbers, scalar.text, scalar.place, label)


def read_word(node: Node, declared: ValueType, label: str) -> str:
    """Read one word of a choice."""
    scalar = _scalar(node, label, "one word")
    word = scalar.text.strip()
    if word in declared.words:
        return word
    offer = nearest(word, declared.words)
    allowed = ", ".join(declared.words)
    hint = f"did you mean {offer}? " if offer else ""
    raise bad(
        f"{label} is {word!r}, which is not one of its words",
        f"{hint}allowed: {allowed}",
        scalar.place,
    )


def read_names(node: Node, label: str) -> Names:
    """Read a list of names written with commas, or as a YAML list."""
    if isinstance(node, Sequence):
        words = [_scalar(item, label, "a name").text.strip() for item in node.items]
    else:
        text = _scalar(node, label, "names").text
        words = [word.strip() for word in text.split(",")]
    return Names(called=tuple(word for word in words if word and word not in ("none", "-")))


def read_grid(node: Node, declared: ValueType, label: str, unit: Unit | None = None) -> Grid:
    """Read readings of one item: a list of rows, or one row, or one number."""
    rows = _rows(node, label)
    one = declared.as_number()
    grid = tuple(
        tuple(
            read_number(cell, one, f"{label}, row {r}, reading {c}", unit or declared.unit)
            for c, cell in enumerate(row.items, 1)
        )
        for r, row in enumerate(rows, 1)
    )
    widths = {len(row) for row in grid}
    if len(widths) != 1 or 0 in widths:
        raise bad(
            f"{label} has rows of {', '.join(str(len(row)) for row in grid)} readings",
            "give every depth or plane the same number of readings",
            node.place,
        )
    return grid


def quantity_or_problem(
    text: str, place: Place | None, expected: Dimension | None = None, label: str = ""
) -> Quantity:
    """Read a number with its unit, or raise the problem at its place."""
    try:
        return parse_quantity(text, expected)
    except BorewrightError as error:
        lead = f"{label}: " if label else ""
        raise Unreadable(Problem(f"{lead}{error.problem}", error.remedy, place)) from error


def unit_or_problem(text: str, place: Place | None) -> Unit:
    """Find a unit by its shop spelling, or raise the problem at its place."""
    try:
        return find_unit(text)
    except BorewrightError as error:
        raise Unreadable(Problem(error.problem, error.remedy, place)) from error


def _scalar(node: Node, label: str, wanted: str) -> Scalar:
    if isinstance(node, Scalar):
        if node.value is None:
            raise bad(f"{label} is empty", f"write {wanted}, or take the line out", node.place)
        return node
    found = "a list" if isinstance(node, Sequence) else "a block of keys"
    raise bad(f"{label} is {found}, where {wanted} belongs", f"write {wanted}", node.place)


def _number(
    text: str, place: Place | None, declared: ValueType, label: str, block: Unit | None
) -> float:
    """Read a number; a bare one takes the block's unit, or is refused where a unit is due."""
    bare = _bare(text)
    if bare is not None:
        return _bare_number(bare, text, place, declared, label, block)
    expected = declared.dimension if declared.unit is not None else None
    quantity = quantity_or_problem(text, place, expected, label)
    if quantity.unit.dimension != declared.dimension:
        raise bad(f"{label} is {text}, and it takes a plain number", "leave the unit out", place)
    if quantity.kind and declared.kind and quantity.kind != declared.kind:
        raise bad(
            f"{label} is {text}: {quantity.kind}, but it must be {declared.kind}",
            f"write the {declared.kind} figure",
            place,
        )
    return inside(quantity.si, quantity.value, quantity.unit, place, declared, label)


def _bare_number(
    number: float,
    text: str,
    place: Place | None,
    declared: ValueType,
    label: str,
    block: Unit | None,
) -> float:
    if block is not None and block.dimension == declared.dimension:
        return inside(to_si(number, block), number, block, place, declared, label)
    if declared.unit is None:
        return inside(number, number, None, place, declared, label)
    likely = f"{text} {declared.unit.name}"
    if declared.holds(to_si(number, declared.unit)):
        fix = f"write {likely}, if that is what was meant"
    else:
        offers = plausible(number, None, declared)
        hint = f"did you mean {' or '.join(offers)}? " if offers else ""
        fix = f"{hint}write the value with its unit, as in {sample_text(declared)}"
    raise bad(f"{label} is {text}, which has no unit", fix, place)


def _bare(text: str) -> float | None:
    """Return the number when the text is nothing else."""
    if text.strip()[-1:].isalpha() or "%" in text:
        return None
    try:
        return parse_number(text)
    except BorewrightError:
        return None


def _unit_text(text: str) -> str:
    """Return what follows the number."""
    parts = text.split(None, 1)
    return parts[1] if len(parts) == 2 else ""


def _rising(numbers: list[float], text: str, place: Place | None, label: str) -> Band:
    if sorted(numbers) != numbers:
        raise bad(
            f"{label} is {text}, which does not rise from low to high",
            "write the smallest first",
            place,
        )
    if len(numbers) == 2:
        return Band(numbers[0], numbers[1])
    return Band(numbers[0], numbers[2], numbers[1])


def _band_of_parts(node: Mapping, declared: ValueType, label: str, unit: Unit | None) -> Band:
    parts = {}
    for name in ("low", "target", "high"):
        part = node.get(name)
        if part is not None:
            parts[name] = read_number(part, declared.as_number(), f"{label}.{name}", unit)
    if "low" not in parts or "high" not in parts:
        raise bad(f"{label} has no low and high", "give low: and high:", node.place)
    numbers = [parts[name] for name in ("low", "target", "high") if name in parts]
    return _rising(numbers, "these parts", node.place, label)


def _rows(node: Node, label: str) -> list[Sequence]:
    if isinstance(node, Scalar):
        return [Sequence((node,), node.place, node.span)]
    if isinstance(node, Mapping):
        raise bad(
            f"{label} is a block of keys, where readings belong",
            "write a list of readings",
            node.place,
        )
    if all(isinstance(item, Scalar) for item in node.items):
        return [node]
    rows = []
    for item in node.items:
        if not isinstance(item, Sequence):
            raise bad(
                f"{label} mixes rows and single readings",
                "write one list for each depth or plane",
                item.place,
            )
        rows.append(item)
    return rows
