"""What called an operation, and what was read on the engine: told for every one of them."""

import re

import pytest

from planner.planning.called_for import MOST_VALUES
from tests.planning.test_demo_jobs import JOBS, plan, shipped


def step(job_plan, name):
    return next(each for each in job_plan.operations if each.id == name)


@pytest.fixture(scope="module", params=JOBS)
def made(request):
    return plan(request.param)


@pytest.fixture(scope="module")
def larch():
    return plan("larch")


def test_every_operation_that_is_not_always_done_says_what_called_it(made):
    rules = shipped().operations
    unsaid = [
        each.id
        for each in made.operations
        if (rules[each.id].called_only or rules[each.id].when) and not each.because
    ]
    assert unsaid == []


def test_what_called_an_operation_is_told_in_words_without_names_of_rules(made):
    said = [text for each in made.operations for text in (*each.because, *each.found)]
    assert [text for text in said if "_" in text] == []


def test_a_deck_cut_tells_what_was_measured_on_this_deck(larch):
    found = step(larch, "deck_block").found
    assert "Deck out of flat, over the whole length: 0.06 mm" in found
    assert "Highest deck corner less the lowest: 0.04 mm" in found


def test_a_line_hone_tells_which_mains_ask_for_it(larch):
    found = step(larch, "line_hone").found
    assert "Largest reading of each main housing: main 3: 58.027 mm" in found
    assert "Fretting on the cap parting faces: main 2: light" in found


def test_many_different_readings_are_told_as_lowest_and_highest(larch):
    found = step(larch, "guides_replace").found
    assert "Exhaust guide clearance, worst reading: from 0.073 mm to 0.133 mm, 8 of them" in found
    assert all(text.count(";") < MOST_VALUES for text in found)


def test_one_bad_journal_sends_its_whole_set_to_the_grinder(larch):
    where = step(larch, "crank_grind").where
    assert where == (*(f"main {n}" for n in range(1, 6)), *(f"rod {n}" for n in range(1, 5)))


def test_every_figure_of_a_target_carries_its_mark(made):
    bare = [
        f"{each.id}: {target.measure}: {target.text}"
        for each in made.operations
        for target in each.targets
        if re.search(r"\d", target.text) and not target.source
    ]
    assert bare == []


def test_findings_tell_readings_and_limits_and_no_word_twice(larch):
    said = {(each.title, each.where): each.evidence for each in larch.findings}
    assert said["Exhaust seat pitted", "exhaust valve 5"] == "cylinder 3"
    assert said["Rod journal scored", "rod 3"] == ""
    journal = said["Whether each rod journal may run again as it is", "rod 1"]
    assert journal == "Smallest reading of each rod journal 47.983 mm, 0.001 mm under its limit"
    assert all("-0." not in each for each in said.values())
    twice = re.compile(r"\b([a-z]{4,}) \1\b")
    assert [each for each in said.values() if twice.search(each)] == []
