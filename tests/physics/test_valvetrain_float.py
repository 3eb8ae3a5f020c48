import math

import pytest

from planner.errors import OutsideValidity
from planner.physics.valvetrain_float import (
    valve_float_speed,
    valve_nose_deceleration,
    valve_spring_force_needed,
)
from tests.physics.directions import assert_directions

CAM = {
    "lift": 0.010,
    "duration": math.radians(230),
    "duration_lift": 0.001,
    "shape_factor": 1.0,
}
SPEED = 7500 * math.pi / 30


def lift_at(angle):
    """The raised cosine that reaches the stated lift at half the stated duration."""
    base = math.pi * (CAM["duration"] / 2) / math.acos(math.sqrt(0.1))
    return CAM["lift"] * math.cos(math.pi * angle / base) ** 2


def test_the_assumed_lift_curve_opens_for_just_the_stated_duration():
    assert lift_at(0.0) == CAM["lift"]
    assert lift_at(CAM["duration"] / 2) == pytest.approx(CAM["duration_lift"])


def test_nose_deceleration_agrees_with_the_curve_differentiated_twice():
    step = 1e-4
    rate = -(lift_at(step) - 2 * lift_at(0) + lift_at(-step)) / step**2
    found = valve_nose_deceleration(**CAM, speed=SPEED)
    assert found == pytest.approx(rate * SPEED**2, rel=1e-5)


def test_at_the_float_speed_the_spring_just_carries_the_inertia():
    float_speed = valve_float_speed(open_force=700.0, effective_mass=0.112, **CAM)
    needed = valve_spring_force_needed(effective_mass=0.112, **CAM, speed=float_speed, margin=1.0)
    assert needed == pytest.approx(700.0)


def test_a_duration_in_degrees_of_cam_is_refused_with_a_hint():
    with pytest.raises(OutsideValidity, match="duration is 115 deg") as refusal:
        valve_nose_deceleration(**{**CAM, "duration": math.radians(115)}, speed=SPEED)
    assert "not of cam" in refusal.value.remedy


def test_the_declared_directions_hold():
    cam = {
        "lift": (0.007, 0.014),
        "duration": (math.radians(190), math.radians(300)),
        "duration_lift": (0.0, 0.003),
        "shape_factor": (0.6, 1.2),
    }
    assert_directions("valve_nose_deceleration", **cam, speed=(100.0, 1000.0))
    assert_directions(
        "valve_spring_force_needed",
        **cam,
        speed=(100.0, 1000.0),
        effective_mass=(0.05, 0.3),
        margin=(1.0, 1.5),
    )
    assert_directions(
        "valve_float_speed", **cam, open_force=(200.0, 1500.0), effective_mass=(0.05, 0.3)
    )
