from math import asin, cos, pi, sin, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import OutsideValidity
from planner.physics.geometry_slider_crank import (
    piston_acceleration,
    piston_position,
    piston_speed,
)

THROW = {"stroke": 0.086, "rod_length": 0.143}
SPEED = 785.3981633974483
ANGLES = st.floats(0.0, 4 * pi)
OFFSETS = st.floats(-0.0025, 0.0025)


@given(angle=ANGLES, offset=OFFSETS)
def test_speed_is_the_numeric_slope_of_position(angle, offset):
    step = 1e-5
    at = {**THROW, "pin_offset": offset}
    ahead = piston_position(angle=angle + step, **at)
    behind = piston_position(angle=angle - step, **at)
    slope = SPEED * (ahead - behind) / (2 * step)
    assert piston_speed(angle=angle, **at, speed=SPEED) == pytest.approx(slope, abs=1e-5)


@given(angle=ANGLES, offset=OFFSETS)
def test_acceleration_is_the_numeric_slope_of_speed(angle, offset):
    step = 1e-5
    at = {**THROW, "pin_offset": offset, "speed": SPEED}
    slope = SPEED * (
        piston_speed(angle=angle + step, **at) - piston_speed(angle=angle - step, **at)
    )
    slope /= 2 * step
    assert piston_acceleration(angle=angle, **at) == pytest.approx(slope, abs=0.01)


@given(angle=ANGLES, offset=OFFSETS)
def test_the_rod_keeps_its_length(angle, offset):
    crank = (0.043 * sin(angle), 0.043 * cos(angle))
    highest = sqrt(0.186**2 - offset**2)
    pin = (offset, highest - piston_position(angle=angle, **THROW, pin_offset=offset))
    length = sqrt((crank[0] - pin[0]) ** 2 + (crank[1] - pin[1]) ** 2)
    assert length == pytest.approx(0.143, rel=1e-12)


@given(offset=OFFSETS)
def test_the_highest_point_is_reached_with_crank_and_rod_in_line(offset):
    at_top = piston_position(angle=asin(offset / 0.186), **THROW, pin_offset=offset)
    assert at_top == pytest.approx(0.0, abs=1e-12)


@pytest.mark.published(
    "Heywood, Internal Combustion Engine Fundamentals, 1988, eq. 2.5: "
    "s = a cos t + sqrt(l^2 - a^2 sin^2 t) (from memory)"
)
@given(angle=ANGLES)
def test_without_offset_it_is_the_textbook_slider_crank(angle):
    textbook = 0.043 * cos(angle) + sqrt(0.143**2 - (0.043 * sin(angle)) ** 2)
    found = piston_position(angle=angle, **THROW, pin_offset=0.0)
    assert found == pytest.approx(0.186 - textbook, abs=1e-12)


@pytest.mark.published(
    "Heywood, Internal Combustion Engine Fundamentals, 1988, eq. 2.11: instantaneous over mean "
    "speed = pi/2 sin t [1 + cos t / sqrt(R^2 - sin^2 t)] (from memory)"
)
@pytest.mark.parametrize("degrees", [10.0, 60.0, 74.5, 90.0, 150.0])
def test_speed_over_mean_speed_is_the_textbook_ratio(degrees):
    angle, rod_over_crank = degrees * pi / 180, 0.143 / 0.043
    ratio = pi / 2 * sin(angle) * (1 + cos(angle) / sqrt(rod_over_crank**2 - sin(angle) ** 2))
    found = piston_speed(angle=angle, **THROW, pin_offset=0.0, speed=SPEED)
    assert found / (0.086 * SPEED / pi) == pytest.approx(ratio)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"rod_length": 0.1}, "rod length over stroke is 1.16279, outside 1.2 to 3"),
        ({"pin_offset": 0.003}, "pin offset over stroke is 0.0348837, outside 0 to 0.03"),
        ({"pin_offset": float("nan")}, "pin offset over stroke is nan"),
        ({"stroke": 0.0}, "stroke is 0 mm"),
    ],
)
def test_throws_outside_the_validity_are_refused(change, message):
    with pytest.raises(OutsideValidity, match=message):
        piston_position(**{"angle": 1.0, **THROW, "pin_offset": 0.0, **change})
