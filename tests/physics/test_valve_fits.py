import math

import pytest
from scipy.integrate import quad

from planner.errors import OutsideValidity
from planner.physics.valve_fits import (
    guide_hot_clearance,
    seat_contact_stress,
    seat_hot_interference,
)
from tests.physics.directions import assert_directions

BRONZE = {"stem_diameter": 0.006, "guide_expansion": 17.5e-6, "stem_expansion": 17e-6}


def hot(cold, guide, stem, **change):
    rises = {"guide_rise": guide - 20.0, "stem_rise": stem - 20.0}
    return guide_hot_clearance(**{**BRONZE, **change}, clearance=cold * 1e-3, **rises) * 1e3


def test_both_diameters_grow_by_expansion_integrated_over_their_rise():
    guide, _ = quad(lambda _: 0.006 * 17.5e-6, 20, 200)
    stem, _ = quad(lambda _: 0.006 * 17e-6, 20, 500)
    assert hot(0.045, 200, 500) * 1e-3 == pytest.approx(0.045e-3 + guide - stem)


def test_regression_a_tight_exhaust_guide_sticks_the_valve():
    # Regression: 0.035 leaves 0.008, 0.005 and nothing at three heats in a trial of ours.
    left = [hot(0.035, 180, 450), hot(0.035, 200, 500), hot(0.035, 200, 550)]
    assert left == pytest.approx([0.008, 0.005, -0.0002], abs=0.0006)
    assert hot(0.045, 200, 500) >= 0.010


def test_a_nickel_alloy_stem_keeps_about_nine_microns_more():
    gain = hot(0.045, 200, 500, stem_expansion=14e-6) - hot(0.045, 200, 500)
    assert gain == pytest.approx(0.009, abs=0.0005)


def test_a_seat_with_too_little_interference_is_loose_after_a_hot_stop():
    seat = {"seat_diameter": 0.034, "head_expansion": 21.5e-6, "seat_expansion": 11.5e-6}
    assert seat_hot_interference(**seat, interference=0.06e-3, rise=180.0) < 0
    # 0.0028 of the diameter leaves 20 microns or more at an even 220 degC
    kept = seat_hot_interference(**seat, interference=0.0028 * 0.034, rise=200.0)
    assert kept >= 0.020e-3


def test_a_seat_of_the_heads_own_expansion_keeps_its_interference():
    seat = {"seat_diameter": 0.034, "head_expansion": 21e-6, "seat_expansion": 21e-6}
    assert seat_hot_interference(**seat, interference=0.1e-3, rise=200.0) == 0.1e-3


def test_the_contact_band_carries_the_gas_force_along_the_stem():
    seat = {"seal_diameter": 0.0336, "contact_diameter": 0.033, "seat_width": 0.0012}
    angle = math.radians(45)
    stress = seat_contact_stress(pressure=12e6, **seat, seat_angle=angle)
    along_stem = stress * math.cos(angle) * math.pi * 0.033 * 0.0012
    assert along_stem == pytest.approx(12e6 * math.pi / 4 * 0.0336**2)
    # Regression: 121 MPa in an early trial of ours.
    assert stress / 1e6 == pytest.approx(121, abs=0.5)


def test_a_stem_temperature_no_stem_survives_is_refused():
    with pytest.raises(OutsideValidity, match="temperature rise of the stem is 900 K"):
        hot(0.045, 200, 920)


def test_a_seat_angle_measured_from_the_stem_is_refused():
    with pytest.raises(OutsideValidity, match="seat angle is 75 deg"):
        seat_contact_stress(
            pressure=12e6,
            seal_diameter=0.0336,
            contact_diameter=0.033,
            seat_width=0.0012,
            seat_angle=math.radians(75),
        )


def test_the_declared_directions_hold():
    assert_directions(
        "guide_hot_clearance",
        clearance=(0.0, 1e-4),
        stem_diameter=(0.005, 0.009),
        guide_expansion=(10e-6, 19e-6),
        guide_rise=(0.0, 250.0),
        stem_expansion=(10e-6, 19e-6),
        stem_rise=(0.0, 600.0),
    )
    assert_directions(
        "seat_hot_interference",
        interference=(0.0, 2e-4),
        seat_diameter=(0.025, 0.045),
        head_expansion=(10e-6, 23e-6),
        seat_expansion=(9e-6, 18e-6),
        rise=(0.0, 250.0),
    )
    assert_directions(
        "seat_contact_stress",
        pressure=(1e6, 25e6),
        seal_diameter=(0.025, 0.045),
        contact_diameter=(0.025, 0.045),
        seat_width=(0.0008, 0.002),
        seat_angle=(math.radians(20), math.radians(55)),
    )
