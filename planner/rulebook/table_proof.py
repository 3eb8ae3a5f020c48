"""Proof of a decision table: no two rows at odds, no case without a row, no idle row."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from planner.errors import Place, Problem
from planner.records import record
from planner.rulebook.axes import Run, bits
from planner.rulebook.cases import Case, tell
from planner.rulebook.cover import Box, Budget, TooTangled, covers, grown, uncovered, volume
from planner.rulebook.hits import Hit
from planner.rulebook.proof_words import dead_problem, gap_problem, overlap_problems, tangled
from planner.rulebook.tables import Table

SHOWN_OVERLAPS = 20
SHOWN_GAPS = 5


@record
class Overlap:
    """Two rows that answer the same case and may not, and where they meet."""

    first: int
    second: int
    case: Case


@record
class Dead:
    """A row that never answers, and the rows that take its cases."""

    row: int
    because: tuple[int, ...]


@record
class TableProof:
    """What was found on a table.

    Attributes
    ----------
    overlaps
        Pairs of rows at odds; the first ones where there are many.
    more_overlaps
        How many further pairs there are.
    gaps
        Stretches of cases without a row, apart from each other; at most five.
    dead
        Rows that never answer.
    given_up
        Whether a search was cut short; the table is then not proved.
    """

    table: Table
    overlaps: tuple[Overlap, ...]
    more_overlaps: int
    gaps: tuple[Case, ...]
    dead: tuple[Dead, ...]
    given_up: bool

    @property
    def holds(self) -> bool:
        """Whether the table is proved."""
        return not (self.overlaps or self.gaps or self.dead or self.given_up)

    def problems(self, place: Place | None) -> list[Problem]:
        """Tell what was found, each with its fix.

        Parameters
        ----------
        place
            Where the table stands, for what no single row is to blame for.
        """
        rows, hit = self.table.rows, self.table.hit
        found = overlap_problems(
            hit,
            [(rows[each.first], rows[each.second], each.case) for each in self.overlaps],
            self.more_overlaps,
        )
        found += [gap_problem(case, place) for case in self.gaps]
        for dead in self.dead:
            found.append(dead_problem(hit, rows[dead.row], [rows[each] for each in dead.because]))
        return [*found, tangled(len(rows), place)] if self.given_up else found


def prove(table: Table) -> TableProof:
    """Prove a table, or find what is wrong with it.

    Parameters
    ----------
    table
        The table as it will run.

    Returns
    -------
    TableProof
        Overlaps under hit unique, overlaps with different results under hit any, cases
        without a row unless the hit policy allows them, and rows that never answer.
    """
    overlaps, total = _overlaps(table)
    budget = Budget()
    gaps: tuple[Case, ...] = ()
    dead: tuple[Dead, ...] = ()
    given_up = False
    try:
        gaps = tuple(_gaps(table, budget, disjoint=table.hit is Hit.UNIQUE and not total))
        dead = tuple(_dead(table, budget))
    except TooTangled:
        given_up = True
    return TableProof(table, tuple(overlaps), total - len(overlaps), gaps, dead, given_up)


def _overlaps(table: Table) -> tuple[list[Overlap], int]:
    """Find the pairs of rows at odds: the first ones, and how many there are."""
    if table.hit not in (Hit.UNIQUE, Hit.ANY):
        return [], 0
    alike = _alike(table) if table.hit is Hit.ANY else {}
    found: list[Overlap] = []
    total = 0
    for second, meeting in _earlier_meeting(table, tuple(range(len(table.rows)))):
        at_odds = meeting & ~alike.get(table.rows[second].result, 0)
        total += at_odds.bit_count()
        for first in bits(at_odds):
            if len(found) == SHOWN_OVERLAPS:
                break
            shared = zip(table.sides[first], table.sides[second], strict=True)
            case = tell(table.axes, tuple(a & b for a, b in shared))
            found.append(Overlap(first, second, case))
    return found, total


def _alike(table: Table) -> dict[object, int]:
    """Give for each result the mask of the rows that say it."""
    masks: dict[object, int] = defaultdict(int)
    for at, row in enumerate(table.rows):
        masks[row.result] |= 1 << at
    return masks


def _earlier_meeting(table: Table, order: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Go through the rows in an order; with each, the mask of those before it that it meets."""
    seen: list[dict[tuple[Run, ...], int]] = [{} for _ in table.axes]
    before = 0
    for row in order:
        meeting = before
        for column, by_row in enumerate(table.runs):
            runs = by_row[row]
            if runs not in seen[column]:
                seen[column][runs] = table.touching(column, runs)
            meeting &= seen[column][runs]
        yield row, meeting
        before |= 1 << row


def _gaps(table: Table, budget: Budget, *, disjoint: bool) -> Iterator[Case]:
    """Find stretches without a row; rows that are apart need only be added up."""
    if not table.hit.must_be_complete:
        return
    if disjoint and sum(map(table.volume, range(len(table.rows)))) == volume(table.domain):
        return
    boxes: list[Box] = list(table.sides)
    for _ in range(SHOWN_GAPS):
        free = uncovered(table.domain, boxes, budget)
        if free is None:
            return
        wide = grown(free, table.domain, boxes)
        yield tell(table.axes, wide)
        boxes.append(wide)


def _dead(table: Table, budget: Budget) -> Iterator[Dead]:
    """Find rows all of whose cases go to rows that win over them."""
    if table.hit is Hit.UNIQUE or table.hit.collects:
        return
    for row, meeting in _earlier_meeting(table, table.order):
        box = table.sides[row]
        winners = list(bits(meeting))
        if winners and uncovered(box, [table.sides[each] for each in winners], budget) is None:
            alone = [each for each in winners if covers(table.sides[each], box)]
            yield Dead(row, tuple(alone[:1] or winners))
