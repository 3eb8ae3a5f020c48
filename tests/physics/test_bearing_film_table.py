"""The generated bearing table: against published rows, other routes and its own script."""

import math

import numpy as np
import pytest

from planner.errors import OutsideValidity
from planner.physics.bearing_film_axes import eccentricity_axis, length_axis, steepness
from planner.physics.bearing_film_table import _table, film_at, film_under
from tests.physics.make_bearing_table import FIELDS, film, performance, pressures

# Raimondi and Boyd 1958, remembered: e, l/d, S, attitude deg, (R/c) f, Q/RcNl, Qs/Q, P/pmax
FULL_ROWS = [
    (0.4, 1.0, 0.264, 63.10, 5.79, 3.99, 0.497, 0.484),
    (0.6, 1.0, 0.121, 50.58, 3.22, 4.33, 0.680, 0.415),
    (0.8, 1.0, 0.0446, 36.24, 1.70, 4.62, 0.842, 0.313),
]
NUMBERS = [
    (0.1, 1.0, 1.33),
    (0.2, 1.0, 0.631),
    (0.9, 1.0, 0.0188),
    (0.2, 0.5, 2.03),
    (0.4, 0.5, 0.779),
    (0.6, 0.5, 0.319),
    (0.8, 0.5, 0.0923),
    (0.9, 0.5, 0.0313),
    (0.2, 0.25, 7.57),
    (0.4, 0.25, 2.83),
    (0.6, 0.25, 1.07),
    (0.8, 0.25, 0.261),
    (0.9, 0.25, 0.0736),
]


@pytest.mark.published("Raimondi and Boyd 1958, rows for l/d 1 from memory, not opened")
@pytest.mark.parametrize("row", FULL_ROWS)
def test_whole_rows_agree_with_the_published_table(row):
    eccentricity, ratio, number, attitude, friction, flow, side, share = row
    found = film_at(eccentricity, ratio)
    assert found.sommerfeld == pytest.approx(number, rel=0.015)
    assert math.degrees(found.attitude) == pytest.approx(attitude, abs=0.6)
    assert found.friction == pytest.approx(friction, rel=0.01)
    assert found.flow == pytest.approx(flow, rel=0.002)
    assert found.side_share == pytest.approx(side, abs=0.003)
    assert found.pressure_share == pytest.approx(share, rel=0.026)


@pytest.mark.published("Raimondi and Boyd 1958, Sommerfeld numbers from memory, not opened")
@pytest.mark.parametrize(("eccentricity", "ratio", "number"), NUMBERS)
def test_sommerfeld_numbers_agree_with_the_published_table(eccentricity, ratio, number):
    assert film_at(eccentricity, ratio).sommerfeld == pytest.approx(number, rel=0.015)


def short_bearing_number(eccentricity, ratio):
    """Ocvirk's closed form, in which all flow runs to the edges."""
    square = 1 - eccentricity**2
    root = math.sqrt(math.pi**2 * square + 16 * eccentricity**2)
    return square**2 / (math.pi * eccentricity * root) / ratio**2


@pytest.mark.parametrize("eccentricity", [0.1, 0.3, 0.5])
def test_a_very_narrow_bearing_becomes_the_closed_form_of_the_short_bearing(eccentricity):
    found = performance(eccentricity, 0.05)
    assert math.exp(found["log_sommerfeld"]) == pytest.approx(
        short_bearing_number(eccentricity, 0.05), rel=0.01
    )


def test_oil_in_at_the_thick_place_leaves_at_the_edges_or_at_the_break():
    eccentricity, ratio = 0.6, 0.5
    pressure, centre, _ = pressures(eccentricity, ratio)
    found = performance(eccentricity, ratio)
    # where the film breaks, what is left flows on at half the surface speed
    places = [centre[np.flatnonzero(column > 0)[-1]] for column in pressure.T]
    onward = math.pi * float(np.mean([film(eccentricity, place) for place in places]))
    assert found["flow"] * (1 - found["side_share"]) == pytest.approx(onward, rel=0.005)


def test_a_finer_grid_changes_the_answer_by_less_than_a_thousandth():
    coarse = performance(0.8, 0.4, around=180, across=16)
    fine = performance(0.8, 0.4)
    # second order: the fine grid's own error is a third of the difference
    assert abs(coarse["log_sommerfeld"] - fine["log_sommerfeld"]) / 3 < 0.001


@pytest.mark.parametrize(("row", "column"), [(0, 0), (3, 20), (8, 32), (5, 11)])
def test_the_stored_table_is_what_its_script_makes(row, column):
    eccentricity = 1 / (1 + math.exp(-eccentricity_axis()[column]))
    found = performance(eccentricity, math.exp(length_axis()[row]))
    assert _table()[row][column] == pytest.approx([found[field] for field in FIELDS], rel=1e-6)


@pytest.mark.parametrize(
    ("eccentricity", "ratio"), [(0.07, 0.3), (0.35, 0.42), (0.63, 0.55), (0.88, 0.9), (0.96, 0.3)]
)
def test_between_the_cells_the_table_agrees_with_a_direct_solution(eccentricity, ratio):
    direct = performance(eccentricity, ratio)
    found = film_at(eccentricity, ratio)
    assert found.sommerfeld == pytest.approx(math.exp(direct["log_sommerfeld"]), rel=0.005)
    assert found.friction == pytest.approx(math.exp(direct["log_friction"]), rel=0.005)
    assert found.flow == pytest.approx(direct["flow"], rel=0.005)
    assert found.side_share == pytest.approx(direct["side_share"], abs=0.005)
    assert found.pressure_share == pytest.approx(direct["pressure_share"], rel=0.01)


@pytest.mark.parametrize("eccentricity", [0.051, 0.3, 0.7, 0.9, 0.969])
@pytest.mark.parametrize("ratio", [0.25, 0.4, 1.0])
def test_looking_up_by_number_finds_the_eccentricity_back(eccentricity, ratio):
    there = film_at(eccentricity, ratio)
    assert film_under(there.sommerfeld, ratio).eccentricity == pytest.approx(eccentricity)


def test_steepness_runs_evenly_between_the_ends_of_the_table():
    axis = eccentricity_axis()
    assert axis[0] == pytest.approx(steepness(0.05))
    assert axis[-1] == pytest.approx(steepness(0.97))


@pytest.mark.parametrize(
    ("number", "ratio", "words"),
    [
        (1e-5, 0.4, r"Sommerfeld number is 1e-05, outside .* eccentricity is 0\.97 and 0\.05"),
        (1e3, 0.4, r"Sommerfeld number is 1000"),
        (0.1, 0.2, r"bearing width over journal diameter is 0\.2, outside 0\.25 to 1"),
        (float("nan"), 0.4, "Sommerfeld number is nan"),
    ],
)
def test_the_table_is_never_extrapolated(number, ratio, words):
    with pytest.raises(OutsideValidity, match=words):
        film_under(number, ratio)


def test_an_eccentricity_outside_the_table_is_refused():
    with pytest.raises(OutsideValidity, match=r"eccentricity of the journal is 0\.99"):
        film_at(0.99, 0.5)
