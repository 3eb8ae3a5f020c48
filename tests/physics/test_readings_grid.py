import pytest

from planner.errors import OutsideValidity
from planner.physics.readings_grid import checked, equal_rows, filled, point_rows


def test_a_good_grid_comes_back_as_it_was():
    grid = ((1.0, 2.0), (3.0, 4.0))
    assert checked(grid) == equal_rows(grid) == filled(grid) == grid
    assert point_rows(grid, (2,), 2, "x, y") == grid


def test_heights_may_be_negative_but_sizes_may_not():
    assert filled(((-1.0,),)) == ((-1.0,),)
    with pytest.raises(OutsideValidity, match="reading is -1000 mm"):
        checked(((-1.0,),))


@pytest.mark.parametrize(
    ("grid", "message"),
    [
        (((1.0, 2.0, 3.0),), "numbers in a row is 3, outside rows of x, y"),
        (((1.0, 2.0), (1.0,)), "numbers in a row is 1 and 2"),
        (((1.0, 2.0),), "number of points is 1, outside 2 and more"),
        (((1.0, float("inf")), (1.0, 2.0)), "reading is inf"),
    ],
)
def test_points_that_do_not_fit_are_refused(grid, message):
    with pytest.raises(OutsideValidity, match=message):
        point_rows(grid, (2,), 2, "x, y")
