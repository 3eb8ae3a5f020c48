import pytest

from planner.errors import OutsideValidity
from planner.physics.readings import (
    deepest_smallest,
    largest_reading,
    mean_reading,
    smallest_reading,
)
from tests.physics.grid_directions import assert_grid_directions

# Invented readings of one worn bore: thrust, along the crank, between; three depths.
BORE = (
    (0.086138, 0.086083, 0.086110),
    (0.086074, 0.086052, 0.086064),
    (0.086031, 0.086024, 0.086027),
)


def test_a_worn_bore_read_by_hand():
    assert largest_reading(readings=BORE) == 0.086138
    assert smallest_reading(readings=BORE) == 0.086024
    assert deepest_smallest(readings=BORE) == 0.086024
    assert mean_reading(readings=BORE) == pytest.approx(0.086067, abs=1e-9)


def test_the_deepest_row_counts_even_when_a_higher_one_is_smaller():
    assert deepest_smallest(readings=((0.0860, 0.0861), (0.0862, 0.0863))) == 0.0862


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: largest_reading(readings=()), "number of readings is none in a row"),
        (lambda: smallest_reading(readings=((0.086,), ())), "number of readings is none"),
        (lambda: mean_reading(readings=((0.086, float("nan")),)), "reading is nan"),
        (lambda: deepest_smallest(readings=((0.086, -0.086),)), "reading is -86 mm"),
    ],
)
def test_readings_that_say_nothing_are_refused_by_name(call, message):
    with pytest.raises(OutsideValidity, match=message):
        call()


@pytest.mark.parametrize(
    "name", ["largest_reading", "smallest_reading", "mean_reading", "deepest_smallest"]
)
def test_sizes_rise_with_every_reading(name):
    assert_grid_directions(name, "readings", 0.08, 0.09)
