"""Spreads of readings: nothing when all agree, never past their width, unmoved together."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from planner.physics import readings_shape
from planner.physics.registry import REGISTRY

ROWS, COLUMNS = 3, 2
SPREADS = ("out_of_round", "taper", "spread_of_readings")
READING = st.floats(0.08, 0.09)
GRID = st.lists(st.tuples(READING, READING), min_size=ROWS, max_size=ROWS).map(tuple)


def declared():
    assert readings_shape.out_of_round is REGISTRY["out_of_round"].function
    return {name for name, each in REGISTRY.items() if each.spreads}


def test_every_declared_spread_is_held_here():
    assert declared() == set(SPREADS)


@pytest.mark.parametrize("name", SPREADS)
@given(readings=GRID)
def test_a_spread_is_never_more_than_the_width_of_the_readings(name, readings):
    found = REGISTRY[name].function(readings=readings)
    cells = [cell for row in readings for cell in row]
    assert 0.0 <= found <= max(cells) - min(cells)


@pytest.mark.parametrize("name", SPREADS)
@given(reading=READING)
def test_readings_that_agree_have_no_spread(name, reading):
    assert REGISTRY[name].function(readings=((reading,) * COLUMNS,) * ROWS) == 0.0


@pytest.mark.parametrize("name", SPREADS)
@given(readings=GRID, shift=st.floats(-0.01, 0.01))
def test_readings_that_move_together_keep_their_spread(name, readings, shift):
    assume(shift)
    moved = tuple(tuple(cell + shift for cell in row) for row in readings)
    function = REGISTRY[name].function
    assert function(readings=moved) == pytest.approx(function(readings=readings), abs=1e-15)
