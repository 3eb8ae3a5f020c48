"""What each column of a table is: a role, an input, or an axis of a reading; and its unit."""

import re
from dataclasses import dataclass, replace

from planner.errors import BorewrightError, Problem, nearest
from planner.rulebook.syntax import Field
from planner.teardown.asked import Asked, plain_name
from planner.teardown.table import Cell, Table
from planner.units import Unit, find_unit

_UNIT = re.compile(r"^(.*?)\s*[\[(]\s*(.*?)\s*[\])]\s*$")
_ROLES = {
    "reading": "reading",
    "item": "item",
    "row": "row",
    "depth": "row",
    "plane": "row",
    "end": "row",
    "axis": "axis",
    "place": "axis",
    "side": "axis",
    "value": "value",
    "unit": "unit",
}


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its role, its name without the unit, and the unit that the header states."""

    role: str
    name: str
    cell: Cell
    unit: Unit | None = None
    input: Field | None = None
    set_name: str = ""


@dataclass(frozen=True, slots=True)
class Columns:
    """Reads the header of a table, adding to the problems found.

    Attributes
    ----------
    asked, table
        The job, and the table.
    named
        The reading that a grid is about, where the table does not say.
    problems
        Where to put what is wrong.
    """

    asked: Asked
    table: Table
    named: str
    problems: list[Problem]

    def read(self) -> list[Column]:
        """Return every column."""
        plain = [self._column(cell) for cell in self.table.header]
        roles = [each.role for each in plain]
        for at, each in enumerate(plain):
            if each.role and each.role != "axis value" and each.role in roles[:at]:
                self.problems.append(
                    _problem(
                        f"column {at + 1} is {each.name!r} a second time", "keep one", each.cell
                    )
                )
        if "value" in roles:
            return [self._long(each) for each in plain]
        return [self._grid(each) for each in plain]

    def _column(self, cell: Cell) -> Column:
        name, unit = cell.text, None
        match = _UNIT.match(cell.text)
        if match:
            name = match[1]
            unit = self.unit(match[2], cell)
        role = _ROLES.get(plain_name(name), "")
        set_name = self.asked.set_called(name)
        if set_name:
            return Column("item", name, cell, unit, set_name=set_name)
        return Column(role, name, cell, unit)

    def _long(self, each: Column) -> Column:
        if not each.role:
            self._unknown(each, [*_ROLES])
        return each

    def _grid(self, each: Column) -> Column:
        """Read a column of figures: an input by its name, or an axis of the reading."""
        if each.role in ("item", "row", "reading"):
            return each
        found = self.asked.named(each.name)
        if found is not None and found.type.form != "grid":
            return replace(each, role="axis value", input=found)
        reading = self.reading()
        if reading is None:
            self._no_reading(each)
            return each
        return replace(each, role="axis value", input=reading)

    def reading(self) -> Field | None:
        """Return the one grid that the table is about, by what was asked or the file's name."""
        stem = self.table.file.replace("\\", "/").rpartition("/")[2].rpartition(".")[0]
        for name in (self.named, self.table.header[0].text, stem):
            found = self.asked.named(name) if name else None
            if found is not None:
                return found
        return None

    def _no_reading(self, each: Column) -> None:
        offer = self.asked.nearest_to(each.name)
        fix = (
            f"{offer}name the reading: --reading bores, or call the file bores.csv; for one "
            "figure to an item write its name over the column"
        )
        what = f"column {each.cell.place.column} is {each.cell.text!r}, and no reading is named so"
        self.problems.append(_problem(what, fix, each.cell))

    def _unknown(self, each: Column, allowed: list[str]) -> None:
        offer = nearest(plain_name(each.name), allowed)
        hint = f"did you mean {offer}? " if offer else ""
        what = f"column {each.cell.place.column} is {each.cell.text!r}"
        fix = f"{hint}a list of readings has the columns reading, item, row, axis, value, unit"
        self.problems.append(_problem(what, fix, each.cell))

    def unit(self, text: str, cell: Cell) -> Unit | None:
        """Read a unit, or say what is wrong with it."""
        if not text:
            return None
        try:
            return find_unit(text)
        except BorewrightError as error:
            self.problems.append(_problem(error.problem, error.remedy, cell))
            return None


def _problem(what: str, fix: str, cell: Cell) -> Problem:
    return Problem(what, fix, cell.place)
