import math

import pytest

from planner.errors import OutsideValidity
from planner.physics.bearing_orbit_assumed import big_end_film
from tests.physics.directions import assert_directions

RPM = math.pi / 30
DEGREE = math.pi / 180
DRIVE = {
    "bore": 0.086,
    "stroke": 0.086,
    "rod_length": 0.143,
    "reciprocating_mass": 0.625,
    "rotating_mass": 0.38,
}
TRACE = {
    "compression_ratio": 8.559,
    "pressure": 120e5,
    "peak_angle": 14 * DEGREE,
    "boost": 1.4e5,
    "back_pressure": 1.5e5,
    "air_pressure": 1e5,
    "inlet_closing": 50 * DEGREE,
    "burning_start": 10 * DEGREE,
    "exhaust_opening": 140 * DEGREE,
    "exhaust_settled": 200 * DEGREE,
    "compression_exponent": 1.32,
    "expansion_exponent": 1.28,
}
SHELL = {"journal": 0.048, "width": 0.019, "clearance": 0.055e-3}


def film(**change):
    return big_end_film(
        **{**DRIVE, **TRACE, **SHELL, "viscosity": 4.5e-3, "speed": 7500 * RPM, **change}
    )


def test_regression_loads_of_the_reference_engine():
    # Regression: 43.7 MPa and 19.8 kN in an early trial of ours, not an outside check.
    found = film()
    assert found["peak_specific_load"] / 1e6 == pytest.approx(43.7, abs=0.05)
    assert found["mean_load"] / 1e3 == pytest.approx(19.8, abs=0.05)


def test_regression_least_films():
    # Regression: our own output, to catch drift.
    films = [film(clearance=each * 1e-3)["least_film"] * 1e6 for each in (0.045, 0.055, 0.070)]
    assert films == pytest.approx([1.28, 1.22, 1.14], abs=0.02)
    slow = film(speed=3000 * RPM)["least_film"] * 1e6
    assert slow == pytest.approx(1.32, abs=0.02)


def test_oil_grade_buys_more_film_than_clearance_does():
    base, thicker, tighter = (
        film(**change)["least_film"]
        for change in ({}, {"viscosity": 5.8e-3}, {"clearance": 0.045e-3})
    )
    assert thicker / base > 1.1
    assert 1.0 < tighter / base < 1.1


def test_lugging_at_full_boost_thins_the_film():
    assert film(speed=2200 * RPM)["least_film"] < film(speed=4500 * RPM)["least_film"]


def test_a_film_too_thin_for_the_map_is_refused_and_called_a_stop():
    with pytest.raises(OutsideValidity, match="eccentricity of the journal is") as refusal:
        film(speed=1200 * RPM)
    assert "treat it as a stop" in refusal.value.remedy


def test_events_out_of_order_are_refused_in_degrees():
    with pytest.raises(OutsideValidity, match="order of events is -10, 150, 140, 200 deg"):
        film(peak_angle=150 * DEGREE)


def test_thicker_oil_never_thins_the_film():
    assert_directions(
        "big_end_film",
        examples=12,
        slack=2e-3,
        **{**DRIVE, **TRACE, "journal": 0.048, "clearance": 0.055e-3, "speed": 6000 * RPM},
        width=(0.018, 0.024),
        viscosity=(4e-3, 15e-3),
    )
