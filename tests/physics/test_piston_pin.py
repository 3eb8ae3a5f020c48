import numpy as np
import pytest
from scipy.integrate import quad

from planner.errors import OutsideValidity
from planner.physics.piston_pin import (
    pin_bending_stress,
    pin_shear_stress,
    piston_gas_force,
)
from tests.physics.directions import assert_directions

PIN = {"bore": 0.086, "pressure": 12e6, "outside": 0.022, "wall": 0.0055, "length": 0.058}
SPAN = {"boss_gap": 0.026, "small_end_width": 0.022}
RANGES = {
    "bore": (0.07, 0.11),
    "pressure": (1e6, 25e6),
    "outside": (0.018, 0.028),
    "wall": (0.0036, 0.0055),
    "length": (0.045, 0.075),
    "boss_gap": (0.021, 0.030),
    "small_end_width": (0.012, 0.021),
}


def test_the_gas_force_is_pressure_times_area():
    assert piston_gas_force(bore=2.0 / np.sqrt(np.pi) / 10, pressure=1e6) == pytest.approx(1e4)


def test_the_bending_moment_agrees_with_the_integrated_load():
    # Load per length: uniform up in the small end, a triangle down in each boss, highest
    # at its inner edge. The moment at the middle is the integral of load times lever.
    force, half_gap, half_pin = 1.0, 0.013, 0.029
    boss = half_pin - half_gap
    small_end = 0.022

    def boss_load(x):
        return force / boss * (half_pin - x) / boss

    assert quad(boss_load, half_gap, half_pin)[0] == pytest.approx(force / 2)
    moment = quad(lambda x: boss_load(x) * x, half_gap, half_pin)[0]
    moment -= quad(lambda x: force / small_end * x, 0, small_end / 2)[0]
    ratio = 1 - 2 * 0.0055 / 0.022
    modulus = np.pi / 32 * 0.022**3 * (1 - ratio**4)
    unit = pin_bending_stress(**PIN, **SPAN) / piston_gas_force(bore=0.086, pressure=12e6)
    assert unit == pytest.approx(moment / modulus, rel=1e-6)


def test_the_section_modulus_agrees_with_quadrature_of_the_ring():
    outer, inner = 0.011, 0.0055
    second, _ = quad(lambda r: np.pi * r**3, inner, outer)
    stress = pin_bending_stress(**PIN, **SPAN)
    force = piston_gas_force(bore=0.086, pressure=12e6)
    moment = force * (0.058 + 2 * 0.026 - 1.5 * 0.022) / 12
    assert stress == pytest.approx(moment * outer / second)


def test_the_shear_factor_is_that_of_a_tube_at_its_neutral_line():
    outer, inner = 0.011, 0.0055
    first_moment = 2 / 3 * (outer**3 - inner**3)
    second = np.pi / 4 * (outer**4 - inner**4)
    force = piston_gas_force(bore=0.086, pressure=12e6)
    exact = force / 2 * first_moment / (second * 2 * (outer - inner))
    stress = pin_shear_stress(bore=0.086, pressure=12e6, outside=0.022, wall=0.0055)
    assert stress == pytest.approx(exact, rel=0.002)


@pytest.mark.parametrize("wall", [0.0027, 0.0072, float("nan")])
def test_a_wall_outside_the_checked_range_is_refused_with_a_way_out(wall):
    with pytest.raises(OutsideValidity, match="inside diameter over outside") as refusal:
        pin_shear_stress(bore=0.086, pressure=12e6, outside=0.022, wall=wall)
    assert "Choose a wall between" in refusal.value.remedy


def test_a_small_end_wider_than_the_boss_gap_is_refused():
    with pytest.raises(OutsideValidity, match="small-end width is 27 mm"):
        pin_bending_stress(**PIN, boss_gap=0.026, small_end_width=0.027)


@pytest.mark.parametrize(
    ("name", "arguments"),
    [
        ("piston_gas_force", ("bore", "pressure")),
        ("pin_bending_stress", tuple(RANGES)),
        ("pin_shear_stress", ("bore", "pressure", "outside", "wall")),
    ],
)
def test_the_declared_directions_hold(name, arguments):
    assert_directions(name, **{key: RANGES[key] for key in arguments})
