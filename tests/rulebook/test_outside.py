"""A voice outside its range is shown with the reason; it never governs and is no conflict."""

import pytest

from planner.rulebook.explain import why
from planner.rulebook.values import Interval, Status
from tests.rulebook import books

MM = 'unit: mm, range: "[0 mm .. 9 mm]"'


def rules(governs="first", outside=""):
    marked = (
        "{model physics: {when: {boost: over 1.2 bar}, "
        'because: "{boost} is over 1.2 bar; 1.2 bar or less brings it back"}}'
    )
    return f"""
decisions:
  worked: {{means: x, gives: {{{MM}}}, value: 3 mm, source: derived}}
  usual: {{means: x, gives: {{{MM}}}, value: 5 mm, source: practice}}
  chosen:
    means: x
    gives: {{{MM}}}
    weigh:
      says: {{model physics: worked, practice: usual}}
      governs: {governs}
      question_over: 10 %
      outside: {outside or marked}
    source: practice
"""


def chosen(folder, boost, **how):
    results = books.run(folder, rules(**how), books.facts({"boost": boost}))
    return results.outcomes["chosen"], results


def entry(outcome):
    return outcome.answers["chosen"].entries[()]


@pytest.mark.parametrize("governs", ["first", "smaller", "model physics else practice"])
def test_inside_its_range_the_voice_governs_and_outside_the_other_does(tmp_path, governs):
    assert entry(chosen(tmp_path, 1.2e5, governs=governs)[0]).value == pytest.approx(3e-3)
    assert entry(chosen(tmp_path, 1.3e5, governs=governs)[0]).value == pytest.approx(5e-3)


def test_a_voice_outside_its_range_leaves_the_answer_firm_and_raises_no_conflict(tmp_path):
    inside, _ = chosen(tmp_path, 1.0e5)
    outside, _ = chosen(tmp_path, 2.0e5)
    assert len(inside.conflicts) == 1
    assert outside.conflicts == ()
    assert entry(outside).status is Status.FIRM


def test_the_reason_is_filled_in_and_told_by_why(tmp_path):
    outcome, results = chosen(tmp_path, 2.0e5)
    voice = outcome.traces[()].voices[0]
    assert voice.outside_range
    assert voice.outside_because == "2.0 bar gauge is over 1.2 bar; 1.2 bar or less brings it back"
    told = "\n".join(why(results, "chosen"))
    assert (
        "- model physics: 3.000 mm (outside its range: 2.0 bar gauge is over 1.2 bar; 1.2" in told
    )


def test_while_it_is_not_known_which_voice_counts_the_answer_waits(tmp_path):
    found = entry(chosen(tmp_path, Interval(1.0e5, 1.5e5))[0])
    assert found.status is Status.WAITING
    assert found.waiting_for == ("boost",)


def test_where_both_ways_lead_to_one_answer_nothing_waits(tmp_path):
    found = entry(chosen(tmp_path, Interval(1.0e5, 1.5e5), governs="larger")[0])
    assert (found.value, found.status) == (pytest.approx(5e-3), Status.FIRM)


@pytest.mark.parametrize(
    ("outside", "told"),
    [
        ("{model: {when: {boost: over 1 bar}, because: x}}", "outside names 'model'"),
        ("{practice: {when: {boost: over 1 bar}, because: x}}", "the last voice always counts"),
        ("{model physics: {when: {boost: over 1 bar}}}", "lacks a because"),
        ("{model physics: {because: x}}", "lacks a when"),
        ("{model physics: {when: {boost: over 1 bar}, because: '{bost} is high'}}", "bost"),
        ("{model physics: {when: {bost: over 1 bar}, because: x}}", "bost"),
        ("{model physics: {whem: {boost: over 1 bar}, because: x}}", "whem"),
        ("{model physics: often}", "outside without a condition"),
        ("often", "outside is not a block"),
    ],
)
def test_slips_in_outside_are_told_at_their_place(tmp_path, outside, told):
    problems = books.problems(tmp_path, rules(outside=outside))
    assert any(told in each for each in problems), problems
