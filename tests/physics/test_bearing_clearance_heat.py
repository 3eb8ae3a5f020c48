import pytest
from scipy.integrate import quad

from planner.errors import OutsideValidity
from planner.physics.bearing_clearance_heat import bearing_hot_growth
from tests.physics.directions import assert_directions

STEEL = {"journal_expansion": 11.5e-6, "shell_expansion": 12e-6}
ALUMINIUM = {**STEEL, "housing_expansion": 21.5e-6}
IRON = {**STEEL, "housing_expansion": 11.0e-6}
PARTS = {"housing": 0.064, "journal": 0.060, "wall": 0.002}
RANGES = {
    "housing": (0.0634, 0.0646),
    "journal": (0.0595, 0.0605),
    "wall": (1.7e-3, 2.2e-3),
    "housing_expansion": (10e-6, 23e-6),
    "journal_expansion": (10e-6, 14e-6),
    "shell_expansion": (10e-6, 18e-6),
}


def test_hot_growth_agrees_with_expansion_integrated_degree_by_degree():
    def part(size, expansion):
        return quad(lambda _: size * expansion, 0, 90)[0]

    grown = part(0.064, 21.5e-6) - part(0.060, 11.5e-6) - 2 * part(0.002, 12e-6)
    assert bearing_hot_growth(**PARTS, **ALUMINIUM, rise=90.0) == pytest.approx(grown)


def test_aluminium_opens_hot_and_iron_hardly_moves():
    parts = {"housing": 0.059, "journal": 0.055, "wall": 0.002}
    # Regression: +0.053 and -0.003 are figures of an early trial of ours.
    aluminium = bearing_hot_growth(**parts, **ALUMINIUM, rise=90.0)
    iron = bearing_hot_growth(**parts, **IRON, rise=90.0)
    assert aluminium * 1e3 == pytest.approx(0.053, abs=0.0006)
    assert iron * 1e3 == pytest.approx(-0.003, abs=0.0006)


def test_a_temperature_given_in_kelvin_for_a_rise_is_refused():
    with pytest.raises(OutsideValidity, match="temperature rise of the bearing is 383 K"):
        bearing_hot_growth(**PARTS, **ALUMINIUM, rise=383.0)


def test_the_declared_directions_hold():
    assert_directions("bearing_hot_growth", **RANGES, rise=(0.0, 150.0))
    assert_directions("hot_bearing_clearance", **RANGES, rise=(0.0, 150.0), clearance=(0.0, 1e-4))
