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
