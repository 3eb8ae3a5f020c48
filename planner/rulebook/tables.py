"""Decision tables: columns, cells, lookup and proof, apart from any file format.

Everything here works on text, a :class:`planner.errors.Place` and SI floats. Reading goes::

    span = parse_range("[0 bar .. 4 bar]", place, unit=bar, kind="gauge")  # Span | Problem
    boost = NumberColumn("boost", span, bar, "gauge", "[0 bar .. 4 bar]")
    use = ChoiceColumn("use", ("endurance", "track", "street"))
    cell = parse_cell("over 0.7 to 1.4 bar", boost, place)  # Cell | Problem
    hit = parse_hit("collect min", place)  # Hit | Problem
    row = Row(cells=(cell, other), result=anything, place=place, rank=0)
    table = Table((boost, use), (row, ...), hit)
    proof = prove(table)  # TableProof

and running::

    table.lookup((0.9e5, "street"))  # positions of every row that matches, in row order
    table.decide((0.9e5, "street"))  # those that answer: one, or all where the table collects
    table.could_match((Interval(0.5e5, 0.9e5), OneOf(("street", "track"))))  # Could(rows, surely)

Public signatures
-----------------
columns.py
    ``Span(low, high, low_open=False, high_open=False)``: SI floats; ``contains(si) -> bool``
    ``NumberColumn(name, span, unit, kind, declared)``: ``unit`` is a ``planner.units`` Unit, or
    None for a plain number; ``kind`` is None where the quantity has none; ``declared`` is the
    range as the rulebook wrote it, for messages
    ``ChoiceColumn(name, words)``; ``Column = NumberColumn | ChoiceColumn``
    ``parse_range(text, place, *, unit, kind=None) -> Span | Problem``
cells.py
    ``parse_cell(text, column, place) -> Cell | Problem``
    ``any_cell(column) -> Cell``
    ``NumberCell(spans, text)``, ``ChoiceCell(words, text)``; both have ``contains(value) -> bool``
    and ``meets(unsettled) -> bool`` (could hold), ``holds_all(unsettled) -> bool`` (surely holds);
    unsettled values are the ``Interval`` and ``OneOf`` of values.py
hits.py
    ``Hit``: UNIQUE ANY FIRST PRIORITY COLLECT COLLECT_MIN COLLECT_MAX COLLECT_SUM COLLECT_COUNT;
    ``hit.collects``, ``hit.must_be_complete``
    ``parse_hit(text, place) -> Hit | Problem``: ``unique``, ``collect``, ``collect sum`` ...
    ``gather(hit, numbers) -> float``: the number a collect table gives from its rows' numbers
tables.py
    ``Row(cells, result, place, rank=0)``: results are opaque; under hit any they must be
    hashable, equal when they say the same. ``rank`` is for hit
    priority alone: the result's position in ``one_of``, 0 wins over 1
    ``Table(columns, rows, hit)`` with ``lookup``, ``decide``, ``could_match`` as above,
    ``could_decide(values) -> list[int]`` (rows that could answer) and
    ``slots(values) -> tuple[int, ...]``, ``rows_at(slots) -> int`` (bit r is row r);
    a value outside its column's declared range raises ``columns.OutsideDeclaredRange``
table_proof.py
    ``prove(table) -> TableProof(overlaps, gaps, dead, more_overlaps, given_up)``;
    ``proof.holds -> bool``; ``proof.problems(place) -> list[Problem]`` in shop words, where
    ``place`` is the table's own (a gap has no row to point at)
"""

from collections.abc import Sequence
from functools import cached_property
from math import prod

from planner.errors import Place
from planner.records import record
from planner.rulebook.axes import Axis, Run, Settled, Unsettled, bits, cut, run_mask
from planner.rulebook.cells import Cell
from planner.rulebook.columns import Column
from planner.rulebook.hits import Hit
from planner.rulebook.slot_index import RangeUnion, rows_by_slot

Sides = tuple[int, ...]
"""A box in the table's space: for each column, the mask of slots it takes up."""


@record
class Row:
    """One row: a cell for each column, and what it answers.

    Attributes
    ----------
    cells
        In the order of the columns.
    result
        What the row gives; the table hands it back and only compares it.
    place
        Where the row stands.
    rank
        For hit priority: the result's position in ``one_of``; a lower one wins.
    """

    cells: tuple[Cell, ...]
    result: object
    place: Place
    rank: int = 0


@record
class Could:
    """Rows that could apply to a case not yet settled, and those that surely do."""

    rows: list[int]
    surely: list[int]


class Table:
    """A decision table, cut into slots; the same slots are proved and looked up.

    Parameters
    ----------
    columns
        What the table reads.
    rows
        In the order they are written.
    hit
        How many rows may match a case, and which of them answer.

    Examples
    --------
    >>> from planner.rulebook.cells import parse_cell
    >>> from planner.rulebook.columns import ChoiceColumn
    >>> use = ChoiceColumn("use", ("track", "street"))
    >>> here = Place("rules/demo.yaml", 1, 1)
    >>> rows = [Row((parse_cell(text, use, here),), text, here) for text in ("track", "any")]
    >>> table = Table((use,), rows, Hit.FIRST)
    >>> table.lookup(("track",)), table.decide(("track",))
    ([0, 1], [0])
    """

    def __init__(self, columns: Sequence[Column], rows: Sequence[Row], hit: Hit) -> None:
        self.columns = tuple(columns)
        self.rows = tuple(rows)
        self.hit = hit
        by_column = [[row.cells[at] for row in self.rows] for at in range(len(self.columns))]
        self.axes = tuple(
            cut(column, cells) for column, cells in zip(self.columns, by_column, strict=True)
        )
        self.runs = tuple(
            _runs_of(axis, cells) for axis, cells in zip(self.axes, by_column, strict=True)
        )
        self._index = [
            rows_by_slot(axis.count, runs) for axis, runs in zip(self.axes, self.runs, strict=True)
        ]

    def slots(self, values: Sequence[Settled]) -> tuple[int, ...]:
        """Find the slot of each value, one for each column.

        Raises
        ------
        OutsideDeclaredRange
            When the table was not proved for a value.
        """
        return tuple(axis.slot(value) for axis, value in zip(self.axes, values, strict=True))

    def rows_at(self, slots: Sequence[int]) -> int:
        """Give the mask of the rows that match in the given slots; bit r is row r."""
        mask = (1 << len(self.rows)) - 1
        for by_slot, slot in zip(self._index, slots, strict=True):
            mask &= by_slot[slot]
        return mask

    def lookup(self, values: Sequence[Settled]) -> list[int]:
        """Find every row that matches the values, in row order.

        Parameters
        ----------
        values
            One for each column: a float in SI, or a word.

        Returns
        -------
        list of int
            Positions in ``rows``.

        Raises
        ------
        OutsideDeclaredRange
            When the table was not proved for a value.
        """
        return list(bits(self.rows_at(self.slots(values))))

    def decide(self, values: Sequence[Settled]) -> list[int]:
        """Find the rows that answer: one, or every matching row where the table collects.

        Nothing is found only where the hit policy allows a case without a row.
        """
        return self._answering(self.lookup(values))

    def could_match(self, values: Sequence[Unsettled]) -> Could:
        """Find the rows that could apply while some values are not settled.

        Parameters
        ----------
        values
            One for each column: a float or an :class:`Interval`, a word or a :class:`OneOf`.

        Returns
        -------
        Could
            ``rows`` match somewhere in what is left open, ``surely`` match everywhere in it.
        """
        could = surely = (1 << len(self.rows)) - 1
        for axis, by_slot, value in zip(self.axes, self._index, values, strict=True):
            somewhere, everywhere = 0, could
            for slot in axis.reach(value):
                somewhere |= by_slot[slot]
                everywhere &= by_slot[slot]
            could &= somewhere
            surely &= everywhere
        return Could(list(bits(could)), list(bits(surely)))

    def could_decide(self, values: Sequence[Unsettled]) -> list[int]:
        """Find the rows that could answer while some values are not settled.

        A row that surely applies shuts out every row that would have to give way to it.
        """
        could = self.could_match(values)
        if self.hit.collects or not could.surely:
            return could.rows
        order = {row: at for at, row in enumerate(self.order)}
        winner = min(order[row] for row in could.surely)
        return [row for row in could.rows if order[row] <= winner]

    @cached_property
    def order(self) -> tuple[int, ...]:
        """Rows in the order in which they win: by rank under priority, else as written."""
        rows = range(len(self.rows))
        if self.hit is Hit.PRIORITY:
            return tuple(sorted(rows, key=lambda row: self.rows[row].rank))
        return tuple(rows)

    @cached_property
    def domain(self) -> Sides:
        """Every case of the declared ranges."""
        return tuple(axis.domain for axis in self.axes)

    @cached_property
    def sides(self) -> tuple[Sides, ...]:
        """The box of each row: for each column, the slots its cell admits."""
        masks = [{each: sum(map(run_mask, each)) for each in set(by_row)} for by_row in self.runs]
        rows = range(len(self.rows))
        return tuple(
            tuple(mask[by_row[at]] for mask, by_row in zip(masks, self.runs, strict=True))
            for at in rows
        )

    def volume(self, row: int) -> int:
        """Count the slots of a row's box."""
        sizes = (sum(last - first + 1 for first, last in each[row]) for each in self.runs)
        return prod(sizes)

    def touching(self, column: int, runs: tuple[Run, ...]) -> int:
        """Give the mask of the rows whose cell in a column admits any of the slots."""
        union = self._unions[column]
        mask = 0
        for run in runs:
            mask |= union.over(run)
        return mask

    @cached_property
    def _unions(self) -> list[RangeUnion]:
        return [RangeUnion(by_slot) for by_slot in self._index]

    def _answering(self, matching: list[int]) -> list[int]:
        """Keep the row that wins, unless the table collects."""
        if self.hit.collects or not matching:
            return matching
        if self.hit is Hit.PRIORITY:
            return [min(matching, key=lambda row: self.rows[row].rank)]
        return matching[:1]


def _runs_of(axis: Axis, cells: Sequence[Cell]) -> tuple[tuple[Run, ...], ...]:
    """Give the slots each row takes up in a column; a cell object used again is seen once."""
    seen: dict[int, tuple[Run, ...]] = {}
    for cell in cells:
        if id(cell) not in seen:
            seen[id(cell)] = tuple(axis.runs(cell))
    return tuple(seen[id(cell)] for cell in cells)
