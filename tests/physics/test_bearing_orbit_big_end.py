import math

import pytest

from planner.errors import OutsideValidity
from planner.physics.bearing_film import sommerfeld_number
from planner.physics.bearing_orbit_big_end import big_end_orbit
from tests.physics.directions import assert_directions

RPM = math.pi / 30
DRIVE = {
    "bore": 0.086,
    "stroke": 0.086,
    "rod_length": 0.143,
    "reciprocating_mass": 0.625,
    "rotating_mass": 0.38,
}
SHELL = {"journal": 0.048, "width": 0.019, "clearance": 0.055e-3}


def test_a_big_end_that_only_spins_is_borne_like_a_steady_load():
    # No gas, no piston: a load of one size that turns with the journal. By Ocvirk's closed
    # form such a bearing runs at the eccentricity of a steady load; the rod's own swing
    # makes it breathe a little.
    load = 2.0 * 0.043 * (6000 * RPM) ** 2
    shell = {**SHELL, "viscosity": 8e-3, "speed": 6000 * RPM}
    number = sommerfeld_number(force=load, **shell) * (0.019 / 0.048) ** 2
    spinning = {**DRIVE, "rod_length": 0.25, "reciprocating_mass": 0.0, "rotating_mass": 2.0}
    found = big_end_orbit(pressures=((0.0,) * 720,), **spinning, **shell)
    eccentricity = 1 - found["least_film"] / (0.055e-3 / 2)

    square = 1 - eccentricity**2
    root = math.sqrt(math.pi**2 * square + 16 * eccentricity**2)
    assert square**2 / (math.pi * eccentricity * root) == pytest.approx(number, rel=0.25)
    assert found["peak_load"] == pytest.approx(load)
    assert found["mean_load"] == pytest.approx(load)


def test_a_finer_trace_gives_the_same_film():
    coarse = (3e6,) * 20 + (1.5e5,) * 340
    fine = tuple(each for each in coarse for _ in range(4))
    shell = {**SHELL, "viscosity": 8e-3, "speed": 5000 * RPM}
    films = [
        big_end_orbit(pressures=(row,), **DRIVE, **shell)["least_film"] for row in (coarse, fine)
    ]
    assert films[0] == pytest.approx(films[1], rel=0.02)


def test_a_trace_too_short_to_follow_is_refused():
    with pytest.raises(OutsideValidity, match="pressure trace is 4 pressures long"):
        big_end_orbit(
            pressures=((1e5, 2e5, 3e5, 1e5),), **DRIVE, **SHELL, viscosity=5e-3, speed=500.0
        )


def test_thicker_oil_never_thins_the_film():
    trace = (3e6,) * 20 + (1.5e5,) * 340
    shell = {"journal": 0.048, "clearance": 0.055e-3, "speed": 5000 * RPM}
    thin, thick = (
        big_end_orbit(pressures=(trace,), **DRIVE, **shell, width=width, viscosity=viscosity)
        for width, viscosity in ((0.020, 5e-3), (0.022, 9e-3))
    )
    assert thin["least_film"] < thick["least_film"]
    assert thin["peak_specific_load"] > thick["peak_specific_load"]
    assert_directions(
        "big_end_orbit",
        examples=12,
        slack=2e-3,
        pressures=[trace],
        **DRIVE,
        **shell,
        width=(0.018, 0.024),
        viscosity=(4e-3, 15e-3),
    )
