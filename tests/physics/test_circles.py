from math import cos, pi, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import least_squares, minimize

from planner.errors import OutsideValidity
from planner.physics.circles import (
    circumscribed_circle,
    fixed_axis_diameter,
    least_squares_circle,
)

SEEDS = st.integers(0, 2**32 - 1)


def worn_bore(seed, count=18):
    """Points of an invented bore worn to one side, off its old axis, with noise."""
    random = np.random.default_rng(seed)
    angle = np.linspace(0, 2 * pi, count, endpoint=False) + random.uniform(0, 0.2, count)
    side = random.uniform(0, 2 * pi)
    wear = random.uniform(0, 1e-4) * np.clip(np.cos(angle - side), 0, None)
    radius = 0.043 + wear + random.normal(0, 3e-6, count)
    shift = random.normal(0, 1e-5, 2)
    return tuple(
        (float(r * cos(t) + shift[0]), float(r * sin(t) + shift[1]))
        for r, t in zip(radius, angle, strict=True)
    )


@given(SEEDS)
@settings(max_examples=25, deadline=None)
def test_the_least_circle_is_the_one_a_minimiser_finds(seed):
    points = worn_bore(seed)
    wall = np.array(points) * 1e3

    def radius(centre):
        return np.max(np.hypot(*(wall - centre).T))

    found = minimize(radius, [0, 0], method="Nelder-Mead", options={"xatol": 1e-9, "fatol": 1e-12})
    circle = circumscribed_circle(points=points)
    assert circle["circumscribed_diameter"] * 1e3 == pytest.approx(2 * found.fun, abs=1e-6)
    assert circle["circumscribed_diameter"] * 1e3 <= 2 * found.fun + 1e-9


@given(SEEDS)
@settings(max_examples=40, deadline=None)
def test_no_point_lies_outside_and_keeping_the_axis_never_costs_less(seed):
    points = worn_bore(seed)
    circle = circumscribed_circle(points=points)
    radius, shift = circle["circumscribed_diameter"] / 2, circle["circumscribed_shift"]
    assert all(abs(complex(*p)) <= radius + shift + 1e-12 for p in points)
    assert fixed_axis_diameter(points=points) >= 2 * radius - 1e-15
    assert fixed_axis_diameter(points=points) <= 2 * (radius + shift) + 1e-15


@given(st.permutations(range(12)))
@settings(max_examples=30, deadline=None)
def test_the_order_of_the_points_does_not_matter(order):
    points = worn_bore(3, count=12)
    mixed = tuple(points[k] for k in order)
    assert circumscribed_circle(points=mixed) == pytest.approx(circumscribed_circle(points=points))


def test_two_far_points_span_the_circle():
    line = ((-0.043, 0.0), (0.0, 0.0), (0.043, 0.0), (0.01, 0.0))
    assert circumscribed_circle(points=line)["circumscribed_diameter"] == pytest.approx(0.086)


def test_the_circle_of_an_equal_sided_triangle_is_known():
    corners = tuple((cos(a), sin(a)) for a in (0.3, 0.3 + 2 * pi / 3, 0.3 + 4 * pi / 3))
    circle = circumscribed_circle(points=corners)
    assert circle["circumscribed_diameter"] == pytest.approx(2.0)
    assert circle["circumscribed_shift"] == pytest.approx(0.0, abs=1e-12)


@given(SEEDS)
@settings(max_examples=25, deadline=None)
def test_the_least_squares_circle_is_the_one_scipy_finds(seed):
    points = worn_bore(seed)
    wall = np.array(points) * 1e3

    def distances(circle):
        return np.hypot(wall[:, 0] - circle[0], wall[:, 1] - circle[1]) - circle[2]

    x, y, radius = least_squares(distances, [0, 0, 43], xtol=1e-14, ftol=1e-14, gtol=1e-14).x
    found = least_squares_circle(points=points)
    assert found["mean_circle_diameter"] * 1e3 == pytest.approx(2 * radius, abs=1e-6)
    assert found["mean_circle_shift"] * 1e3 == pytest.approx(np.hypot(x, y), abs=1e-6)
    spokes = np.hypot(wall[:, 0] - x, wall[:, 1] - y)
    assert found["radial_roundness"] * 1e3 == pytest.approx(np.ptp(spokes), abs=1e-6)


def test_an_oval_shows_half_its_difference_of_diameters_as_radial_roundness():
    angles = np.arange(0, 2 * pi, pi / 6)
    oval = tuple(
        ((0.043 + 1e-5 * cos(2 * t)) * cos(t), (0.043 + 1e-5 * cos(2 * t)) * sin(t))
        for t in map(float, angles)
    )
    assert least_squares_circle(points=oval)["radial_roundness"] == pytest.approx(2e-5, rel=1e-3)


@pytest.mark.parametrize(
    ("formula", "points", "message"),
    [
        (fixed_axis_diameter, ((0.043, 0.0),), "number of points is 1"),
        (circumscribed_circle, ((0.043, 0.0, 0.0),) * 4, "numbers in a row is 3"),
        (
            least_squares_circle,
            tuple((0.043 * cos(t / 10), 0.043 * sin(t / 10)) for t in range(6)),
            "widest angle without a point is",
        ),
        (
            least_squares_circle,
            ((0.05, 0.0), (0.0, 0.04), (-0.05, 0.0), (0.0, -0.04)),
            "radial roundness is 10 mm, outside 0 to 0.9 mm",
        ),
        (least_squares_circle, ((0.04, 0.0),) * 5, "widest angle without a point"),
    ],
)
def test_points_that_are_no_bore_are_refused_by_name(formula, points, message):
    with pytest.raises(OutsideValidity, match=message):
        formula(points=points)


@pytest.mark.parametrize(("gap", "good"), [(134.0, True), (136.0, False)])
def test_points_must_go_round_all_but_three_eighths_of_the_bore(gap, good):
    angles = np.linspace(0.0, 2 * pi - gap * pi / 180, 9)
    points = tuple((0.043 * cos(a), 0.043 * sin(a)) for a in map(float, angles))
    if good:
        found = least_squares_circle(points=points)
        assert found["mean_circle_diameter"] == pytest.approx(0.086)
    else:
        with pytest.raises(OutsideValidity, match="136 deg, outside 0 to 135 deg"):
            least_squares_circle(points=points)
