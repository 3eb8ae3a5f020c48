import pytest

from planner.errors import OutsideValidity
from planner.physics.bearing_clearance_cold import (
    bearing_clearance_floor,
    bearing_coldest_loss,
    coldest_bearing_clearance,
)
from planner.physics.bearing_clearance_heat import hot_bearing_clearance
from tests.physics.directions import assert_directions

STEEL = {"journal_expansion": 11.5e-6, "shell_expansion": 12e-6}
ALUMINIUM = {**STEEL, "housing_expansion": 21.5e-6}
IRON = {**STEEL, "housing_expansion": 11.0e-6}
PARTS = {"housing": 0.064, "journal": 0.060, "wall": 0.002}
RANGES = {
    "housing": (0.0634, 0.0646),
    "journal": (0.0595, 0.0605),
    "wall": (1.7e-3, 2.2e-3),
    "housing_expansion": (10e-6, 23e-6),
    "journal_expansion": (10e-6, 14e-6),
    "shell_expansion": (10e-6, 18e-6),
}


def test_a_floor_of_20_microns_locks_an_aluminium_main_in_frost():
    cold = {**PARTS, **ALUMINIUM, "cold_drop": 40.0}
    assert coldest_bearing_clearance(**cold, clearance=0.020e-3) < 0
    floor = bearing_clearance_floor(
        journal=0.060,
        floor_per_diameter=0.00065,
        coldest_loss=bearing_coldest_loss(**cold),
        least_coldest=0.015e-3,
    )
    assert coldest_bearing_clearance(**cold, clearance=floor) == pytest.approx(0.015e-3)


def test_in_an_iron_housing_the_share_of_the_diameter_is_the_floor():
    loss = bearing_coldest_loss(**PARTS, **IRON, cold_drop=40.0)
    floor = bearing_clearance_floor(
        journal=0.060, floor_per_diameter=0.00065, coldest_loss=loss, least_coldest=0.015e-3
    )
    assert loss < 0
    assert floor == pytest.approx(0.039e-3)


def test_regression_band_of_an_aluminium_main_at_minus_twenty():
    # Regression: 0.050 to 0.072 cold becomes 0.024 to 0.046 in an early trial of ours.
    ends = [
        coldest_bearing_clearance(**PARTS, **ALUMINIUM, cold_drop=40.0, clearance=cold)
        for cold in (0.050e-3, 0.072e-3)
    ]
    assert [end * 1e3 for end in ends] == pytest.approx([0.024, 0.046], abs=0.0006)


def test_a_start_in_the_warm_counts_as_no_loss():
    assert bearing_coldest_loss(**PARTS, **ALUMINIUM, cold_drop=-8.0) == 0


def test_a_drop_and_a_rise_of_the_same_size_cancel():
    hot = hot_bearing_clearance(**PARTS, **ALUMINIUM, rise=30.0, clearance=0.05e-3)
    back = coldest_bearing_clearance(**PARTS, **ALUMINIUM, cold_drop=30.0, clearance=hot)
    assert back == pytest.approx(0.05e-3)


def test_a_drop_no_climate_has_is_refused():
    with pytest.raises(OutsideValidity, match="drop to the coldest start is 253 K"):
        bearing_coldest_loss(**PARTS, **ALUMINIUM, cold_drop=253.0)


def test_the_declared_directions_hold():
    clearance = (0.0, 1e-4)
    assert_directions("bearing_coldest_loss", **RANGES, cold_drop=(-20.0, 60.0))
    assert_directions(
        "coldest_bearing_clearance", **RANGES, cold_drop=(-20.0, 60.0), clearance=clearance
    )
    assert_directions(
        "bearing_clearance_floor",
        journal=(0.03, 0.07),
        floor_per_diameter=(0.0005, 0.001),
        coldest_loss=(-5e-6, 5e-5),
        least_coldest=(0.0, 3e-5),
    )
