"""What could change a decision, told so that each figure printed is still kept."""

from planner.rulebook import evaluate
from planner.rulebook.flips import Flip, flips
from planner.rulebook.values import OneOf
from planner.sheets.flips_text import flips_text
from tests.planning import shop


def results():
    return evaluate(shop.rulebook(), shop.read().facts)


def text(name):
    found = results()
    return " ".join(flips_text(found, name, flips(found, name)).split())


def test_a_grid_is_told_as_readings_that_move_together():
    told = text("bore_oversize")
    assert "bores cylinder 2: nothing changes while all its readings move up by up to 0.01" in told
    assert "Each is moved alone" in told


def test_words_that_change_nothing_are_named():
    assert "use: nothing changes for street; it may for another word" in text("compression_ratio")


def test_a_figure_is_rounded_towards_the_side_that_is_safe():
    flip = Flip("boost", "", upward=True, at=1.2899e5, changes=True)
    assert "nothing changes up to 1.2 bar gauge" in flips_text(results(), "x", [flip])
    flip = Flip("boost", "", upward=False, at=1.2101e5, changes=True)
    assert "nothing changes down to 1.3 bar gauge" in flips_text(results(), "x", [flip])


def test_inputs_that_make_no_difference_come_last_in_one_line():
    idle = [Flip("use", "", upward=True, at=OneOf(("track", "street")), changes=False)]
    assert flips_text(results(), "x", idle).endswith("Make no difference, wherever they lie: use")


def test_a_decision_without_inputs_says_so():
    assert flips_text(results(), "honing_stock", []).endswith("It rests on no input of this job.")
