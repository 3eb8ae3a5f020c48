import pytest

from planner.errors import OutsideValidity
from planner.physics.volumes import (
    swept_volume,
)
from planner.physics.volumes_measured import chamber_after_skim, crown_volume_from_pour
from planner.physics.volumes_ratio import clearance_volume
from tests.physics.directions import assert_directions

CC = 1e-6
PARTS = {"chamber": 48.5 * CC, "gasket": 5.9447 * CC, "deck": 1.1618 * CC, "crevice": 0.4846 * CC}


def test_a_pour_on_a_flat_piston_finds_no_crown():
    poured = swept_volume(bore=0.086, stroke=0.006)
    flat = crown_volume_from_pour(poured=poured, bore=0.086, depth=0.006)
    assert flat == pytest.approx(0.0, abs=1e-18)


def test_a_poured_dish_and_a_drawn_one_give_one_ratio():
    # Drawn: a bowl 60 mm wide and 4 mm deep in the crown; poured with the piston 6 mm down.
    bowl = swept_volume(bore=0.060, stroke=0.004)
    poured = swept_volume(bore=0.086, stroke=0.006) + bowl
    measured = crown_volume_from_pour(poured=poured, bore=0.086, depth=0.006)
    whole = clearance_volume(**PARTS, crown=measured)
    assert whole == pytest.approx(sum(PARTS.values()) + bowl)


def test_a_skim_takes_a_slice_of_the_chamber():
    left = chamber_after_skim(chamber=48 * CC, skim=0.0005, bore=0.086, area_share=1.0)
    assert 48 * CC - left == pytest.approx(swept_volume(bore=0.086, stroke=0.0005))


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: crown_volume_from_pour(poured=-1e-6, bore=0.086, depth=0.006),
            "poured volume is -1 cm3",
        ),
        (
            lambda: chamber_after_skim(chamber=48e-6, skim=0.003, bore=0.086, area_share=0.75),
            "skim is 3 mm, outside 0 to 2 mm",
        ),
        (
            lambda: chamber_after_skim(chamber=1e-6, skim=0.001, bore=0.086, area_share=0.75),
            "chamber after the skim is -3.3",
        ),
    ],
)
def test_volumes_that_cannot_be_are_refused_by_name(call, message):
    with pytest.raises(OutsideValidity, match=message):
        call()


@pytest.mark.parametrize(
    ("name", "ranges"),
    [
        (
            "crown_volume_from_pour",
            {
                "poured": (1e-5, 1e-4),
                "bore": (0.06, 0.11),
                "depth": (0.001, 0.01),
            },
        ),
        (
            "chamber_after_skim",
            {
                "chamber": (4e-5, 7e-5),
                "skim": (0.0, 0.002),
                "bore": (0.06, 0.11),
                "area_share": (0.3, 1.1),
            },
        ),
    ],
)
def test_declared_directions_hold(name, ranges):
    assert_directions(name, **ranges)
