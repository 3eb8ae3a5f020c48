import pytest

from planner.physics.circles_enclosing import _through_three, enclosing_circle


def test_one_point_is_its_own_circle():
    assert enclosing_circle([2 + 1j]) == (2 + 1j, 0.0)


def test_three_points_in_line_are_held_by_the_widest_pair():
    # Only rounding can bring points in line here; the answer must still be a circle.
    assert _through_three(0j, 1 + 0j, 3 + 0j) == (1.5 + 0j, 1.5)


def test_the_circle_through_three_points_stands_equally_far_from_each():
    centre, radius = _through_three(0j, 4 + 0j, 1 + 3j)
    assert centre == pytest.approx(2 + 1j)
    assert radius == pytest.approx(5**0.5)
