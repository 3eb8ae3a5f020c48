from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from planner.errors import OutsideValidity
from planner.physics.decks import flatness, flatness_least_squares, flatness_within

SEEDS = st.integers(0, 2**32 - 1)


def deck(seed, *, gridded):
    """Heights of an invented deck: tilted, bowed, rough; on a grid or scattered."""
    random = np.random.default_rng(seed)
    count = int(random.integers(4, 45))
    places = random.uniform(0, 1, (count, 2)) * (0.4, 0.2)
    if gridded:
        places = np.array(list(product(np.linspace(0, 0.4, 7), np.linspace(0, 0.2, 4))))
    x, y = places.T
    height = random.normal(0, 3e-4) * x + random.normal(0, 3e-4) * y
    height += random.normal(0, 1e-3) * (x - 0.2) ** 2 + random.normal(0, 1e-5, len(x))
    rounded = np.round(height, 6 if gridded else 12)
    return tuple(map(tuple, np.column_stack((x, y, rounded)).tolist()))


def flatness_by_linear_programme(points):
    """Least room between parallel planes by SciPy's HiGHS, in millimetres."""
    face = np.array(points) * 1e3
    flat = np.column_stack((face[:, :2] / 100, np.ones(len(face))))
    half = np.ones((len(face), 1))
    above = np.vstack((np.hstack((-flat, -half)), np.hstack((flat, -half))))
    limit = np.concatenate((-face[:, 2], face[:, 2]))
    answer = linprog([0, 0, 0, 1], above, limit, bounds=[(None, None)] * 3 + [(0, None)])
    assert answer.success
    return 2 * answer.fun / 1e3


@pytest.mark.parametrize("gridded", [True, False])
@given(SEEDS)
@settings(max_examples=30, deadline=None)
def test_flatness_is_what_a_linear_programme_finds(gridded, seed):
    points = deck(seed, gridded=gridded)
    assert flatness(points=points) == pytest.approx(
        flatness_by_linear_programme(points), abs=2e-10
    )


@given(SEEDS)
@settings(max_examples=30, deadline=None)
def test_the_least_squares_plane_never_flatters(seed):
    points = deck(seed, gridded=False)
    assert flatness_least_squares(points=points) >= flatness(points=points) - 1e-15


@given(SEEDS, st.floats(-1e-3, 1e-3), st.floats(-1e-3, 1e-3), st.floats(-0.1, 0.1))
@settings(max_examples=30, deadline=None)
def test_tilting_or_lifting_the_face_changes_nothing(seed, along, across, lift):
    points = deck(seed, gridded=True)
    tilted = tuple((x, y, z + along * x + across * y + lift) for x, y, z in points)
    assert flatness(points=tilted) == pytest.approx(flatness(points=points), abs=1e-12)
    worst = flatness_within(points=points, span=0.11)
    assert flatness_within(points=tilted, span=0.11) == pytest.approx(worst, abs=1e-12)


def test_a_saddle_is_held_by_two_pairs_of_points():
    corners = ((0.0, 0.0, 1e-5), (0.4, 0.2, 1e-5), (0.4, 0.0, -1e-5), (0.0, 0.2, -1e-5))
    assert flatness(points=corners) == pytest.approx(2e-5)


def test_a_dent_is_held_by_three_points_and_one():
    pyramid = ((0.0, 0.0, 0.0), (0.4, 0.0, 0.0), (0.2, 0.3, 0.0), (0.2, 0.1, -5e-5))
    assert flatness(points=pyramid) == pytest.approx(5e-5)


@given(SEEDS)
@settings(max_examples=15, deadline=None)
def test_a_patch_is_never_less_flat_than_the_whole(seed):
    points = deck(seed, gridded=True)
    whole = flatness(points=points)
    assert flatness_within(points=points, span=0.15) <= whole + 1e-15
    assert flatness_within(points=points, span=1.0) == pytest.approx(whole, abs=1e-15)


@given(SEEDS)
@settings(max_examples=8, deadline=None)
def test_the_worst_patch_is_the_worst_of_all_squares_slid_over_the_face(seed):
    points = deck(seed, gridded=True)
    worst = flatness_within(points=points, span=0.14)
    for left, low in product(np.linspace(-0.05, 0.35, 9), np.linspace(-0.05, 0.15, 7)):
        inside = tuple(
            p for p in points if left <= p[0] <= left + 0.14 and low <= p[1] <= low + 0.14
        )
        if len({p[0] for p in inside}) > 1 and len({p[1] for p in inside}) > 1:
            assert flatness_by_linear_programme(inside) <= worst + 2e-10


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: flatness(points=((0.0, 0.0, 0.0),) * 3), "number of points is 3"),
        (
            lambda: flatness(points=tuple((k / 10, k / 20, 0.0) for k in range(6))),
            "points is in one line",
        ),
        (
            lambda: flatness(
                points=((0.0, 0.0, 0.0), (0.1, 0.0, 0.01), (0.0, 0.1, 0.0), (0.1, 0.1, 0.01))
            ),
            r"tilt of the face along x is 0\.1",
        ),
        (
            lambda: flatness_within(
                points=((0.0, 0.0, 0.0), (0.4, 0.0, 0.0), (0.0, 0.2, 0.0), (0.4, 0.2, 0.0)),
                span=0.1,
            ),
            "side of the square is 100 mm, outside squares that hold four points",
        ),
    ],
)
def test_faces_that_cannot_be_judged_are_refused_by_name(call, message):
    with pytest.raises(OutsideValidity, match=message):
        call()


@given(SEEDS, st.floats(-1.0, 1.0), st.floats(-1.0, 1.0))
@settings(max_examples=20, deadline=None)
def test_where_the_corner_of_the_face_is_does_not_matter(seed, along, across):
    points = deck(seed, gridded=True)
    moved = tuple((x + along, y + across, z) for x, y, z in points)
    assert flatness(points=moved) == pytest.approx(flatness(points=points), abs=1e-12)


def test_a_line_of_points_away_from_the_corner_is_still_a_line():
    line = tuple((0.7 + 0.3 * k, 0.2 + 0.1 * k, 0.0) for k in range(5))
    with pytest.raises(OutsideValidity, match="points is in one line"):
        flatness(points=line)
    with pytest.raises(OutsideValidity, match="points is in one line"):
        flatness_least_squares(points=line)
