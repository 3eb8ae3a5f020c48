"""Readings as grids to type in: what is asked of a component, what the job holds, what came."""

import csv
import io
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from planner.rulebook.ranges import range_text
from planner.rulebook.syntax import Field
from planner.teardown.asked import AXES, ROWS, Asked
from planner.teardown.exporting import HEADER, exported
from planner.units import find_unit

PREFIX = "v"
Values = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Box:
    """One box: the key it is sent under, what it is called, and what the job holds."""

    key: str
    label: str
    value: str
    saved: str


@dataclass(frozen=True, slots=True)
class Line:
    """One row of boxes, of one item."""

    head: str
    item: str
    boxes: tuple[Box, ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """One reading: how it is taken, and its boxes.

    Attributes
    ----------
    whole
        Whether an item is taken only with all its boxes filled.
    """

    name: str
    ask: str
    how: str
    reach: str
    unit: str
    columns: tuple[str, ...]
    lines: tuple[Line, ...]
    whole: bool


@dataclass(frozen=True, slots=True)
class Sent:
    """What a form brings.

    Attributes
    ----------
    table
        The filled boxes as the table that `readings` takes; items that lack a box are left out.
    keys
        The box behind each row of the table.
    lacking
        Items with some boxes filled and some not.
    """

    table: str
    keys: tuple[str, ...]
    lacking: tuple[str, ...]


def counts_of(asked: Asked, parts: Mapping[str, list[Field]]) -> dict[str, tuple[int, int]]:
    """Count for each component the readings that the job holds, and those asked."""
    return {
        name: (sum(asked.facts.inputs.get(each.name) is not None for each in fields), len(fields))
        for name, fields in parts.items()
    }


def grids_of(asked: Asked, fields: Iterable[Field], typed: Values | None = None) -> list[Grid]:
    """Make the grids of a component.

    Parameters
    ----------
    asked
        The job.
    fields
        What is measured on it.
    typed
        What a form brought, where it could not be taken.

    Returns
    -------
    list of Grid
        One for each reading.
    """
    listed = list(fields)
    held = _held(asked, tuple(each.name for each in listed))
    return [_grid(asked, each, held, typed or {}) for each in listed]


def sent_of(grids: Iterable[Grid], typed: Values) -> Sent:
    """Write what a form brings as a table."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEADER)
    keys: list[str] = []
    lacking: list[str] = []
    for grid in grids:
        for head, lines in _by_item(grid).items():
            boxes = [box for line in lines for box in line.boxes]
            filled = [box for box in boxes if typed.get(box.key, "").strip()]
            if grid.whole and filled and len(filled) < len(boxes):
                lacking.append(f"{grid.name.replace('_', ' ')}, {head}" if head else grid.name)
                continue
            for box in filled:
                _, name, item, row, axis = box.key.split("|")
                called = f"{lines[0].item} {item}".strip()
                value = typed[box.key].strip().replace(",", ".")
                writer.writerow((name, called, row, axis, value, grid.unit))
                keys.append(box.key)
    return Sent(out.getvalue(), tuple(keys), tuple(lacking))


def label_of(key: str) -> str:
    """Say which box a key is of."""
    return ", ".join(part.replace("_", " ") for part in key.split("|")[1:] if part)


def _by_item(grid: Grid) -> dict[str, list[Line]]:
    found: dict[str, list[Line]] = {}
    for line in grid.lines:
        item = line.boxes[0].key.split("|")[2] if grid.whole else line.head
        found.setdefault(f"{line.item} {item}".strip() if grid.whole else item, []).append(line)
    return found


def _held(asked: Asked, names: tuple[str, ...]) -> dict[tuple[str, ...], str]:
    """Return every figure that the job holds, by reading, item, row and axis."""
    rows = csv.reader(io.StringIO(exported(asked, names)))
    next(rows)
    return {
        (name, item.rpartition(" ")[2], row, axis): text for name, item, row, axis, text, _ in rows
    }


def _grid(asked: Asked, each: Field, held: Mapping[tuple[str, ...], str], typed: Values) -> Grid:
    whole = each.type.form == "grid"
    rows, axes = _points(asked, each, held) if whole else (("",), ("",))
    spoken = asked.called(each.type.per[0]) if each.type.per else ""

    def box(item: str, row: str, axis: str) -> Box:
        key = "|".join((PREFIX, each.name, item, row, axis))
        saved = held.get((each.name, item, row, axis), "")
        places = (asked.label(each, item).replace("_", " "), row, axis)
        return Box(key, ", ".join(p for p in places if p), typed.get(key, saved), saved)

    lines = [
        Line(
            ", ".join(p for p in (f"{spoken} {item}".strip(), row) if p),
            spoken,
            tuple(box(item, row, a) for a in axes),
        )
        for item in asked.items(each)
        for row in rows
    ]
    return Grid(
        name=each.name,
        ask=each.ask,
        how=each.how,
        reach=range_text(each.type),
        unit=_unit(asked, each),
        columns=axes if whole else (),
        lines=tuple(lines),
        whole=whole,
    )


def _points(
    asked: Asked, each: Field, held: Mapping[tuple[str, ...], str]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return rows and axes: as the job lists or holds them, else as the rulebook asks."""
    first, last = (each.grid_axes[0], each.grid_axes[-1]) if each.grid_axes else ("", "")
    there = [key for key in held if key[0] == each.name]
    rows, axes = (tuple(dict.fromkeys(key[at] for key in there)) for at in (2, 3))
    return (
        asked.listed(each, ROWS) or rows or each.points.get(first, ("1",)),
        asked.listed(each, AXES) or axes or each.points.get(last, ("1", "2")),
    )


def _unit(asked: Asked, each: Field) -> str:
    """Return the unit that figures are typed in, as a table writes it."""
    declared = each.type.unit
    if declared is None:
        return ""
    stated = asked.unit_of(each)
    if stated and find_unit(stated).dimension == declared.dimension:
        return stated
    if each.type.kind in ("gauge", "absolute") and declared.kind is None:
        return f"{declared.name} {each.type.kind}"
    return declared.name


def filled_keys(form: Iterable[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """Return the boxes of a form, each with what was typed."""
    for key, value in form:
        if key.startswith(f"{PREFIX}|") and key.count("|") == 4:
            yield key, value[:40]
