"""From a table to readings: which column is what, and each figure with its unit checked."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property

from planner.datafiles.nodes import Scalar
from planner.errors import BorewrightError, Problem, ProblemsFound
from planner.rulebook.literals import read_literal
from planner.rulebook.ranges import Unreadable
from planner.rulebook.syntax import Field
from planner.teardown.asked import Asked, plain_name
from planner.teardown.columns import Column, Columns
from planner.teardown.table import Cell, Table
from planner.units import NONE, Unit, find_unit, parse_quantity

NAMED_KINDS = ("gauge", "absolute")


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of the table: what it measures, where, and how it was written.

    Attributes
    ----------
    item, row, axis
        Where: the item's number, and for a grid the words of its row and axis.
    text, unit, si
        As written, its unit as written, and in SI.
    """

    input: Field
    item: str
    row: str
    axis: str
    text: str
    unit: Unit | None
    si: float
    cell: Cell


@dataclass
class Sheet:
    """Reads one table for one job, collecting every problem.

    Attributes
    ----------
    asked
        What the job can take.
    table
        The table.
    reading
        The reading that a grid is about, where the table does not say.
    """

    asked: Asked
    table: Table
    reading: str = ""
    problems: list[Problem] = field(default_factory=list)

    @cached_property
    def columns(self) -> Columns:
        """What each column is."""
        return Columns(self.asked, self.table, self.reading, self.problems)

    def figures(self) -> list[Figure]:
        """Return every figure of the table.

        Raises
        ------
        ProblemsFound
            With everything that is wrong in it, each at its row and column.
        """
        columns = self.columns.read()
        rows = () if self.problems else self.table.rows
        found = [figure for row in rows for figure in self._row(row, columns)]
        self._twice(found)
        if self.problems:
            raise ProblemsFound(self.problems)
        if not found:
            fix = "fill the figures in, one row below the header at least"
            raise ProblemsFound(
                [self._problem("the table has no figures", fix, self.table.header[0])]
            )
        return found

    # ------------------------------------------------------------------ rows
    def _row(self, cells: tuple[Cell, ...], columns: list[Column]) -> Iterator[Figure]:
        by_role = {each.role: cell for each, cell in zip(columns, cells, strict=True) if each.role}
        for each, cell in zip(columns, cells, strict=True):
            if each.role == "value":
                yield from self._listed(each, cell, by_role, columns)
            elif each.role == "axis value" and each.input is not None and cell.text:
                axis = each.name if each.input.type.form == "grid" else ""
                yield from self._figure(each.input, cell, each.unit, by_role, columns, axis)

    def _listed(
        self, column: Column, cell: Cell, roles: dict[str, Cell], columns: list[Column]
    ) -> Iterator[Figure]:
        if not cell.text:
            return
        named = roles.get("reading")
        name = named.text if named is not None and named.text else self.reading
        found = self.asked.named(name) if name else self.columns.reading()
        if found is None:
            where = named if named is not None else cell
            fix = f"{self.asked.nearest_to(name)}name it in a column reading, or with --reading"
            self.problems.append(self._problem(f"there is no reading {name!r}", fix, where))
            return
        stated = roles.get("unit")
        unit = self.columns.unit(stated.text, stated) if stated is not None else None
        axis = roles["axis"].text if "axis" in roles else ""
        yield from self._figure(found, cell, unit or column.unit, roles, columns, axis)

    def _figure(
        self,
        each: Field,
        cell: Cell,
        unit: Unit | None,
        roles: dict[str, Cell],
        columns: list[Column],
        axis: str,
    ) -> Iterator[Figure]:
        item = self._item(each, roles.get("item"), columns, cell)
        if item is None:
            return
        row = roles["row"].text if "row" in roles else ""
        text = cell.text.replace(",", ".") if self.table.comma_decimals else cell.text
        unit = unit or self._stated(each)
        if self._lacks_unit(each, cell, text, unit):
            return
        node = Scalar(text, text, quoted=False, place=cell.place, span=(0, 0))
        place = ", ".join(part for part in (row, axis) if part)
        label = f"{self.asked.label(each, item)}{f', {place}' if place else ''}"
        try:
            value = read_literal(node, replace(each.type.as_number(), per=()), label, unit)
        except Unreadable as error:
            self.problems.append(error.problem)
            return
        if isinstance(value, float):
            yield Figure(each, item, row, axis, text, unit, value, cell)

    def _stated(self, each: Field) -> Unit | None:
        """Return the unit of the block in the job, where the table states none."""
        text = self.asked.unit_of(each)
        return find_unit(text) if text else None

    def _lacks_unit(self, each: Field, cell: Cell, text: str, unit: Unit | None) -> bool:
        """Refuse a figure without a unit, and a pressure that says neither gauge nor absolute."""
        if each.type.unit is None:
            return False
        if unit is None and _bare(text):
            fix = f"write the unit in the header: value [{each.type.unit.name}]"
            self.problems.append(self._problem(f"{cell.text!r} has no unit", fix, cell))
            return True
        kind = unit.kind if unit else None
        if each.type.kind in NAMED_KINDS and kind is None and _kind_of(text) is None:
            name = unit.name if unit else each.type.unit.name
            what = f"{cell.text!r} does not say gauge or absolute"
            fix = f"write the unit in the header: value [{name} gauge]"
            self.problems.append(self._problem(what, fix, cell))
            return True
        return False

    def _item(self, each: Field, at: Cell | None, columns: list[Column], cell: Cell) -> str | None:
        """Read which item a row is about."""
        if not each.type.per:
            return ""
        spoken, known = self.asked.called(each.type.per[0]), self.asked.items(each)
        column = next((one for one in columns if one.role == "item"), None)
        if at is None or column is None or not at.text:
            fix = f"add a column {spoken} with its number"
            self.problems.append(
                self._problem(f"{each.name} has one for each {spoken}; which?", fix, at or cell)
            )
            return None
        if column.set_name and column.set_name != each.type.per[0]:
            what = f"{each.name} is for each {spoken}, and the column counts {column.name}"
            self.problems.append(self._problem(what, f"head it {spoken}", at))
            return None
        name, _, number = at.text.rpartition(" ")
        number = _whole(number)
        if name and self.asked.set_called(name) != each.type.per[0]:
            number = ""
        if number not in known:
            span = f"{known[0]} to {known[-1]}" if known else "none"
            what = f"there is no {spoken} {at.text!r}"
            self.problems.append(self._problem(what, f"this engine has {spoken} {span}", at))
            return None
        return number

    def _twice(self, figures: list[Figure]) -> None:
        """Refuse a place that is filled twice: the second reading would wipe out the first."""
        seen: dict[tuple[str, ...], Figure] = {}
        for each in figures:
            key = (each.input.name, each.item, plain_name(each.row), plain_name(each.axis))
            first = seen.setdefault(key, each)
            if first is not each:
                what = f"{self.asked.label(each.input, each.item)} is filled twice"
                fix = f"keep one; the other stands at {first.cell.place}"
                self.problems.append(self._problem(what, fix, each.cell))

    def _problem(self, what: str, fix: str, cell: Cell) -> Problem:
        return Problem(what, fix, cell.place)


def _whole(text: str) -> str:
    """Read an item's number, as a spreadsheet may write it: 3, 3.0, 03."""
    try:
        number = float(text.replace(",", "."))
    except ValueError:
        return text
    return str(int(number)) if number == int(number) else text


def _bare(text: str) -> bool:
    return not any(sign.isalpha() for sign in text.replace("e", "").replace("E", ""))


def _kind_of(text: str) -> str | None:
    try:
        quantity = parse_quantity(text)
    except BorewrightError:
        return None
    return None if quantity.unit.dimension == NONE else quantity.kind
