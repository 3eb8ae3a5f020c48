from math import pi

import pytest
from scipy.optimize import minimize_scalar

from planner.errors import OutsideValidity
from planner.physics.geometry_piston_peaks import (
    bottom_centre_acceleration,
    largest_piston_speed,
    top_centre_acceleration,
)
from planner.physics.geometry_slider_crank import piston_acceleration, piston_speed
from tests.physics.directions import assert_directions

THROW = {"stroke": 0.086, "rod_length": 0.143}
SPEED = 785.3981633974483
RANGES = {"stroke": (0.06, 0.1), "rod_length": (0.12, 0.18), "speed": (50.0, 1000.0)}


def test_the_largest_speed_is_the_one_a_minimiser_finds():
    result = minimize_scalar(
        lambda angle: -piston_speed(angle=angle, **THROW, pin_offset=0.0, speed=SPEED),
        bounds=(0.5, 2.0),
        method="bounded",
        options={"xatol": 1e-9},
    )
    found = largest_piston_speed(**THROW, speed=SPEED)
    assert found["largest_piston_speed"] == pytest.approx(-result.fun)
    assert found["largest_speed_angle"] == pytest.approx(result.x, abs=1e-6)


def test_the_centres_agree_with_the_general_acceleration():
    at = {**THROW, "pin_offset": 0.0, "speed": SPEED}
    top = piston_acceleration(angle=0.0, **at)
    assert top_centre_acceleration(**THROW, speed=SPEED) == pytest.approx(top)
    bottom = piston_acceleration(angle=pi, **at)
    assert bottom_centre_acceleration(**THROW, speed=SPEED) == pytest.approx(-bottom)


def test_trial_figures_have_not_drifted():
    # REGRESSION values of an earlier trial of the same equations, not an outside check.
    assert top_centre_acceleration(**THROW, speed=SPEED) == pytest.approx(34_500, rel=1e-4)
    assert bottom_centre_acceleration(**THROW, speed=SPEED) == pytest.approx(18_549, rel=1e-4)
    found = largest_piston_speed(**THROW, speed=SPEED)
    assert found["largest_piston_speed"] == pytest.approx(35.276, abs=0.0005)
    assert found["largest_speed_angle"] * 180 / pi == pytest.approx(74.50, abs=0.005)


@pytest.mark.parametrize(
    "name", ["largest_piston_speed", "top_centre_acceleration", "bottom_centre_acceleration"]
)
def test_declared_directions_hold(name):
    assert_directions(name, **RANGES)


@pytest.mark.parametrize(
    "formula", [largest_piston_speed, top_centre_acceleration, bottom_centre_acceleration]
)
def test_a_rod_as_short_as_the_stroke_and_a_backward_speed_are_refused(formula):
    with pytest.raises(OutsideValidity, match="rod length over stroke is 1, outside"):
        formula(stroke=0.086, rod_length=0.086, speed=SPEED)
    with pytest.raises(OutsideValidity, match="engine speed is -1 rad/s"):
        formula(**THROW, speed=-1.0)
