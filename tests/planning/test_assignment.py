"""Assignments are the best there are: held against trying everything."""

import random
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.planning.assignment import cheapest, least_then_even, least_worst, total
from planner.planning.pairing import TooManyPartsError, Wanted, pair_up


def tables(rows=5, columns=6, *, gaps=True):
    cell = st.integers(0, 40)
    cell = cell | st.none() if gaps else cell
    return st.integers(1, rows).flatmap(
        lambda n: st.integers(n, columns).flatmap(
            lambda m: st.lists(st.lists(cell, min_size=m, max_size=m), min_size=n, max_size=n)
        )
    )


def every_way(costs):
    for way in permutations(range(len(costs[0])), len(costs)):
        values = [costs[row][column] for row, column in enumerate(way)]
        if None not in values:
            yield way, values


@given(tables())
def test_the_cheapest_is_as_cheap_as_trying_everything(costs):
    found = cheapest(costs)
    sums = [sum(values) for _, values in every_way(costs)]
    assert (found is None) == (not sums)
    if found is not None:
        assert len(set(found)) == len(costs)
        assert total(costs, found) == min(sums)


@given(tables(gaps=False))
def test_it_never_costs_more_than_taking_the_parts_in_order(costs):
    assert total(costs, cheapest(costs)) <= total(costs, range(len(costs)))


@given(tables())
def test_the_least_worst_is_that_of_trying_everything(costs):
    worst = [max(values) for _, values in every_way(costs)]
    assert least_worst(costs) == (min(worst) if worst else None)


@given(tables())
def test_sum_then_worst_then_evenness_decide_in_that_order(costs):
    found = least_then_even(costs)
    ways = [
        (sum(values), max(values), sum(each**2 for each in values))
        for _, values in every_way(costs)
    ]
    if not ways:
        assert found is None
        return
    values = [costs[row][column] for row, column in enumerate(found)]
    assert (sum(values), max(values), sum(each**2 for each in values)) == min(ways)


def test_no_place_needs_no_part():
    assert cheapest([]) == ()


def test_more_places_than_parts_cannot_be_served():
    assert cheapest([[1], [1]]) is None


# ---------------------------------------------------------------- pairs


def every_pairing(wanted, uppers, lowers):
    """Try every pair of halves at every place."""
    count = len(wanted.bases)
    for first in permutations(uppers.values(), count):
        for second in permutations(lowers.values(), count):
            left = [b - u - w for b, u, w in zip(wanted.bases, first, second, strict=True)]
            apart = [abs(u - w) for u, w in zip(first, second, strict=True)]
            if wanted.most_apart is not None and max(apart) > wanted.most_apart:
                continue
            if any(
                (wanted.low is not None and each < wanted.low)
                or (wanted.high is not None and each > wanted.high)
                for each in left
            ):
                continue
            if wanted.spread is not None and max(left) - min(left) > wanted.spread:
                continue
            distances = [abs(each - wanted.target) for each in left]
            yield max(distances), sum(each**2 for each in distances)


def random_set(seed):
    luck = random.Random(seed)
    count = luck.randint(2, 4)
    walls = {f"u{each}": 1980 + 5 * luck.randint(-2, 2) for each in range(luck.randint(count, 5))}
    others = {f"l{each}": 1980 + luck.randint(-10, 10) for each in range(luck.randint(count, 4))}
    wanted = Wanted(
        bases=tuple(3960 + 50 + luck.randint(-14, 14) for _ in range(count)),
        target=50,
        low=luck.choice([None, 40]),
        high=luck.choice([None, 62]),
        most_apart=luck.choice([None, 8]),
        spread=luck.choice([None, 6, 12]),
    )
    return wanted, walls, others


@pytest.mark.parametrize("seed", range(40))
def test_pairs_of_shells_are_the_best_of_trying_everything(seed):
    wanted, uppers, lowers = random_set(seed)
    found = pair_up(wanted, uppers, lowers)
    ways = list(every_pairing(wanted, uppers, lowers))
    if not ways:
        assert found is None
        return
    assert (found.worst, found.squares) == min(ways)
    for place, (upper, lower) in enumerate(found.pairs):
        assert found.left[place] == wanted.bases[place] - uppers[upper] - lowers[lower]
    assert len({upper for upper, _ in found.pairs}) == len(found.pairs)
    assert len({lower for _, lower in found.pairs}) == len(found.pairs)


@pytest.mark.parametrize("seed", range(40, 60))
def test_pairs_are_never_worse_than_taking_the_halves_in_order(seed):
    wanted, uppers, lowers = random_set(seed)
    free = Wanted(wanted.bases, wanted.target)
    in_order = [
        abs(base - upper - lower - wanted.target)
        for base, upper, lower in zip(wanted.bases, uppers.values(), lowers.values(), strict=False)
    ]
    assert pair_up(free, uppers, lowers).worst <= max(in_order)


def test_too_few_halves_for_the_journals_is_no_answer():
    assert pair_up(Wanted((100, 100), 0), {"a": 50}, {"b": 50, "c": 50}) is None


def test_a_spread_that_no_choice_keeps_is_no_answer():
    uppers, lowers = {"a": 50, "b": 50}, {"c": 50, "d": 50}
    assert pair_up(Wanted((150, 180), 60, spread=10), uppers, lowers) is None


def test_twelve_rods_with_halves_in_steps_are_paired_exactly():
    luck = random.Random(12)
    uppers = {f"u{each}": 1485 + 5 * luck.randint(-1, 1) for each in range(14)}
    lowers = {f"l{each}": 1485 + 5 * luck.randint(-1, 1) for each in range(14)}
    found = pair_up(
        Wanted(tuple(3020 + luck.randint(-8, 8) for _ in range(12)), 50), uppers, lowers
    )
    assert found.worst <= 8


def test_a_heap_of_all_different_parts_is_refused_with_the_way_out(monkeypatch):
    monkeypatch.setattr("planner.planning.pairing.MOST_STATES", 20)
    parts = {f"p{each}": each for each in range(6)}
    with pytest.raises(TooManyPartsError, match="over 20 ways") as refused:
        pair_up(Wanted((10,) * 6, 0), parts, parts)
    assert "0.001 mm" in refused.value.remedy
