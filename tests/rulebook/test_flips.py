"""Flips: nothing changes before the figure told, and something does just beyond it."""

import pytest

from planner.rulebook import evaluate, load_rulebook
from planner.rulebook.flips import flips
from planner.rulebook.values import OneOf
from tests.rulebook.books import facts, write

RULES = """
decisions:
  rule:
    means: x
    gives: {unit: mm, range: "[0 mm .. 9 mm]"}
    table:
      columns: [use, boost]
      rows:
        - {use: street, boost: up to 1 bar, rule: 4 mm}
        - {use: street, boost: over 1 bar, rule: 5 mm}
        - {use: track, boost: any, rule: 6 mm}
    source: practice
  pin:
    means: x
    choose:
      from: pins
      needs: {thick enough: pins.wall >= rule}
      prefer: least pins.wall
      none: ask
    source: practice
"""


@pytest.fixture
def results(tmp_path):
    book, stock = write(tmp_path, RULES)
    rulebook = load_rulebook([book], [stock])
    return evaluate(rulebook, facts({"use": "street", "boost": 0.6e5}))


def test_the_nearest_change_is_found_and_the_other_way_is_free(results):
    found = {(each.input, each.upward): each for each in flips(results, "pin")}
    up, down = found["boost", True], found["boost", False]
    assert up.changes
    assert up.at == pytest.approx(1.0e5, rel=1e-3)
    assert up.at <= 1.0e5
    assert not down.changes
    assert down.at == 0.0


def test_a_choice_tells_which_words_change_nothing(results):
    (use,) = [each for each in flips(results, "pin") if each.input == "use"]
    assert use.at == OneOf(("street",))
    assert use.changes


def test_inputs_that_cannot_matter_are_left_out(results):
    assert {each.input for each in flips(results, "pin")} == {"use", "boost"}


GRIDS = """
decisions:
  worst:
    means: x
    gives: {unit: mm, kind: diameter, range: "[60 mm .. 120 mm]"}
    compute: largest(bore_worst)
    source: derived
  bore_worst:
    means: x
    per: cylinder
    gives: {unit: mm, kind: diameter, range: "[60 mm .. 120 mm]"}
    compute: largest(bores)
    source: derived
  shape:
    means: x
    per: cylinder
    gives: {unit: mm, range: "[0 mm .. 60 mm]"}
    compute: out_of_round(readings=bores)
    source: derived
  size:
    means: x
    choose:
      from: sizes
      needs: {cleans it: sizes.size >= worst}
      prefer: least sizes.size
      none: ask
    source: practice
  verdict:
    means: x
    per: cylinder
    gives: {one_of: [oval, round]}
    table:
      columns: [shape]
      rows:
        - {shape: over 0.02 mm, verdict: oval}
        - {shape: up to 0.02 mm, verdict: round}
    source: practice
"""
READINGS = {
    ("1",): ((0.08610, 0.08609), (0.08605, 0.08604)),
    ("2",): ((0.08620, 0.08616), (0.08612, 0.08608)),
}


@pytest.fixture
def measured(tmp_path):
    book, stock = write(tmp_path, GRIDS)
    return evaluate(load_rulebook([book], [stock]), facts({"bores": READINGS}))


def test_a_grid_moves_as_a_whole_up_to_the_size_that_no_longer_cleans_it(measured):
    found = {(each.item, each.upward): each for each in flips(measured, "size")}
    up = found["cylinder 2", True]
    assert up.together
    assert up.changes
    assert 0.00004 < up.at <= 0.00005  # 86.20 mm is the worst, 86.25 mm the size chosen
    assert not found["cylinder 1", False].changes


def test_a_shape_does_not_change_when_all_readings_move_together(measured):
    assert not any(each.changes for each in flips(measured, "verdict"))
