import numpy as np
import pytest
from scipy.integrate import quad

from planner.errors import OutsideValidity
from planner.physics.piston_pin_mass import pin_mass, pin_taper_saving
from tests.physics.directions import assert_directions

PIN = {"outside": 0.022, "wall": 0.005, "length": 0.058, "density": 7850.0}


def test_mass_of_the_tube_is_outside_volume_less_inside_volume():
    volume = np.pi / 4 * (0.022**2 - 0.012**2) * 0.058
    assert pin_mass(**PIN) == pytest.approx(volume * 7850)


def test_the_taper_saves_what_quadrature_of_its_wall_says():
    def area(x):
        return np.pi / 4 * ((0.015 + (0.012 - 0.015) * x / 0.014) ** 2 - 0.012**2)

    one_end, _ = quad(area, 0, 0.014)
    saved = pin_taper_saving(**PIN, end_inside=0.015, taper_length=0.014)
    assert saved == pytest.approx(2 * one_end * 7850)


def test_no_taper_saves_nothing():
    assert pin_taper_saving(**PIN, end_inside=0.015, taper_length=0.0) == 0
    assert pin_taper_saving(**PIN, end_inside=0.01200001, taper_length=0.014) < 1e-6


def test_regression_trial_figures():
    # Regression: figures of an early trial of ours, not an outside check.
    masses = [pin_mass(**{**PIN, "wall": wall}) * 1e3 for wall in (0.004, 0.005, 0.0055)]
    assert masses == pytest.approx([103, 122, 130], abs=0.6)
    saved = pin_taper_saving(**PIN, end_inside=0.015, taper_length=0.014)
    assert saved * 1e3 == pytest.approx(6.7, abs=0.05)


def test_tapers_that_meet_in_the_middle_are_refused():
    with pytest.raises(OutsideValidity, match="taper length is 30 mm, outside 0 to 29 mm"):
        pin_taper_saving(**PIN, end_inside=0.015, taper_length=0.030)


def test_a_taper_that_closes_outward_is_refused():
    with pytest.raises(OutsideValidity, match="inside diameter at the pin's end is 11 mm"):
        pin_taper_saving(**PIN, end_inside=0.011, taper_length=0.010)


def test_the_declared_directions_hold():
    pin = {
        "outside": (0.018, 0.026),
        "wall": (0.0034, 0.0058),
        "length": (0.05, 0.07),
        "density": (7700.0, 8100.0),
    }
    assert_directions("pin_mass", **pin)
    assert_directions(
        "pin_taper_saving", **pin, end_inside=(0.011, 0.018), taper_length=(0.0, 0.02)
    )
