from math import exp

import pytest
from scipy.integrate import quad

from planner.errors import OutsideValidity
from planner.physics.atmosphere import absolute, standard_pressure, standard_temperature
from tests.physics.directions import assert_directions


@pytest.mark.published("US Standard Atmosphere 1976, table I: 0 m 1013.25 mb (from memory)")
def test_sea_level_has_the_standard_pressure():
    assert standard_pressure(altitude=0.0) == pytest.approx(101_325.0, abs=0.5)
    assert standard_temperature(altitude=0.0) == pytest.approx(288.15, abs=0.0005)


@pytest.mark.published(
    "US Standard Atmosphere 1976, table I, geometric height: 1000 m 898.76 mb 281.651 K; "
    "2000 m 795.01 mb 275.154 K; 3000 m 701.21 mb 268.659 K; 5000 m 540.48 mb 255.676 K "
    "(from memory, not opened)"
)
@pytest.mark.parametrize(
    ("altitude", "millibar", "kelvin"),
    [
        (1000.0, 898.76, 281.651),
        (2000.0, 795.01, 275.154),
        (3000.0, 701.21, 268.659),
        (5000.0, 540.48, 255.676),
    ],
)
def test_the_table_of_the_standard_atmosphere_is_met(altitude, millibar, kelvin):
    assert standard_pressure(altitude=altitude) / 100 == pytest.approx(millibar, abs=0.0051)
    assert standard_temperature(altitude=altitude) == pytest.approx(kelvin, abs=0.00051)


def test_the_pressure_agrees_with_the_weight_of_air_summed_numerically():
    # dp = -rho g dz with gravity falling as the square of the distance from the middle.
    radius, gas = 6_356_766.0, 8314.32 / 28.9644

    def share_lost(height):
        gravity = 9.80665 * (radius / (radius + height)) ** 2
        return gravity / (gas * standard_temperature(altitude=height))

    exponent, _ = quad(share_lost, 0.0, 4000.0)
    assert standard_pressure(altitude=4000.0) == pytest.approx(101_325.0 * exp(-exponent))


def test_a_gauge_reading_of_nothing_is_the_air_itself():
    assert absolute(p=0.0, at=150.0) == standard_pressure(altitude=150.0)


def test_boost_at_height_has_less_air_under_it():
    high, low = absolute(p=110e3, at=600.0), absolute(p=110e3, at=0.0)
    assert low - high == pytest.approx(101_325.0 - standard_pressure(altitude=600.0))


@pytest.mark.parametrize("altitude", [-1001.0, 11_001.0, float("nan")])
def test_heights_outside_the_layer_are_refused_with_the_limits(altitude):
    with pytest.raises(OutsideValidity, match="-1000 to 11000 m"):
        absolute(p=1e5, at=altitude)


def test_a_gauge_pressure_below_vacuum_is_refused():
    with pytest.raises(OutsideValidity, match=r"gauge pressure is -1\.02 bar"):
        absolute(p=-102e3, at=0.0)


@pytest.mark.parametrize("name", ["standard_pressure", "standard_temperature"])
def test_air_thins_and_cools_with_height(name):
    assert_directions(name, altitude=(-1000.0, 11_000.0))


def test_absolute_pressure_follows_gauge_and_height():
    assert_directions("absolute", p=(0.0, 4e5), at=(-1000.0, 11_000.0))
