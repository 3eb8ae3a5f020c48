import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import OutsideValidity
from planner.physics.tolerances import (
    clearance_tolerance_root_sum_square,
    clearance_tolerance_worst_case,
    root_sum_square,
    worst_case,
)
from tests.physics.directions import assert_directions

SIZES = {"housing": 3e-6, "journal": 3e-6, "wall": 1.5e-6}
HALVES = st.lists(st.floats(0.0, 1e-3), min_size=1, max_size=6)


def test_the_sums_by_hand():
    # 3 + 3 + 1.5 + 1.5 = 9; 9 + 9 + 2.25 + 2.25 = 22.5, root 4.743.
    assert clearance_tolerance_worst_case(**SIZES) == pytest.approx(9e-6)
    assert clearance_tolerance_root_sum_square(**SIZES) == pytest.approx(22.5**0.5 * 1e-6)


@given(HALVES)
def test_the_usual_sum_lies_between_the_largest_term_and_the_worst_case(halves):
    usual = root_sum_square(halves)
    assert max(halves) <= usual * (1 + 1e-12)
    assert usual <= worst_case(halves) * (1 + 1e-12)


@given(HALVES)
def test_a_sign_does_not_let_a_tolerance_take_from_another(halves):
    assert worst_case([-h for h in halves]) == worst_case(halves)
    assert root_sum_square([-h for h in halves]) == root_sum_square(halves)


@pytest.mark.parametrize(
    "formula", [clearance_tolerance_worst_case, clearance_tolerance_root_sum_square]
)
def test_negative_tolerances_are_refused_by_name(formula):
    with pytest.raises(OutsideValidity, match="tolerance of the wall is -1 mm"):
        formula(**{**SIZES, "wall": -1e-3})


@pytest.mark.parametrize(
    "name", ["clearance_tolerance_worst_case", "clearance_tolerance_root_sum_square"]
)
def test_declared_directions_hold(name):
    assert_directions(name, housing=(0.0, 1e-4), journal=(0.0, 1e-4), wall=(0.0, 1e-4))
