import pytest

from planner.errors import OutsideValidity
from planner.physics.geometry import (
    mean_piston_speed,
    piston_area,
    piston_area_power,
    rod_ratio,
)
from tests.physics.directions import assert_directions


def test_mean_speed_is_two_strokes_a_turn():
    one_turn_a_second = 2 * 3.141592653589793
    assert mean_piston_speed(stroke=0.1, speed=one_turn_a_second) == pytest.approx(0.2)


def test_the_rod_ratio_is_rod_over_stroke():
    assert rod_ratio(rod_length=0.15, stroke=0.075) == pytest.approx(2.0)


def test_the_area_of_a_bore_of_two_over_root_pi_is_one():
    assert piston_area(bore=1.1283791670955126) == pytest.approx(1.0)


def test_power_for_each_area_counts_every_piston():
    one = piston_area_power(power=100e3, bore=0.086, cylinders=1.0)
    assert one == pytest.approx(4 * piston_area_power(power=100e3, bore=0.086, cylinders=4.0))


def test_trial_figures_have_not_drifted():
    # REGRESSION values of an earlier trial of the same equations, not an outside check.
    assert mean_piston_speed(stroke=0.086, speed=785.398) == pytest.approx(21.5, abs=0.05)
    power = piston_area_power(power=250e3, bore=0.086, cylinders=4.0)
    assert power == pytest.approx(1.076e7, rel=1e-3)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: piston_area(bore=0.0), "bore is 0 mm, outside sizes above zero"),
        (lambda: mean_piston_speed(stroke=0.086, speed=-1.0), "engine speed is -1 rad/s"),
        (lambda: rod_ratio(rod_length=-0.1, stroke=0.086), "rod length is -100 mm"),
        (
            lambda: piston_area_power(power=1e5, bore=0.086, cylinders=float("nan")),
            "number of cylinders is nan",
        ),
    ],
)
def test_sizes_that_cannot_be_are_refused_by_name(call, message):
    with pytest.raises(OutsideValidity, match=message):
        call()


@pytest.mark.parametrize(
    ("name", "ranges"),
    [
        ("mean_piston_speed", {"stroke": (0.05, 0.12), "speed": (50.0, 1000.0)}),
        ("rod_ratio", {"stroke": (0.05, 0.12), "rod_length": (0.1, 0.2)}),
        ("piston_area", {"bore": (0.05, 0.12)}),
        ("piston_area_power", {"power": (1e4, 1e6), "bore": (0.05, 0.12), "cylinders": (1, 16)}),
    ],
)
def test_declared_directions_hold(name, ranges):
    assert_directions(name, **ranges)
