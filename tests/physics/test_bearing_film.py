import math

import pytest

from planner.physics.bearing_film import bearing_film, film_eccentricity, sommerfeld_number
from planner.physics.bearing_film_table import film_at, film_under
from tests.physics.directions import assert_directions

BIG_END = {"journal": 0.048, "width": 0.019, "speed": 7500 * math.pi / 30, "viscosity": 4.5e-3}
OIL = {"oil_density": 850.0, "specific_heat": 2000.0}
INCH, POUND, PSI = 0.0254, 4.4482216, 6894.757
# Shigley, journal bearings: 4 microreyn, 30 turns a second, 500 lbf, r 0.75 in, c 0.0015 in,
# l 1.5 in. A reyn is a pound-force second per square inch.
SHIGLEY = {
    "force": 500 * POUND,
    "journal": 1.5 * INCH,
    "width": 1.5 * INCH,
    "clearance": 2 * 0.0015 * INCH,
    "speed": 30 * 2 * math.pi,
    "viscosity": 4e-6 * PSI,
}


@pytest.mark.published("Shigley, journal bearing example from memory: S = 0.135, h0/c = 0.42")
def test_the_textbook_bearing():
    number = sommerfeld_number(**SHIGLEY)
    found = film_under(number, 1.0)
    assert number == pytest.approx(0.135, abs=0.0005)
    # the book reads its charts by eye, to about one in the second figure
    assert 1 - found.eccentricity == pytest.approx(0.42, abs=0.01)
    assert found.friction == pytest.approx(3.50, rel=0.01)
    assert found.flow == pytest.approx(4.28, abs=0.01)
    assert found.side_share == pytest.approx(0.655, abs=0.003)
    assert found.pressure_share == pytest.approx(0.42, abs=0.007)


@pytest.mark.published("Shigley, journal bearing heat balance from memory: 9.70 with degF, psi")
def test_the_heat_balance_agrees_with_the_textbook_equation():
    found = film_under(0.135, 1.0)
    carried = found.flow * (1 - found.side_share / 2)
    fahrenheit = 222.2 / 9.70 * found.friction / carried
    # the book's oil is 0.0311 lbm/in3 and 0.42 Btu/lbm degF: 861 kg/m3 and 1758 J/kg/K
    film = bearing_film(**SHIGLEY, oil_density=861.0, specific_heat=1758.0)
    assert film["temperature_rise"] * 9 / 5 == pytest.approx(fahrenheit, rel=0.02)


def test_energy_in_by_friction_leaves_with_the_warmed_oil():
    film = bearing_film(**BIG_END, force=6000.0, clearance=0.055e-3, **OIL)
    carried = film["oil_flow"] - film["side_flow"] / 2
    heat = 850.0 * 2000.0 * carried * film["temperature_rise"]
    assert heat == pytest.approx(film["friction_power"])


def test_a_lightly_loaded_film_loses_what_petroff_says():
    load = {**BIG_END, "clearance": 0.055e-3}
    number = film_at(0.06, 0.019 / 0.048).sommerfeld
    whole = sommerfeld_number(**load, force=1000.0)
    film = bearing_film(**load, force=1000.0 * whole / number, **OIL)
    radius, speed = 0.024, BIG_END["speed"]
    petroff = 4.5e-3 * (radius * speed) ** 2 / (0.055e-3 / 2) * 2 * math.pi * radius * 0.019
    assert film["friction_power"] == pytest.approx(petroff, rel=0.02)


def test_regression_clearance_buys_temperature_and_flow():
    # Regression: rises of 100, 78, 58 K and side flow of 7.0 to 11.5 cc/s at 19.8 kN and
    # 5.8 mPa s in an early trial of ours.
    bearing = {**BIG_END, "viscosity": 5.8e-3, "force": 19800.0}
    films = [
        bearing_film(**bearing, clearance=clearance * 1e-3, **OIL)
        for clearance in (0.045, 0.055, 0.070)
    ]
    rises = [film["temperature_rise"] for film in films]
    assert rises == pytest.approx([100, 78, 58], abs=1.0)
    assert films[0]["side_flow"] * 1e6 == pytest.approx(7.0, abs=0.1)
    assert films[2]["side_flow"] * 1e6 == pytest.approx(11.5, abs=0.1)


def test_the_eccentricity_is_the_tables():
    assert film_eccentricity(sommerfeld=0.121, length_to_diameter=1.0) == pytest.approx(
        0.6, abs=0.002
    )


def test_film_falls_as_load_rises_and_the_other_directions_hold():
    bearing = {
        "force": (500.0, 30e3),
        "journal": (0.045, 0.055),
        "width": (0.016, 0.04),
        "clearance": (0.04e-3, 0.08e-3),
        "speed": (150.0, 900.0),
        "viscosity": (3e-3, 15e-3),
    }
    assert_directions("sommerfeld_number", **bearing)
    oil = {"oil_density": (800.0, 900.0), "specific_heat": (1800.0, 2300.0)}
    assert_directions("bearing_film", examples=150, **bearing, **oil)
    assert_directions("film_eccentricity", sommerfeld=(0.02, 3.0), length_to_diameter=(0.25, 1.0))
