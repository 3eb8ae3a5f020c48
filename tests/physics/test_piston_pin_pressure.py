import pytest

from planner.errors import OutsideValidity
from planner.physics.piston_pin_pressure import pin_boss_pressure, pin_small_end_pressure
from tests.physics.directions import assert_directions

LOAD = {"bore": 0.086, "pressure": 12e6, "outside": 0.022}


def test_load_over_projected_area_carries_the_gas_force_back():
    # both bosses together and a small end of the same length press alike
    boss = pin_boss_pressure(**LOAD, length=0.058, boss_gap=0.026)
    bush = pin_small_end_pressure(**LOAD, small_end_width=0.032)
    assert boss == pytest.approx(bush)
    assert boss * 0.022 * 0.032 / 12e6 == pytest.approx(0.086**2 * 0.7853982)


def test_regression_trial_figures_for_the_bearing_pressures():
    # Regression: figures of an early trial of ours, not an outside check.
    boss = pin_boss_pressure(
        bore=0.086, pressure=12e6, outside=0.022, length=0.058, boss_gap=0.026
    )
    bush = pin_small_end_pressure(bore=0.086, pressure=12e6, outside=0.022, small_end_width=0.022)
    assert boss / 1e6 == pytest.approx(99, abs=0.5)
    assert bush / 1e6 == pytest.approx(144, abs=0.5)


def test_a_boss_gap_longer_than_the_pin_is_refused():
    with pytest.raises(OutsideValidity, match="gap between the pin bosses is 60 mm"):
        pin_boss_pressure(bore=0.086, pressure=12e6, outside=0.022, length=0.058, boss_gap=0.06)


def test_the_declared_directions_hold():
    load = {"bore": (0.07, 0.11), "pressure": (1e6, 25e6), "outside": (0.018, 0.028)}
    assert_directions("pin_boss_pressure", **load, length=(0.045, 0.07), boss_gap=(0.02, 0.03))
    assert_directions("pin_small_end_pressure", **load, small_end_width=(0.012, 0.021))
