from itertools import pairwise

import pytest

from planner.errors import OutsideValidity
from planner.physics.viscosity_grades import HOT_GRADES, sae_hot_grade


@pytest.mark.published("SAE J300 (2015), table 1, from two public pages; standard not opened")
@pytest.mark.parametrize(
    ("grade", "winter", "low", "high", "sheared"),
    [
        (20, 0, 6.9, 9.3, 2.6),
        (30, 5, 9.3, 12.5, 2.9),
        (40, 5, 12.5, 16.3, 3.5),
        (40, 15, 12.5, 16.3, 3.7),
        (50, 10, 16.3, 21.9, 3.7),
        (60, 10, 21.9, 26.1, 3.7),
    ],
)
def test_grades_as_the_table_lists_them(grade, winter, low, high, sheared):
    oil = sae_hot_grade(grade=float(grade), winter=float(winter))
    assert oil["viscosity_100_low"] * 1e6 == pytest.approx(low)
    assert oil["viscosity_100_high"] * 1e6 == pytest.approx(high)
    assert oil["high_shear_150"] * 1e3 == pytest.approx(sheared)


def test_each_grade_begins_where_the_one_below_ends():
    ranges = [HOT_GRADES[grade] for grade in sorted(HOT_GRADES)]
    assert all(low[1] == high[0] for low, high in pairwise(ranges))


@pytest.mark.parametrize(("grade", "winter"), [(45, 5), (40, 7), (540, 0)])
def test_a_grade_not_in_the_table_is_refused_by_its_own_name(grade, winter):
    with pytest.raises(OutsideValidity, match=f"oil grade is {winter}W-{grade}, outside"):
        sae_hot_grade(grade=float(grade), winter=float(winter))
