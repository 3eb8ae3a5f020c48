"""Put parts to places exactly: the least sum, the least worst, the most even."""

from collections.abc import Sequence
from dataclasses import dataclass

Costs = Sequence[Sequence[int | None]]
"""One row for each place, one column for each part; none where the part does not fit."""


@dataclass(slots=True)
class _Prices:
    """Where the search stands: a price for each row and column, and who has whom."""

    rows: list[int]
    columns: list[int]
    taken: list[int]


def cheapest(costs: Costs) -> tuple[int, ...] | None:
    """Give every place a part of its own so that the sum is least.

    Parameters
    ----------
    costs
        Whole numbers, for example in tenths of a micron; at least as many parts as places.

    Returns
    -------
    tuple of int or None
        The part of each place; nothing when no choice fits everywhere.

    Notes
    -----
    Successive shortest paths with prices (the Hungarian method), n squared times m steps. Whole
    numbers make it exact: sums of any length may be packed into one number.

    References
    ----------
    H. W. Kuhn, The Hungarian method for the assignment problem, Naval Research Logistics
    Quarterly 2 (1955); from memory, not opened.

    Examples
    --------
    >>> cheapest([[4, 1, 3], [2, 0, 5], [3, 2, 2]])
    (1, 0, 2)
    >>> cheapest([[1, None], [1, None]]) is None
    True
    """
    if not costs:
        return ()
    if len(costs) > len(costs[0]):
        return None
    forbidden = 1 + 2 * sum(abs(each) for row in costs for each in row if each is not None)
    table = [[forbidden if each is None else each for each in row] for row in costs]
    width = len(costs[0])
    prices = _Prices([0] * (len(table) + 1), [0] * (width + 1), [0] * (width + 1))
    for row in range(1, len(table) + 1):
        _place(table, row, prices)
    found = [0] * len(table)
    for column in range(1, width + 1):
        if prices.taken[column]:
            found[prices.taken[column] - 1] = column - 1
    if any(costs[row][column] is None for row, column in enumerate(found)):
        return None
    return tuple(found)


def _place(table: list[list[int]], row: int, prices: _Prices) -> None:
    """Find a part for one more row, moving the others along the cheapest path."""
    width = len(prices.columns)
    prices.taken[0] = row
    least: list[int | None] = [None] * width
    came, seen, column = [0] * width, [False] * width, 0
    while prices.taken[column]:
        seen[column] = True
        column = _step(table, column, least, (came, seen), prices)
    while column:
        before = came[column]
        prices.taken[column] = prices.taken[before]
        column = before


def _step(
    table: list[list[int]],
    column: int,
    least: list[int | None],
    path: tuple[list[int], list[bool]],
    prices: _Prices,
) -> int:
    came, seen = path
    row, nearest, best = prices.taken[column], 0, None
    for each in range(1, len(seen)):
        if seen[each]:
            continue
        slack = table[row - 1][each - 1] - prices.rows[row] - prices.columns[each]
        known = least[each]
        if known is None or slack < known:
            least[each], came[each], known = slack, column, slack
        if best is None or known < best:
            best, nearest = known, each
    shift = best or 0
    for each, was in enumerate(seen):
        if was:
            prices.rows[prices.taken[each]] += shift
            prices.columns[each] -= shift
        elif (known := least[each]) is not None:
            least[each] = known - shift
    return nearest


def capped(costs: Costs, most: int) -> list[list[int | None]]:
    """Return the costs with everything above a cap made impossible."""
    return [[None if each is None or each > most else each for each in row] for row in costs]


def least_worst(costs: Costs) -> int | None:
    """Return the smallest cap under which every place still gets a part."""
    steps = sorted({each for row in costs for each in row if each is not None})
    if not steps or cheapest(costs) is None:
        return None
    low, high = 0, len(steps) - 1
    while low < high:
        middle = (low + high) // 2
        if cheapest(capped(costs, steps[middle])) is None:
            low = middle + 1
        else:
            high = middle
    return steps[low]


def total(costs: Costs, found: Sequence[int]) -> int:
    """Add up what an assignment costs."""
    return sum(costs[row][column] or 0 for row, column in enumerate(found))


def least_then_even(costs: Costs) -> tuple[int, ...] | None:
    """Find the least sum; among those the least worst; among those the most even.

    Parameters
    ----------
    costs
        Whole numbers of zero or more.

    Returns
    -------
    tuple of int or None
        The part of each place; nothing when no choice fits everywhere.

    Examples
    --------
    >>> least_then_even([[2, 8], [0, 6]])  # both sums are 8: 2 and 6 are more even than 8 and 0
    (0, 1)
    """
    first = cheapest(costs)
    if first is None:
        return None
    least = total(costs, first)
    steps = sorted({each for row in costs for each in row if each is not None})
    low, high = 0, len(steps) - 1
    while low < high:
        middle = (low + high) // 2
        found = cheapest(capped(costs, steps[middle]))
        if found is None or total(costs, found) > least:
            low = middle + 1
        else:
            high = middle
    held = capped(costs, steps[low])
    scale = 1 + len(costs) * steps[-1] ** 2
    packed = [
        [None if each is None else each * scale + each * each for each in row] for row in held
    ]
    return cheapest(packed)
