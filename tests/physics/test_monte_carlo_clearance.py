import pytest

from planner.errors import OutsideValidity
from planner.physics.monte_carlo_clearance import clearance_monte_carlo
from planner.physics.tolerances import (
    clearance_tolerance_root_sum_square,
    clearance_tolerance_worst_case,
)

SIZES = {"housing": 0.058, "journal": 0.05395, "wall_upper": 0.002, "wall_lower": 0.002}
HALVES = {"housing_half": 3e-6, "journal_half": 3e-6, "wall_half": 1.5e-6}
TERMS = {"housing": 3e-6, "journal": 3e-6, "wall": 1.5e-6}


def test_the_deviation_is_the_root_sum_square_over_root_three():
    found = clearance_monte_carlo(**SIZES, **HALVES, seed=1.0)
    expected = clearance_tolerance_root_sum_square(**TERMS) / 3**0.5
    assert found["clearance_uncertainty"] == pytest.approx(expected, rel=0.005)
    assert found["clearance_mean"] == pytest.approx(50e-6, abs=0.02e-6)


def test_no_trial_leaves_the_worst_case():
    found = clearance_monte_carlo(**SIZES, **HALVES, seed=9.0)
    worst = clearance_tolerance_worst_case(**TERMS)
    assert 50e-6 - worst < found["clearance_low_95"] < found["clearance_high_95"] < 50e-6 + worst


def test_trial_figures_have_not_drifted():
    # REGRESSION values of an earlier trial of the same equations, not an outside check.
    found = clearance_monte_carlo(**SIZES, **HALVES, seed=1.0)
    assert found["clearance_low_95"] == pytest.approx(44.8e-6, abs=0.1e-6)
    assert found["clearance_high_95"] == pytest.approx(55.3e-6, abs=0.1e-6)


def test_exact_sizes_give_an_exact_clearance():
    exact = dict.fromkeys(HALVES, 0.0)
    found = clearance_monte_carlo(**SIZES, **exact, seed=1.0)
    assert found["clearance_low_95"] == pytest.approx(50e-6, abs=1e-15)
    assert found["clearance_high_95"] == pytest.approx(50e-6, abs=1e-15)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"seed": 1.5}, r"seed is 1\.5, outside whole numbers"),
        ({"seed": -1.0}, "seed is -1"),
        ({"wall_half": -1e-6}, r"tolerance of the wall is -0\.001 mm"),
        ({"wall_upper": 0.0}, "upper wall is 0 mm"),
        ({"journal": float("nan")}, "journal is nan mm"),
    ],
)
def test_what_cannot_be_tried_is_refused_by_name(change, message):
    with pytest.raises(OutsideValidity, match=message):
        clearance_monte_carlo(**{**SIZES, **HALVES, "seed": 1.0, **change})
