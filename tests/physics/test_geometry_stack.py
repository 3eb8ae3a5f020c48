import pytest

from planner.errors import OutsideValidity
from planner.physics.geometry_stack import (
    compression_height_needed,
    deck_clearance,
    quench_distance,
)
from tests.physics.directions import assert_directions

STACK = {"deck_height": 0.2159, "stroke": 0.086, "rod_length": 0.143}
RANGES = {"deck_height": (0.18, 0.3), "stroke": (0.06, 0.12), "rod_length": (0.1, 0.2)}


def test_a_deck_cut_comes_off_the_deck_clearance_whole():
    before = deck_clearance(**STACK, compression_height=0.0298)
    after = deck_clearance(**{**STACK, "deck_height": 0.2158}, compression_height=0.0298)
    assert before - after == pytest.approx(0.0001)
    assert before == pytest.approx(0.2159 - 0.043 - 0.143 - 0.0298)


@pytest.mark.parametrize("wanted", [-0.0001, 0.0, 0.0003])
def test_the_compression_height_asked_for_gives_the_deck_clearance_wanted(wanted):
    height = compression_height_needed(**STACK, deck_clearance=wanted)
    assert deck_clearance(**STACK, compression_height=height) == pytest.approx(wanted, abs=1e-12)


def test_a_piston_standing_proud_takes_from_the_quench_distance():
    proud = quench_distance(deck_clearance=-0.00014, gasket_thickness=0.001, pad_height=0.0)
    assert proud == pytest.approx(0.00086)


def test_a_stack_without_a_piston_is_refused():
    with pytest.raises(OutsideValidity, match="compression height is 0 mm"):
        deck_clearance(**STACK, compression_height=0.0)


def test_a_gasket_without_thickness_is_refused():
    with pytest.raises(OutsideValidity, match="gasket thickness is 0 mm"):
        quench_distance(deck_clearance=0.0, gasket_thickness=0.0, pad_height=0.0)


@pytest.mark.parametrize(
    ("name", "ranges"),
    [
        ("deck_clearance", {**RANGES, "compression_height": (0.02, 0.05)}),
        ("compression_height_needed", {**RANGES, "deck_clearance": (-0.001, 0.002)}),
        (
            "quench_distance",
            {
                "deck_clearance": (-0.001, 0.002),
                "gasket_thickness": (0.0005, 0.002),
                "pad_height": (-0.001, 0.001),
            },
        ),
    ],
)
def test_declared_directions_hold(name, ranges):
    assert_directions(name, **ranges)
