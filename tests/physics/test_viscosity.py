import math

import numpy as np
import pytest

from planner.errors import OutsideValidity
from planner.physics.viscosity import kinematic_viscosity
from tests.physics.directions import assert_directions

ZERO = 273.15
OIL = {
    "viscosity_low": 100e-6,
    "temperature_low": ZERO + 40,
    "viscosity_high": 14.5e-6,
    "temperature_high": ZERO + 100,
}


def at(celsius):
    return kinematic_viscosity(**OIL, temperature=ZERO + celsius) * 1e6


def test_both_known_points_come_back():
    assert at(40) == pytest.approx(100.0)
    assert at(100) == pytest.approx(14.5)


def test_the_chart_is_a_straight_line_solved_by_matrix():
    known = np.array([[1, -math.log10(ZERO + 40)], [1, -math.log10(ZERO + 100)]])
    heights = [math.log10(math.log10(v + 0.7)) for v in (100.0, 14.5)]
    a, b = np.linalg.solve(known, heights)
    for celsius in (20, 60, 120, 150):
        expected = 10**10 ** (a - b * math.log10(ZERO + celsius)) - 0.7
        assert at(celsius) == pytest.approx(expected)
    # Regression: A, B and two viscosities of an early trial of ours.
    assert a == pytest.approx(7.81301, abs=5e-6)
    assert b == pytest.approx(3.00964, abs=5e-6)
    assert [at(120), at(150)] == pytest.approx([9.533, 5.749], abs=0.0006)


def test_an_oil_thinner_than_the_chart_is_refused():
    with pytest.raises(OutsideValidity, match=r"kinematic viscosity is 1\.9 mm2/s"):
        kinematic_viscosity(**{**OIL, "viscosity_high": 1.9e-6}, temperature=ZERO + 90)


def test_an_oil_that_thickens_as_it_warms_is_refused_as_swapped():
    swapped = {**OIL, "viscosity_low": 14.5e-6, "viscosity_high": 100e-6}
    with pytest.raises(OutsideValidity, match=r"pair of viscosities is 14\.5 mm2/s at 40 degC"):
        kinematic_viscosity(**swapped, temperature=ZERO + 90)


def test_a_temperature_in_degrees_celsius_is_refused():
    with pytest.raises(OutsideValidity, match="oil temperature is 120 K"):
        kinematic_viscosity(**OIL, temperature=120.0)


def test_the_declared_directions_hold():
    assert_directions("kinematic_viscosity", **OIL, temperature=(ZERO, ZERO + 150))
