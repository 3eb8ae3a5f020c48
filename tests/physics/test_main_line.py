import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from planner.errors import OutsideValidity
from planner.physics.main_line import main_line

PLACES = (0.0, 0.1, 0.2, 0.3, 0.4)
OFFSETS = st.lists(st.floats(-5e-5, 5e-5), min_size=5, max_size=5)


def line(*directions):
    return main_line(points=tuple(zip(PLACES, *directions, strict=True)))


def test_neighbour_offsets_by_hand():
    # 12 - (0+21)/2 = 1.5; 21 - (12+10)/2 = 10; 10 - (21+2)/2 = -1.5 micrometres.
    found = line((0.0, 12e-6, 21e-6, 10e-6, 2e-6))
    assert found["main_neighbour_offset"] == pytest.approx(10e-6)


def test_unequal_spacing_counts():
    bent = main_line(points=((0.0, 0.0), (0.1, 3e-5), (0.4, 0.0)))
    straight = main_line(points=((0.0, 0.0), (0.1, 1e-5), (0.4, 4e-5)))
    assert bent["main_neighbour_offset"] == pytest.approx(3e-5)
    assert straight == pytest.approx(dict.fromkeys(straight, 0.0), abs=1e-15)


@given(OFFSETS)
def test_the_residual_is_that_of_numpy_s_fitted_line(offsets):
    fitted = np.polyval(np.polyfit(PLACES, offsets, 1), PLACES)
    worst = np.max(np.abs(np.array(offsets) - fitted))
    assert line(offsets)["main_line_residual"] == pytest.approx(worst, abs=1e-12)


@given(OFFSETS)
@settings(max_examples=30, deadline=None)
def test_the_straightness_is_what_a_linear_programme_finds(offsets):
    heights = np.array(offsets) * 1e6
    flat = np.column_stack((PLACES, np.ones(5)))
    half = np.ones((5, 1))
    above = np.vstack((np.hstack((-flat, -half)), np.hstack((flat, -half))))
    limit = np.concatenate((-heights, heights))
    answer = linprog([0, 0, 1], above, limit, bounds=[(None, None)] * 2 + [(0, None)])
    assert line(offsets)["main_line_straightness"] == pytest.approx(2e-6 * answer.fun, abs=1e-10)


@given(OFFSETS, st.floats(-1e-3, 1e-3), st.floats(-1e-3, 1e-3))
def test_how_the_bar_is_set_does_not_matter(offsets, slope, lift):
    reset = [o + slope * p + lift for p, o in zip(PLACES, offsets, strict=True)]
    assert line(reset) == pytest.approx(line(offsets), abs=1e-15)


@given(OFFSETS, st.floats(0.0, 6.3))
def test_two_directions_are_put_together(offsets, turn):
    both = line([o * np.cos(turn) for o in offsets], [o * np.sin(turn) for o in offsets])
    alone = line(offsets)
    for name in ("main_neighbour_offset", "main_line_residual"):
        assert both[name] == pytest.approx(alone[name], abs=1e-15)
    assert both["main_line_straightness"] <= alone["main_line_straightness"] + 1e-15


@pytest.mark.parametrize(
    ("points", "message"),
    [
        (((0.0, 0.0), (0.1, 0.0)), "number of points is 2"),
        (((0.0, 0.0), (0.2, 0.0), (0.1, 0.0)), "order of the main bores is not rising"),
        (((0.0,), (0.2,), (0.3,)), "numbers in a row is 1"),
    ],
)
def test_bores_that_make_no_line_are_refused_by_name(points, message):
    with pytest.raises(OutsideValidity, match=message):
        main_line(points=points)
