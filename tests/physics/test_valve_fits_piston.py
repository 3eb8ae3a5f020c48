import math

import pytest

from planner.errors import OutsideValidity
from planner.physics.valve_fits_piston import piston_to_valve_least
from tests.physics.directions import assert_directions

BUILD = {
    "margin": 0.5e-3,
    "rod_stretch": 0.116e-3,
    "bearing_clearance": 0.10e-3,
    "compression_height": 0.033,
    "piston_expansion": 22.3e-6,
    "piston_rise": 150.0,
    "valve_speed": 0.014,
    "timing_error": math.radians(2),
}
NOTHING = dict.fromkeys(BUILD, 0.0)


@pytest.mark.parametrize(
    ("parts", "alone"),
    [
        (("margin",), 0.5e-3),
        (("rod_stretch",), 0.116e-3),
        (("bearing_clearance",), 0.10e-3),
        (("compression_height", "piston_expansion", "piston_rise"), 0.033 * 22.3e-6 * 150),
        (("valve_speed", "timing_error"), 0.014 * math.pi / 90),
    ],
)
def test_each_part_of_the_build_up_counts_alone(parts, alone):
    values = NOTHING | {part: BUILD[part] for part in parts}
    assert piston_to_valve_least(**values) == pytest.approx(alone)


def test_regression_the_whole_build_up():
    # Regression: 1.32 mm in an early trial of ours, not an outside check.
    assert piston_to_valve_least(**BUILD) * 1e3 == pytest.approx(1.32, abs=0.006)


def test_a_timing_error_in_degrees_is_refused():
    with pytest.raises(OutsideValidity, match=r"timing error is 114\.592 deg"):
        piston_to_valve_least(**{**BUILD, "timing_error": 2.0})


def test_the_declared_directions_hold():
    assert_directions(
        "piston_to_valve_least",
        margin=(0.0, 1e-3),
        rod_stretch=(0.0, 3e-4),
        bearing_clearance=(0.0, 2e-4),
        compression_height=(0.02, 0.05),
        piston_expansion=(17e-6, 24e-6),
        piston_rise=(0.0, 250.0),
        valve_speed=(0.0, 0.03),
        timing_error=(0.0, 0.1),
    )
