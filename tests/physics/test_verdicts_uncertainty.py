import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from planner.errors import OutsideValidity
from planner.physics.verdicts_uncertainty import (
    conformity_probability,
    uncertainty_of_difference,
    uncertainty_separate,
    uncertainty_shell_clearance,
)
from tests.physics.directions import assert_directions


@given(st.floats(0.03, 0.08), st.floats(1e-4, 0.01))
def test_the_probability_is_scipy_s_normal_distribution(value, uncertainty):
    found = conformity_probability(value=value, low=0.045, high=0.06, uncertainty=uncertainty)
    expected = norm.cdf(0.06, value, uncertainty) - norm.cdf(0.045, value, uncertainty)
    assert found == pytest.approx(expected, abs=1e-12)


def test_a_reading_on_a_limit_is_an_even_bet():
    chance = conformity_probability(value=0.045, low=0.045, high=0.06, uncertainty=0.001)
    assert chance == pytest.approx(0.5)


def test_trial_figures_have_not_drifted():
    # REGRESSION value of an earlier trial of the same equation, not an outside check.
    chance = conformity_probability(value=0.0465, low=0.045, high=0.06, uncertainty=0.0012)
    assert chance == pytest.approx(0.894, abs=0.0005)


def test_uncertainties_add_as_squares():
    assert uncertainty_of_difference(repeatability=1.0) == pytest.approx(2**0.5)
    assert uncertainty_separate(first=3.0, second=4.0) == 5.0
    both = uncertainty_shell_clearance(housing=0.0, journal=0.0, wall=1.0)
    assert both == pytest.approx(uncertainty_of_difference(repeatability=1.0))


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: conformity_probability(value=1.0, low=0.0, high=2.0, uncertainty=0.0),
            "uncertainty is 0 mm",
        ),
        (
            lambda: conformity_probability(value=1.0, low=2.0, high=0.0, uncertainty=1.0),
            "pair of limits",
        ),
        (lambda: uncertainty_of_difference(repeatability=-1e-6), "repeatability is"),
        (lambda: uncertainty_separate(first=0.0, second=-1e-6), "second instrument"),
        (
            lambda: uncertainty_shell_clearance(housing=0.0, journal=0.0, wall=float("nan")),
            "uncertainty of the wall is nan",
        ),
    ],
)
def test_uncertainties_that_cannot_be_are_refused_by_name(call, message):
    with pytest.raises(OutsideValidity, match=message):
        call()


@pytest.mark.parametrize(
    ("name", "ranges"),
    [
        ("uncertainty_of_difference", {"repeatability": (0.0, 1e-5)}),
        ("uncertainty_separate", {"first": (0.0, 1e-5), "second": (0.0, 1e-5)}),
        (
            "uncertainty_shell_clearance",
            {"housing": (0.0, 1e-5), "journal": (0.0, 1e-5), "wall": (0.0, 1e-5)},
        ),
    ],
)
def test_declared_directions_hold(name, ranges):
    assert_directions(name, **ranges)
