"""Three columns that add up to the last place: each line takes its share of the whole range."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal

from planner.planning.cost_lines import Money3

ZERO = Decimal(0)


@dataclass(frozen=True, slots=True)
class Column:
    """One column: what each line comes to, and their sum."""

    lines: tuple[Decimal, ...]
    total: Decimal


def column(alone: Sequence[Money3], total: Decimal, places: int) -> Column:
    """Spread a total over lines so that they add up to it.

    Not every line comes out at its least when the job does. Each moves from its usual figure
    toward its least or its most by the same share of its own room, so it stays inside its own
    band and a low line is never above its likely one.

    Parameters
    ----------
    alone
        Least, usual and most of each line by itself.
    total
        What the whole job comes to in this column.
    places
        Decimal places of the currency.

    Returns
    -------
    Column
        Rounded lines and the total.

    Examples
    --------
    >>> ten = (Decimal(10), Decimal(20), Decimal(50))
    >>> column([ten, ten], Decimal("35.00"), 2).lines
    (Decimal('17.50'), Decimal('17.50'))
    """
    share = _share(alone, total)
    exact = [_moved(each, share) for each in alone]
    step = Decimal(1).scaleb(-places)
    lines = [each.quantize(step, ROUND_HALF_EVEN) for each in exact]
    if lines:
        # What rounding leaves over is a few of the last place: the widest line carries it.
        widest = max(range(len(alone)), key=lambda place: alone[place][2] - alone[place][0])
        lines[widest] += total - sum(lines, ZERO)
    return Column(tuple(lines), total)


def _share(alone: Sequence[Money3], total: Decimal) -> Decimal:
    """Return how far lines move: -1 all at their least, 0 as usual, 1 all at their most."""
    usual = sum((each[1] for each in alone), ZERO)
    end = 2 if total >= usual else 0
    room = abs(sum((each[end] for each in alone), ZERO) - usual)
    if not room:
        return ZERO
    return (total - usual) / room


def _moved(each: Money3, share: Decimal) -> Decimal:
    low, usual, high = each
    return usual + share * (high - usual if share >= 0 else usual - low)
