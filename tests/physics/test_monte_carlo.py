from math import comb, factorial, floor

import pytest
from scipy.optimize import brentq

from planner.errors import OutsideValidity
from planner.physics.monte_carlo import Normal, Rectangular, propagate, trials_needed


def irwin_hall(total, count):
    """Chance that the sum of so many numbers drawn from 0 to 1 stays below a total."""
    terms = range(floor(total) + 1)
    return sum((-1) ** k * comb(count, k) * (total - k) ** count for k in terms) / factorial(count)


def add(**terms):
    return sum(terms.values())


def test_trials_are_as_many_as_the_guide_asks_for():
    assert trials_needed(0.95) == 200_000
    assert trials_needed(0.99) == 1_000_000
    with pytest.raises(OutsideValidity, match="coverage probability is 1"):
        trials_needed(1.0)


@pytest.mark.parametrize("count", [1, 2, 4])
def test_a_sum_of_rectangles_has_the_irwin_hall_intervals(count):
    inputs = {f"term{k}": Rectangular(0.5, 0.5) for k in range(count)}
    found = propagate(add, inputs, seed=20)
    low = brentq(lambda total: irwin_hall(total, count) - 0.025, 0.0, count / 2)
    assert found.mean == pytest.approx(count / 2, abs=0.005)
    assert found.uncertainty == pytest.approx((count / 12) ** 0.5, rel=0.005)
    assert found.symmetric == pytest.approx((low, count - low), abs=0.01)


def test_a_sum_of_normals_is_normal():
    found = propagate(add, {"a": Normal(1.0, 0.3), "b": Normal(2.0, 0.4)}, seed=3)
    assert (found.mean, found.uncertainty) == pytest.approx((3.0, 0.5), abs=0.005)
    assert found.symmetric == pytest.approx((3 - 1.96 * 0.5, 3 + 1.96 * 0.5), abs=0.01)


def test_the_shortest_interval_of_a_lopsided_result_hugs_its_peak():
    # The square of a number drawn from 0 to 1: density falls from zero on.
    found = propagate(lambda side: side * side, {"side": Rectangular(0.5, 0.5)}, seed=5)
    assert found.shortest[0] == pytest.approx(0.0, abs=1e-3)
    assert found.shortest[1] == pytest.approx(0.95**2, abs=0.005)
    widths = [high - low for low, high in (found.shortest, found.symmetric)]
    assert widths[0] < widths[1]


def test_the_same_seed_gives_the_very_same_answer_and_another_does_not():
    inputs = {"a": Rectangular(0.0, 1.0), "b": Normal(0.0, 1.0)}
    assert propagate(add, inputs, seed=1) == propagate(add, inputs, seed=1)
    assert propagate(add, inputs, seed=1) != propagate(add, inputs, seed=2)


def test_the_order_in_which_inputs_are_written_does_not_matter():
    one = propagate(add, {"a": Rectangular(0.0, 1.0), "b": Normal(0.0, 1.0)}, seed=1)
    other = propagate(add, {"b": Normal(0.0, 1.0), "a": Rectangular(0.0, 1.0)}, seed=1)
    assert one.mean == pytest.approx(other.mean)
    assert one.symmetric == pytest.approx(other.symmetric)
