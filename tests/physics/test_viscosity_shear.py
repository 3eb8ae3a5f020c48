import pytest

from planner.errors import OutsideValidity
from planner.physics.viscosity_grades import sae_hot_grade
from planner.physics.viscosity_shear import high_shear_viscosity, oil_density
from tests.physics.directions import assert_directions

ZERO = 273.15
DENSITY = {"density_15": 865.0, "density_fall": 0.63}
SHEAR = {"shear_loss": 0.20, "high_shear_margin": 1.05}
FORTY = sae_hot_grade(grade=40.0, winter=15.0)


def test_regression_high_shear_line_of_a_forty():
    # Regression: 9.35, 6.30 and 3.885 mPa s in an early trial of ours.
    found = [
        high_shear_viscosity(**FORTY, **SHEAR, **DENSITY, temperature=ZERO + celsius) * 1e3
        for celsius in (100, 120, 150)
    ]
    assert found == pytest.approx([9.35, 6.30, 3.885], abs=0.006)


def test_the_high_shear_line_passes_through_its_two_points():
    density = oil_density(**DENSITY, rise=85.0)
    hot = high_shear_viscosity(**FORTY, **SHEAR, **DENSITY, temperature=ZERO + 100)
    assert hot / density * 1e6 == pytest.approx(0.8 * (12.5 + 16.3) / 2)
    hotter = high_shear_viscosity(**FORTY, **SHEAR, **DENSITY, temperature=ZERO + 150)
    assert hotter == pytest.approx(1.05 * 3.7e-3)


def test_density_falls_along_a_straight_line_from_fifteen_degrees():
    assert oil_density(**DENSITY, rise=1.0) == pytest.approx(865.0 - 0.63)
    assert oil_density(**DENSITY, rise=100.0) == pytest.approx(865.0 - 63.0)


def test_a_cold_film_is_refused():
    with pytest.raises(OutsideValidity, match=r"oil temperature is 293\.15 K"):
        high_shear_viscosity(**FORTY, **SHEAR, **DENSITY, temperature=ZERO + 20)


def test_the_declared_directions_hold():
    assert_directions(
        "oil_density",
        density_15=(820.0, 900.0),
        density_fall=(0.5, 0.8),
        rise=(0.0, 180.0),
    )
    assert_directions(
        "high_shear_viscosity",
        **FORTY,
        **SHEAR,
        density_15=865.0,
        density_fall=0.63,
        temperature=(ZERO + 85, ZERO + 155),
    )
