"""Give each place one part from each of two heaps so that the sums come out right and alike."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from planner.errors import BorewrightError

MOST_STATES = 400_000
"""Most ways to have used up the heaps that are followed at once."""


class TooManyPartsError(BorewrightError):
    """More different parts than can be tried exactly."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted at each place. Whole numbers, such as tenths of a micron.

    Attributes
    ----------
    bases
        What stands at each place before a part is taken away from it.
    target
        What is to be left.
    low, high
        Ends within which it has to be left; none where anything goes.
    most_apart
        Most by which one of the two parts may differ from the other; none for any.
    spread
        Most by which what is left may differ from place to place; none for any.
    """

    bases: tuple[int, ...]
    target: int
    low: int | None = None
    high: int | None = None
    most_apart: int | None = None
    spread: int | None = None


@dataclass(frozen=True, slots=True)
class Paired:
    """The parts of each place, by name, and what is left there."""

    pairs: tuple[tuple[str, str], ...]
    left: tuple[int, ...]
    target: int

    @property
    def worst(self) -> int:
        """The largest distance from the target."""
        return max(abs(each - self.target) for each in self.left)

    @property
    def squares(self) -> int:
        """The sum of the squared distances from the target."""
        return sum((each - self.target) ** 2 for each in self.left)

    @property
    def spread(self) -> int:
        """The largest less the smallest."""
        return max(self.left) - min(self.left)


Heap = Mapping[str, int]
Options = list[list[tuple[int, int, int]]]
State = tuple[tuple[int, ...], tuple[int, ...]]


def pair_up(wanted: Wanted, uppers: Heap, lowers: Heap) -> Paired | None:
    """Choose two parts for each place.

    The largest distance from the target is made least first, then the sum of the squares. Where
    that spreads further than allowed, the best choice within the spread is taken instead.

    Parameters
    ----------
    wanted
        Places and what is to be left there.
    uppers, lowers
        The two heaps by name; parts left over stay in the box.

    Returns
    -------
    Paired or None
        The exact optimum; nothing when no choice keeps the limits at every place.

    Raises
    ------
    TooManyPartsError
        When there are too many different parts to try them all.

    Notes
    -----
    Dynamic programming over how many parts of each size are used up; parts of one size are alike.
    """
    if min(len(uppers), len(lowers)) < len(wanted.bases):
        return None
    solver = _Solver(wanted, uppers, lowers)
    best = solver.best(wanted.low, wanted.high)
    if best is None or wanted.spread is None or best.spread <= wanted.spread:
        return best
    return solver.within_spread(wanted.spread)


class _Solver:
    def __init__(self, wanted: Wanted, uppers: Heap, lowers: Heap) -> None:
        self.wanted, self.uppers, self.lowers = wanted, uppers, lowers
        self.kinds = [sorted(Counter(heap.values()).items()) for heap in (uppers, lowers)]
        self.full: State = (
            tuple(count for _, count in self.kinds[0]),
            tuple(count for _, count in self.kinds[1]),
        )

    def within_spread(self, spread: int) -> Paired | None:
        """Try every window of that width; the best of all is the answer."""
        wanted = self.wanted
        starts = {
            left for options in self._options(wanted.low, wanted.high) for _, _, left in options
        }
        found = [self.best(start, start + spread) for start in sorted(starts)]
        inside = [each for each in found if each is not None]
        return min(inside, key=lambda each: (each.worst, each.squares), default=None)

    def best(self, low: int | None, high: int | None) -> Paired | None:
        """Find the best choice with everything left between two ends."""
        options = self._options(low, high)
        steps = sorted({abs(left - self.wanted.target) for each in options for _, _, left in each})
        if not steps or self._cheapest(options) is None:
            return None
        first, last = 0, len(steps) - 1
        while first < last:
            middle = (first + last) // 2
            if self._possible(self._near(options, steps[middle])):
                last = middle
            else:
                first = middle + 1
        return self._cheapest(self._near(options, steps[first]))

    def _options(self, low: int | None, high: int | None) -> Options:
        """List, for each place, the sizes that may go there and what they leave."""
        wanted = self.wanted
        ends = [
            (wanted.low, wanted.high),
            (low, high),
        ]
        return [
            [
                (upper, lower, left)
                for (upper, (first, _)), (lower, (second, _)) in product(
                    enumerate(self.kinds[0]), enumerate(self.kinds[1])
                )
                if all(_between(left := base - first - second, *each) for each in ends)
                and (wanted.most_apart is None or abs(first - second) <= wanted.most_apart)
            ]
            for base in wanted.bases
        ]

    def _near(self, options: Options, worst: int) -> Options:
        target = self.wanted.target
        return [[each for each in place if abs(each[2] - target) <= worst] for place in options]

    def _possible(self, options: Options) -> bool:
        states = {self.full}
        for place in options:
            states = {
                _without(state, upper, lower)
                for state in states
                for upper, lower, _ in place
                if state[0][upper] and state[1][lower]
            }
            _hold(len(states))
        return bool(states)

    def _cheapest(self, options: Options) -> Paired | None:
        """Find the least sum of squares, keeping for each state how it was reached."""
        levels: list[dict[State, tuple[int, State, tuple[int, int, int]]]] = []
        costs: dict[State, int] = {self.full: 0}
        for place in options:
            level: dict[State, tuple[int, State, tuple[int, int, int]]] = {}
            for state, cost in costs.items():
                self._spread_out(state, cost, place, level)
            _hold(len(level))
            levels.append(level)
            costs = {state: each[0] for state, each in level.items()}
        if not costs:
            return None
        state = min(costs, key=lambda each: (costs[each], each))
        chosen: list[tuple[int, int, int]] = []
        for level in reversed(levels):
            _, before, choice = level[state]
            chosen.append(choice)
            state = before
        return self._named(chosen[::-1])

    def _spread_out(
        self,
        state: State,
        cost: int,
        place: list[tuple[int, int, int]],
        level: dict[State, tuple[int, State, tuple[int, int, int]]],
    ) -> None:
        for choice in place:
            upper, lower, left = choice
            if not (state[0][upper] and state[1][lower]):
                continue
            after = _without(state, upper, lower)
            new = cost + (left - self.wanted.target) ** 2
            if after not in level or new < level[after][0]:
                level[after] = (new, state, choice)

    def _named(self, chosen: Sequence[tuple[int, int, int]]) -> Paired:
        """Put names to the sizes chosen, those first that stand first in the heap."""
        heaps = [_by_size(self.uppers), _by_size(self.lowers)]
        pairs = tuple(
            (
                heaps[0][self.kinds[0][upper][0]].pop(0),
                heaps[1][self.kinds[1][lower][0]].pop(0),
            )
            for upper, lower, _ in chosen
        )
        return Paired(pairs, tuple(left for _, _, left in chosen), self.wanted.target)


def _between(value: int, low: int | None, high: int | None) -> bool:
    return (low is None or value >= low) and (high is None or value <= high)


def _by_size(heap: Heap) -> dict[int, list[str]]:
    found: dict[int, list[str]] = {}
    for name, size in heap.items():
        found.setdefault(size, []).append(name)
    return found


def _without(state: State, upper: int, lower: int) -> State:
    first, second = state
    return (
        (*first[:upper], first[upper] - 1, *first[upper + 1 :]),
        (*second[:lower], second[lower] - 1, *second[lower + 1 :]),
    )


def _hold(states: int) -> None:
    if states > MOST_STATES:
        raise TooManyPartsError(
            problem=f"There are over {MOST_STATES} ways to have used these parts up.",
            reason="Every way has to be tried for the choice to be the best one.",
            remedy="Write the sizes to the nearest 0.001 mm or 0.1 g, so that some are alike.",
        )
