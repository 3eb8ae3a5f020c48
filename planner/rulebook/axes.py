"""Columns cut into slots: within one slot, every cell of the column says the same.

A column of numbers is cut at the bounds its cells use, into points and the gaps between
them; a column of words has one slot a word. Sets of slots are whole numbers used as bit
masks: bit s stands for slot s.
"""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence

from planner.rulebook.cells import Cell, ChoiceCell, NumberCell
from planner.rulebook.columns import ChoiceColumn, Column, NumberColumn, OutsideDeclaredRange, Span
from planner.rulebook.values import Interval, OneOf
from planner.units.parse import round_significant

Settled = float | str
Unsettled = float | Interval | str | OneOf
Run = tuple[int, int]


def bits(mask: int) -> Iterator[int]:
    """Give the places of the ones in a mask, lowest first."""
    while mask:
        lowest = mask & -mask
        yield lowest.bit_length() - 1
        mask ^= lowest


def run_mask(run: Run) -> int:
    """Give the mask of the slots from one to another, both included."""
    first, last = run
    return ((1 << (last - first + 1)) - 1) << first


def first_run(mask: int) -> Run:
    """Give the lowest unbroken stretch of a mask that is not empty."""
    first = (mask & -mask).bit_length() - 1
    shifted = mask >> first
    return first, first + (~shifted & (shifted + 1)).bit_length() - 2


class NumberAxis:
    """A column of numbers cut at the bounds of its cells.

    Slot 2i is the bound ``cuts[i]`` itself, slot 2i + 1 the gap up to the next bound.
    """

    def __init__(self, column: NumberColumn, cells: Iterable[Cell]) -> None:
        self.column = column
        bounds = {column.span.low, column.span.high}
        for cell in cells:
            if isinstance(cell, NumberCell):
                bounds.update(each.low for each in cell.spans)
                bounds.update(each.high for each in cell.spans)
        self.cuts = sorted(bounds)
        self.count = 2 * len(self.cuts) - 1
        self._place = {cut: 2 * i for i, cut in enumerate(self.cuts)}
        self.domain = run_mask(self._run(column.span))

    def slot(self, value: Settled) -> int:
        """Find the slot a value lies in.

        Raises
        ------
        OutsideDeclaredRange
            When the table was not proved for the value.
        """
        if isinstance(value, str):
            raise _mixed_up(self.column, value)
        rounded = round_significant(value)
        if not self.column.span.contains(rounded):
            raise OutsideDeclaredRange(
                problem=f"{self.column.name} is {self.column.show(rounded)}.",
                reason=f"The table was proved for {self.column.declared} only.",
                remedy="Check the value, or widen the declared range and the rows.",
            )
        at = bisect_left(self.cuts, rounded)
        return 2 * at if self.cuts[at] == rounded else 2 * at - 1

    def reach(self, value: Unsettled) -> list[int]:
        """Find every slot that an unsettled value may turn out to lie in."""
        if isinstance(value, Interval):
            return list(range(self.slot(value.low), self.slot(value.high) + 1))
        if isinstance(value, OneOf):
            raise _mixed_up(self.column, ", ".join(value.words))
        return [self.slot(value)]

    def runs(self, cell: Cell) -> list[Run]:
        """Give the stretches of slots that a cell admits."""
        if isinstance(cell, ChoiceCell):
            raise _mixed_up(self.column, cell.text)
        return [self._run(span) for span in cell.spans]

    def words(self, mask: int) -> str:
        """Say the lowest stretch of a set of slots as a cell would."""
        first, last = first_run(mask)
        if mask == self.domain:
            return "any"
        if first == last and first % 2 == 0:
            return self.column.show(self.cuts[first // 2])
        low, high = self.cuts[first // 2], self.cuts[(last + 1) // 2]
        starts, ends = first == first_run(self.domain)[0], last == first_run(self.domain)[1]
        high_text = self.column.show(high)
        if starts:
            return f"{'under' if last % 2 else 'up to'} {high_text}"
        if ends:
            return f"{'over' if first % 2 else 'at least'} {self.column.show(low)}"
        opener, under = "over" if first % 2 else "from", "under " if last % 2 else ""
        return f"{opener} {self.column.number(low)} to {under}{high_text}"

    def example(self, mask: int) -> float:
        """Give a number from the lowest slot of a set."""
        slot, _ = first_run(mask)
        if slot % 2 == 0:
            return self.cuts[slot // 2]
        return (self.cuts[slot // 2] + self.cuts[slot // 2 + 1]) / 2

    def _run(self, span: Span) -> Run:
        return self._place[span.low] + span.low_open, self._place[span.high] - span.high_open


class WordAxis:
    """A column of words: one slot a word, in the order of the choice."""

    def __init__(self, column: ChoiceColumn) -> None:
        self.column = column
        self.count = len(column.words)
        self.domain = run_mask((0, self.count - 1))
        self._place = {word: at for at, word in enumerate(column.words)}

    def slot(self, value: Settled) -> int:
        """Find the slot of a word."""
        if isinstance(value, str) and value in self._place:
            return self._place[value]
        raise _mixed_up(self.column, value)

    def reach(self, value: Unsettled) -> list[int]:
        """Find the slots of the words that are left."""
        if isinstance(value, OneOf):
            return sorted(self.slot(word) for word in value.words)
        if isinstance(value, Interval):
            raise _mixed_up(self.column, value.low)
        return [self.slot(value)]

    def runs(self, cell: Cell) -> list[Run]:
        """Give the slots that a cell admits, each as a stretch of one."""
        if isinstance(cell, NumberCell):
            raise _mixed_up(self.column, cell.text)
        return [(at, at) for at in sorted(self._place[word] for word in cell.words)]

    def words(self, mask: int) -> str:
        """Say a set of slots as a cell would."""
        if mask == self.domain:
            return "any"
        return ", ".join(self.column.words[at] for at in bits(mask))

    def example(self, mask: int) -> str:
        """Give the first word of a set."""
        return self.column.words[first_run(mask)[0]]


Axis = NumberAxis | WordAxis


def cut(column: Column, cells: Sequence[Cell]) -> Axis:
    """Cut a column at the bounds of its cells."""
    if isinstance(column, NumberColumn):
        return NumberAxis(column, cells)
    return WordAxis(column)


def _mixed_up(column: Column, value: object) -> OutsideDeclaredRange:
    """Refuse a word where a number stands, the reverse, or a word the column has not."""
    due = f"one of {', '.join(column.words)}" if isinstance(column, ChoiceColumn) else "a number"
    return OutsideDeclaredRange(
        problem=f"{column.name} is {value!r}.",
        reason=f"The table was proved for {due}.",
        remedy="Check the value against the declaration of the name.",
    )
