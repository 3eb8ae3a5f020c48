from math import degrees, pi, tan

import pytest

from planner.errors import OutsideValidity
from planner.physics.finish_hone import cross_hatch_included
from tests.physics.directions import assert_directions


def test_equal_speeds_cross_square():
    surface = 18.0 * 0.086 / 2
    angle = cross_hatch_included(stroke_speed=surface, bore=0.086, speed=18.0)
    assert angle == pytest.approx(pi / 2)


def test_the_angle_is_that_of_a_helix_unrolled():
    # One turn round the bore while the head moves along by the lead.
    bore, turns, stroke_speed = 0.086, 3.0, 0.35
    lead = stroke_speed / turns
    half = cross_hatch_included(stroke_speed=stroke_speed, bore=bore, speed=2 * pi * turns) / 2
    assert tan(half) == pytest.approx(lead / (pi * bore))
    assert 40 < degrees(2 * half) < 60


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"speed": 0.0}, "turning speed is 0 rad/s"),
        ({"stroke_speed": -0.1}, r"stroking speed is -0\.1 m/s"),
        ({"bore": float("nan")}, "bore is nan mm"),
    ],
)
def test_settings_that_cannot_be_are_refused_by_name(change, message):
    with pytest.raises(OutsideValidity, match=message):
        cross_hatch_included(**{"stroke_speed": 0.3, "bore": 0.086, "speed": 18.0, **change})


def test_declared_directions_hold():
    assert_directions(
        "cross_hatch_included", stroke_speed=(0.0, 1.0), bore=(0.06, 0.12), speed=(5.0, 40.0)
    )
