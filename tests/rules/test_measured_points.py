"""A deck and a main line measured point by point, through a whole job."""

import pytest

from tests.rules.demo_builds import build

# Four corners of a flat deck and one hollow in the middle, 0.08 mm deep.
HOLLOW = (
    "[[0, 0, 0], [400, 0, 0], [0, 160, 0], [400, 160, 0], "
    "[200, 80, -0.08], [230, 80, 0], [200, 110, 0], [230, 110, 0]]"
)
# Worked by hand: main 3 stands 0.012 mm off the middle of its neighbours.
BOWED = "[[0, 0], [100, 0.012], [200, 0.023], [300, 0.010], [400, 0.002]]"
STRAIGHT = "[[0, 0], [100, 0.002], [200, 0.001], [300, 0.002], [400, 0.000]]"


def value(results, name):
    (entry,) = results.world.answers[name].entries.values()
    return entry.value


def deck():
    return build(
        "sorrel",
        "teardown.deck.taken_by=points",
        f"teardown.deck.points={{unit: mm, readings: {HOLLOW}}}",
    )


def line(points):
    return build(
        "sorrel",
        "teardown.main_line.taken_by=points",
        f"teardown.main_line.points={{unit: mm, readings: {points}}}",
    )


def test_the_plane_through_the_points_governs_over_the_straightedge():
    results = deck()
    assert value(results, "deck_out_of_flat") == pytest.approx(0.08e-3, rel=1e-6)
    (trace,) = results.outcomes["deck_out_of_flat"].traces.values()
    assert [voice.name for voice in trace.voices if voice.governs] == [
        "plane through the points by physics"
    ]


def test_a_hollow_deck_is_cut_deeper_than_the_straightedge_asked():
    assert value(deck(), "deck_cut").target > value(build("sorrel"), "deck_cut").target


def test_a_hollow_within_a_hand_is_told():
    told = [
        line.text
        for each in deck().advice
        for line in each.cautions
        if "within 100 mm" in line.text
    ]
    assert told


def test_a_main_line_out_by_its_points_is_honed():
    results = line(BOWED)
    assert value(results, "main_neighbour_offset") == pytest.approx(0.012e-3, abs=1e-9)
    assert value(results, "main_line_state") == "out"
    assert value(results, "main_line_hone") == "required"


def test_a_straight_main_line_stays_as_it_is():
    assert value(line(STRAIGHT), "main_line_hone") == "not_needed"
