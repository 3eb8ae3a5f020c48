"""The readings of a job as a table for a spreadsheet: one figure to a row."""

import csv
import io
from collections.abc import Iterator

from planner.rulebook.syntax import Field
from planner.teardown.asked import AXES, ROWS, Asked
from planner.units import find_unit, to_unit
from planner.units.table import Unit

HEADER = ("reading", "item", "row", "axis", "value", "unit")


def exported(asked: Asked, only: tuple[str, ...] = (), *, decimal_comma: bool = False) -> str:
    """Write every reading of a job as a table.

    Parameters
    ----------
    asked
        The job as read.
    only
        Inputs to write; all that the job holds when none is named.
    decimal_comma
        Whether to write decimal commas, with semicolons between cells.

    Returns
    -------
    str
        CSV that `borewright readings JOB FILE.csv` reads back to the same job.
    """
    out = io.StringIO()
    writer = csv.writer(out, delimiter=";" if decimal_comma else ",", lineterminator="\n")
    writer.writerow(HEADER)
    for each in asked.inputs():
        if not only or each.name in only:
            for row in _rows(asked, each):
                cells = [*row]
                cells[4] = cells[4].replace(".", ",") if decimal_comma else cells[4]
                writer.writerow(cells)
    return out.getvalue()


def _rows(asked: Asked, each: Field) -> Iterator[tuple[str, ...]]:
    fact = asked.facts.inputs.get(each.name)
    if fact is None:
        return
    unit = _unit(asked, each)
    name = unit.name if unit is not None else ""
    for key, entry in fact.entries.items():
        item = f"{asked.called(each.type.per[0])} {key[0]}" if key else ""
        if key and key not in fact.places:
            continue  # not listed in the job: looked at, and not found
        if isinstance(entry.value, float):
            yield each.name, item, "", "", _text(entry.value, unit), name
        elif isinstance(entry.value, tuple):
            for row, readings in zip(
                _names(asked, each, ROWS, len(entry.value)), entry.value, strict=True
            ):
                axes = _names(asked, each, AXES, len(readings))
                for axis, cell in zip(axes, readings, strict=True):
                    yield each.name, item, row, axis, _text(cell, unit), name


def _names(asked: Asked, each: Field, keys: tuple[str, ...], count: int) -> tuple[str, ...]:
    listed = asked.listed(each, keys)
    return listed if len(listed) == count else tuple(str(at) for at in range(1, count + 1))


def _unit(asked: Asked, each: Field) -> Unit | None:
    """Return the unit to write in: the block's own, else the declared one with its kind."""
    declared = each.type.unit
    stated = asked.unit_of(each)
    if declared is None:
        return None
    if stated and find_unit(stated).dimension == declared.dimension:
        return find_unit(stated)
    if each.type.kind in ("gauge", "absolute") and declared.kind is None:
        return find_unit(f"{declared.name} {each.type.kind}")
    return declared


def _text(si: float, unit: Unit | None) -> str:
    """Write a figure with the twelve digits that a reading carries."""
    return f"{to_unit(si, unit) if unit is not None else si:.12g}"
