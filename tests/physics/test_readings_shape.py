import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import OutsideValidity
from planner.physics.readings import largest_reading, smallest_reading
from planner.physics.readings_shape import (
    compression_spread,
    out_of_round,
    spread_of_readings,
    taper,
)
from tests.physics.directions import assert_directions

GRIDS = st.lists(
    st.tuples(st.floats(0.08, 0.09), st.floats(0.08, 0.09)), min_size=2, max_size=5
).map(tuple)


def test_a_worn_bore_read_by_hand():
    # Invented readings: thrust, along the crank, between; three depths.
    bore = (
        (0.086138, 0.086083, 0.086110),
        (0.086074, 0.086052, 0.086064),
        (0.086031, 0.086024, 0.086027),
    )
    assert out_of_round(readings=bore) == pytest.approx(0.000055)
    assert taper(readings=bore) == pytest.approx(0.000107)


def test_a_journal_tapers_between_its_planes():
    journal = ((0.053968, 0.053956), (0.053966, 0.053955))
    assert out_of_round(readings=journal) == pytest.approx(0.000012)
    assert taper(readings=journal) == pytest.approx(0.000002)


@given(GRIDS)
def test_turning_a_grid_on_its_side_swaps_out_of_round_and_taper(grid):
    turned = tuple(zip(*grid, strict=True))
    assert out_of_round(readings=grid) == taper(readings=turned)
    assert taper(readings=grid) == out_of_round(readings=turned)


@given(GRIDS, st.floats(-0.01, 0.01))
def test_a_larger_bore_has_the_same_shape(grid, growth):
    grown = tuple(tuple(reading + growth for reading in row) for row in grid)
    for shape in (out_of_round, taper, spread_of_readings):
        assert shape(readings=grown) == pytest.approx(shape(readings=grid), abs=1e-15)


@given(GRIDS)
def test_no_difference_exceeds_the_whole_spread(grid):
    whole = spread_of_readings(readings=grid)
    assert max(out_of_round(readings=grid), taper(readings=grid)) <= whole
    assert whole == largest_reading(readings=grid) - smallest_reading(readings=grid)


def test_four_deck_heights_spread_by_their_ends():
    heights = ((0.21598, 0.21597, 0.21594, 0.21595),)
    assert spread_of_readings(readings=heights) == pytest.approx(0.00004)


def test_a_weak_cylinder_is_told_as_a_share_of_the_best():
    # Invented: 11.2, 10.9, 8.1 and 11.0 bar; 3.1 / 11.2.
    assert compression_spread(highest=11.2e5, lowest=8.1e5) == pytest.approx(3.1 / 11.2)


def test_a_weaker_cylinder_widens_the_spread():
    assert_directions("compression_spread", highest=(8e5, 15e5), lowest=(0.0, 8e5))


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: out_of_round(readings=((0.086,), (0.087, 0.088))), "number of axes read is 1"),
        (lambda: taper(readings=((0.086, 0.087),)), "number of heights read is 1"),
        (lambda: compression_spread(highest=0.0, lowest=0.0), "highest compression is 0 bar"),
        (lambda: compression_spread(highest=8e5, lowest=9e5), "lowest compression is 9 bar"),
        (
            lambda: taper(readings=((0.086, 0.087), (0.086,))),
            "number of axes in a row is 1 and 2",
        ),
    ],
)
def test_readings_that_say_nothing_are_refused_by_name(call, message):
    with pytest.raises(OutsideValidity, match=message):
        call()
