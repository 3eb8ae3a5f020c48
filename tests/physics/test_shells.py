import math

import pytest

from planner.errors import OutsideValidity
from planner.physics.shells import (
    bearing_specific_load,
    big_end_firing_load,
    shell_crush_pressure,
    shell_crush_stress,
)
from tests.physics.directions import assert_directions

ENGINE = {
    "bore": 0.086,
    "pressure": 12e6,
    "reciprocating_mass": 0.625,
    "rotating_mass": 0.38,
    "stroke": 0.086,
    "rod_length": 0.143,
}
RPM = math.pi / 30


def test_the_firing_load_agrees_with_numerically_differentiated_motion():
    crank, rod, speed = 0.043, 0.143, 3000 * RPM

    def height(time):
        angle = speed * time
        return crank * math.cos(angle) + math.sqrt(rod**2 - (crank * math.sin(angle)) ** 2)

    step = 1e-5
    downward = -(height(step) - 2 * height(0.0) + height(-step)) / step**2
    gas = 12e6 * math.pi / 4 * 0.086**2
    expected = gas - 0.625 * downward - 0.38 * crank * speed**2
    assert big_end_firing_load(**ENGINE, speed=speed) == pytest.approx(expected, rel=1e-4)


def test_low_speed_at_full_boost_loads_the_shell_most():
    slow = big_end_firing_load(**ENGINE, speed=2000 * RPM)
    fast = big_end_firing_load(**ENGINE, speed=7500 * RPM)
    assert slow > 1.5 * fast


def test_crush_pressure_is_what_a_thin_hoop_needs_to_stay_round():
    crush = {"crush_per_half": 0.04e-3, "housing": 0.051, "elastic_modulus": 205e9}
    stress = shell_crush_stress(**crush)
    pressure = shell_crush_pressure(**crush, wall=0.0015)
    # a half hoop: two cut faces of stress times wall hold pressure times diameter
    assert pressure * 0.051 == pytest.approx(2 * stress * 0.0015)


def test_that_pressure_all_round_the_lower_half_carries_the_load_back():
    # Independent: an even pressure on half the journal, summed along the load.
    load, journal, width = 4e4, 0.048, 0.019
    pressure = bearing_specific_load(force=load, journal=journal, width=width)
    steps = 20_000
    angles = [math.pi * ((at + 0.5) / steps - 0.5) for at in range(steps)]
    carried = sum(map(math.cos, angles)) * pressure * journal / 2 * width * math.pi / steps
    assert carried == pytest.approx(load, rel=1e-6)


def test_regression_trial_figures():
    # Regression: figures of an early trial of ours, not an outside check.
    crush = {"crush_per_half": 0.04e-3, "housing": 0.051, "elastic_modulus": 205e9}
    assert shell_crush_stress(**crush) / 1e6 == pytest.approx(102, abs=0.5)
    assert shell_crush_pressure(**crush, wall=0.0015) / 1e6 == pytest.approx(6.0, abs=0.05)


def test_a_rod_shorter_than_its_stroke_is_refused():
    with pytest.raises(OutsideValidity, match=r"rod length is 80 mm, outside 1.1 to 3 strokes"):
        big_end_firing_load(**{**ENGINE, "rod_length": 0.080}, speed=300.0)


def test_a_width_in_the_wrong_unit_is_refused():
    with pytest.raises(OutsideValidity, match=r"bearing width is 1.9 mm"):
        bearing_specific_load(force=4e4, journal=0.048, width=0.0019)


def test_the_declared_directions_hold():
    assert_directions(
        "bearing_specific_load", force=(1e3, 1e5), journal=(0.04, 0.06), width=(0.012, 0.03)
    )
    assert_directions(
        "big_end_firing_load",
        bore=(0.07, 0.11),
        pressure=(1e6, 25e6),
        reciprocating_mass=(0.3, 1.0),
        rotating_mass=(0.2, 0.8),
        stroke=(0.07, 0.1),
        rod_length=(0.115, 0.2),
        speed=(100.0, 900.0),
    )
    crush = {
        "crush_per_half": (0.0, 1e-4),
        "housing": (0.04, 0.07),
        "elastic_modulus": (150e9, 230e9),
    }
    assert_directions("shell_crush_stress", **crush)
    assert_directions("shell_crush_pressure", **crush, wall=(1.2e-3, 3e-3))
