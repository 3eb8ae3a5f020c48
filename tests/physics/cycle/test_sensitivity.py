"""What each constant is worth, against the trial calculation's table: regression figures.

They hold every knob to the place in the physics where it acts: a knob wired to the wrong
term would move the ratio by another amount, or not at all.
"""

from dataclasses import replace
from math import radians

import numpy as np
import pytest

from planner.physics.cycle.cooler import cooled_charge_temperature
from planner.physics.cycle.setting import setting
from planner.physics.cycle.solve import limited_ratio
from tests.physics.cycle.cases import BAR, RPM, SEA_LEVEL, full_boost, off_boost

BASES = (full_boost(), full_boost("e85"), off_boost())
PHASINGS = np.radians([19.0, 19.0, 10.0])


def each(**changed):
    """The three engines with some figures replaced."""
    return [replace(point, **changed) for point in BASES]


def moved(name, by):
    """The three engines with one figure moved."""
    return [replace(point, **{name: getattr(point, name) + by}) for point in BASES]


def cooler(**changed):
    """The three engines behind another compressor or cooler."""

    def charge(point):
        given = {"compressor_efficiency": 0.7, "cooler_effectiveness": 0.7, **changed}
        air = {"ambient_temperature": 298.15, "ambient_pressure": SEA_LEVEL}
        return cooled_charge_temperature(**air, **given, boost=point.boost) + 15.0

    return [replace(point, charge_temperature=charge(point)) for point in BASES]


# Moves of the ratio for premium 0.9 bar, E85 0.9 bar, premium without boost.
ROWS = {
    "delay factor 0.8": (each(delay_factor=0.8), (-0.95, -1.11, -1.04)),
    "delay factor 1.25": (each(delay_factor=1.25), (1.08, 1.26, 1.17)),
    "octane margin 0": (moved("octane", 2.0), (0.34, 0.38, 0.37)),
    "octane margin 4": (moved("octane", -2.0), (-0.33, -0.37, -0.37)),
    "inlet margin 0": (moved("charge_temperature", -15.0), (0.34, 0.43, 0.31)),
    "inlet margin 30": (moved("charge_temperature", 15.0), (-0.31, -0.39, -0.29)),
    "500 rpm less": (moved("speed", -500 * RPM), (-0.61, -0.72, -0.98)),
    "500 rpm more": (moved("speed", 500 * RPM), (0.56, 0.66, 0.86)),
    "burn 18 deg": (each(burn_angle=radians(18)), (0.51, 0.58, 0.60)),
    "burn 26 deg": (each(burn_angle=radians(26)), (-0.40, -0.45, -0.45)),
    "burn growth 0.25": (each(burn_speed_growth=0.25), (0.05, 0.05, -0.06)),
    "burn growth 0.45": (each(burn_speed_growth=0.45), (-0.04, -0.05, 0.06)),
    "late growth 0": (each(late_burn_growth=0.0), (0.38, 0.44, 0.08)),
    "late growth 0.3": (each(late_burn_growth=0.3), (-0.32, -0.36, -0.08)),
    "knock end 0.85": (each(knock_end=0.85), (0.48, 0.51, 0.68)),
    "knock end 0.95": (each(knock_end=0.95), (-0.56, -0.58, -0.77)),
    "dry": (each(evaporated_share=0.0), (-0.18, -0.74, -0.16)),
    "wetter": (each(evaporated_share=0.6), (0.19, 0.91, 0.17)),
    "direct": (each(evaporated_share=0.75), (0.29, 1.45, 0.26)),
    "cooler 0.5": (cooler(cooler_effectiveness=0.5), (-0.34, -0.44, 0.0)),
    "cooler 0.85": (cooler(cooler_effectiveness=0.85), (0.29, 0.36, 0.0)),
    "compressor 0.6": (cooler(compressor_efficiency=0.6), (-0.09, -0.11, 0.0)),
    "compressor 0.78": (cooler(compressor_efficiency=0.78), (0.06, 0.07, 0.0)),
    "port 0.05": (each(port_heating=0.05), (0.06, 0.08, 0.12)),
    "port 0.25": (each(port_heating=0.25), (-0.06, -0.08, -0.11)),
    "residual 950": (each(residual_temperature=950.0), (0.07, 0.07, 0.05)),
    "residual 1150": (each(residual_temperature=1150.0), (-0.06, -0.06, -0.04)),
    "back pressure 0.8": (each(turbine_back_pressure=0.8), (0.10, 0.11, 0.0)),
    "back pressure 1.5": (each(turbine_back_pressure=1.5), (-0.13, -0.14, 0.0)),
    "wall 420": (each(wall_temperature=420.0), (0.08, 0.11, 0.11)),
    "wall 500": (each(wall_temperature=500.0), (-0.14, -0.18, -0.18)),
    "wall heat x 0.7": (each(heat_loss_factor=0.7), (-0.11, -0.13, -0.15)),
    "wall heat x 1.4": (each(heat_loss_factor=1.4), (0.15, 0.17, 0.21)),
    "mixture 1.05": (each(mixture=1.05), (-0.24, -0.39, -0.09)),
    "mixture 1.25": (each(mixture=1.25), (0.20, 0.28, 0.36)),
    "inlet closing 40": (each(inlet_closing=radians(40)), (-0.58, -0.71, -0.66)),
    "inlet closing 65": (each(inlet_closing=radians(65)), (1.39, 1.71, 1.54)),
    "larger": (each(bore=0.1, stroke=0.1, rod_length=0.16), (-0.03, -0.03, -0.06)),
    "shorter": (each(bore=0.095, stroke=0.0705), (-0.02, -0.02, 0.07)),
    "rod 120": (each(rod_length=0.120), (0.02, 0.04, -0.04)),
    "rod 170": (each(rod_length=0.170), (-0.02, -0.03, 0.03)),
}


@pytest.fixture(scope="module")
def base():
    return limited_ratio(setting(BASES), PHASINGS)


@pytest.mark.parametrize("name", sorted(ROWS))
def test_each_constant_is_worth_what_it_was(name, base):
    points, expected = ROWS[name]
    found = limited_ratio(setting(points), PHASINGS) - base
    assert found == pytest.approx(expected, abs=0.02)


@pytest.mark.parametrize(
    ("by", "expected"), [(-2, (-0.40, -0.53, -0.38)), (2, (0.46, 0.61, 0.48))]
)
def test_two_degrees_of_phasing_are_worth_what_they_were(by, expected, base):
    found = limited_ratio(setting(BASES), PHASINGS + radians(by)) - base
    assert found == pytest.approx(expected, abs=0.02)


def test_octane_for_each_ratio_is_what_it_was(base):
    # 5.7 octane numbers for each ratio boosted, 5.3 without, by the trial calculation
    more = limited_ratio(setting(moved("octane", 1.0)), PHASINGS)
    assert 1.0 / (more - base)[0] == pytest.approx(5.7, abs=0.3)
    assert 1.0 / (more - base)[2] == pytest.approx(5.3, abs=0.3)


def test_the_base_is_the_base(base):
    assert base == pytest.approx((8.51, 9.96, 10.65), abs=0.01)
    assert BASES[0].boost == 0.9 * BAR
