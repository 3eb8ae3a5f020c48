import pytest

from planner.errors import OutsideValidity
from planner.physics.piston_pin_fits import (
    pin_bush_clearance_left,
    pin_coldest_clearance,
    pin_hot_clearance,
)
from tests.physics.directions import assert_directions

FIT = {"outside": 0.022, "pin_expansion": 11.5e-6, "housing_expansion": 22.3e-6}


def test_the_hot_fit_is_the_difference_of_the_two_grown_diameters():
    hole = (0.022 + 0.010e-3) * (1 + 22.3e-6 * 160)
    pin = 0.022 * (1 + 11.5e-6 * 140)
    hot = pin_hot_clearance(**FIT, clearance=0.010e-3, pin_rise=140.0, housing_rise=160.0)
    # the hole is measured by its clearance: growing the clearance itself is left out
    assert hot == pytest.approx(hole - pin, abs=1e-7)


def test_a_fit_of_five_microns_seizes_in_frost_and_one_of_ten_does_not():
    tight = pin_coldest_clearance(**FIT, clearance=0.005e-3, cold_drop=40.0)
    right = pin_coldest_clearance(**FIT, clearance=0.010e-3, cold_drop=40.0)
    assert tight < 0 < right
    assert 0.010e-3 - right == pytest.approx(0.0095e-3, abs=5e-8)


def test_a_start_in_the_warm_counts_as_no_loss():
    assert pin_coldest_clearance(**FIT, clearance=0.012e-3, cold_drop=-5.0) == 0.012e-3


def test_hot_and_cold_are_one_formula_where_both_parts_share_a_temperature():
    # With the expansions exchanged a uniform rise does what a uniform drop does.
    cold = pin_coldest_clearance(**FIT, clearance=0.012e-3, cold_drop=30.0)
    swapped = {"outside": 0.022, "pin_expansion": 22.3e-6, "housing_expansion": 11.5e-6}
    hot = pin_hot_clearance(**swapped, clearance=0.012e-3, pin_rise=30.0, housing_rise=30.0)
    assert hot == pytest.approx(cold)


def test_a_thin_pin_pinches_the_bush_and_a_thick_one_does_not():
    # 4.0 and 5.5 mm wall at 120 bar in a bush of 0.020 mm or a little more
    assert pin_bush_clearance_left(hot_clearance=0.022e-3, ovalisation=0.062e-3) < 0
    assert pin_bush_clearance_left(hot_clearance=0.022e-3, ovalisation=0.021e-3) > 0


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"clearance": 0.5e-3}, "pin clearance is 0.5 mm"),
        ({"outside": 22.0}, "pin outside diameter is 22000 mm"),
        ({"pin_rise": 433.0}, "temperature rise of the pin is 433 K"),
    ],
)
def test_a_fit_that_is_no_pin_fit_is_refused(change, words):
    values = {**FIT, "clearance": 1e-5, "pin_rise": 140.0, "housing_rise": 160.0, **change}
    with pytest.raises(OutsideValidity, match=words):
        pin_hot_clearance(**values)


def test_the_declared_directions_hold():
    fit = {
        "clearance": (0.0, 5e-5),
        "outside": (0.018, 0.028),
        "pin_expansion": (10e-6, 14e-6),
        "housing_expansion": (10e-6, 24e-6),
    }
    assert_directions("pin_hot_clearance", **fit, pin_rise=(0.0, 300.0), housing_rise=(0.0, 300.0))
    assert_directions("pin_coldest_clearance", **fit, cold_drop=(-20.0, 60.0))
    assert_directions(
        "pin_bush_clearance_left", hot_clearance=(0.0, 1e-4), ovalisation=(0.0, 1e-4)
    )
