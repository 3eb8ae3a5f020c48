import pytest

from planner.errors import OutsideValidity
from planner.physics.piston_pin import pin_bending_stress
from planner.physics.piston_pin_strength import pin_strength, pulsating_safety
from tests.physics.directions import assert_directions

PIN = {
    "bore": 0.086,
    "pressure": 12e6,
    "outside": 0.022,
    "length": 0.058,
    "boss_gap": 0.026,
    "small_end_width": 0.022,
    "elastic_modulus": 206e9,
}
TOOL_STEEL = {"tensile_strength": 1700e6, "fatigue_strength": 650e6}
CARBURISED = {"tensile_strength": 1200e6, "fatigue_strength": 500e6}


def test_a_stress_at_the_fatigue_line_has_no_margin():
    # Half the peak alternates about half the peak: 1/n = 300/600 + 300/600.
    safety = pulsating_safety(peak_stress=600e6, tensile_strength=6e8, fatigue_strength=6e8)
    assert safety == pytest.approx(1.0)


def test_fatigue_strength_above_tensile_strength_is_refused():
    with pytest.raises(OutsideValidity, match="fatigue strength is 650 MPa"):
        pulsating_safety(peak_stress=5e8, tensile_strength=600e6, fatigue_strength=650e6)


@pytest.mark.parametrize(
    ("wall", "bending", "growth", "combined", "safety"),
    [
        (0.0040, 512, 0.062, 947, 0.99),
        (0.0050, 469, 0.030, 743, 1.26),
        (0.0055, 456, 0.021, 672, 1.40),
    ],
)
def test_regression_trial_figures_of_three_walls(wall, bending, growth, combined, safety):
    # Regression: figures of an early trial of ours, not an outside check.
    pin = pin_strength(**PIN, **TOOL_STEEL, wall=wall)
    assert pin["pin_bending_stress"] / 1e6 == pytest.approx(bending, abs=0.5)
    assert pin["pin_ovalisation"] * 1e3 == pytest.approx(growth, abs=0.0005)
    assert pin["pin_combined_stress"] / 1e6 == pytest.approx(combined, abs=0.5)
    # two trial figures of three were cut, not rounded
    assert pin["pin_safety"] == pytest.approx(safety, abs=0.007)


def thinnest(pressure, grade):
    for wall in (0.0035, 0.004, 0.0045, 0.005, 0.0055, 0.006, 0.0065, 0.007):
        pin = pin_strength(**{**PIN, "pressure": pressure}, **grade, wall=wall)
        if pin["pin_safety"] >= 1.2 and pin["pin_ovalisation"] <= 0.025e-3:
            return wall
    return None


@pytest.mark.parametrize(
    ("pressure", "grade", "wall"),
    [
        (12e6, TOOL_STEEL, 0.0055),
        (12e6, CARBURISED, 0.0065),
        (9e6, TOOL_STEEL, 0.005),
        (16.5e6, TOOL_STEEL, 0.007),
    ],
)
def test_regression_thinnest_wall_that_passes(pressure, grade, wall):
    # Regression: figures of an early trial of ours, not an outside check.
    assert thinnest(pressure, grade) == wall


@pytest.mark.published("common practice: a thin wall, even in tool steel, flexes under boost")
def test_tool_steel_does_not_cure_a_thin_wall():
    tool = pin_strength(**PIN, **TOOL_STEEL, wall=0.004)
    plain = pin_strength(**PIN, **CARBURISED, wall=0.004)
    assert tool["pin_safety"] > plain["pin_safety"]
    assert tool["pin_ovalisation"] == plain["pin_ovalisation"] > 0.025e-3


def test_each_part_of_the_check_is_the_single_formula():
    pin = pin_strength(**PIN, **TOOL_STEEL, wall=0.005)
    parts = {key: value for key, value in PIN.items() if key != "elastic_modulus"}
    assert pin["pin_bending_stress"] == pin_bending_stress(**parts, wall=0.005)


def test_the_declared_directions_hold():
    assert_directions(
        "pin_strength",
        bore=(0.07, 0.11),
        pressure=(1e6, 25e6),
        outside=(0.019, 0.026),
        wall=(0.0034, 0.0060),
        length=(0.045, 0.075),
        boss_gap=(0.021, 0.030),
        small_end_width=(0.012, 0.021),
        elastic_modulus=(180e9, 230e9),
        tensile_strength=(1000e6, 2000e6),
        fatigue_strength=(400e6, 900e6),
    )
    assert_directions(
        "pulsating_safety",
        peak_stress=(1e8, 2e9),
        tensile_strength=(1000e6, 2000e6),
        fatigue_strength=(400e6, 900e6),
    )
