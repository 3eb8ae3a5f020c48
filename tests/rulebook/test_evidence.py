"""A cause is likely only when two findings of different kinds agree; what is open stays open."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.rulebook.evidence import confidence
from planner.rulebook.explain import why
from planner.rulebook.values import OneOf, Status
from tests.rulebook import books

CAUSE = """
decisions:
  worn_valve:
    means: Whether each guide is worn
    per: valve
    gives: {one_of: ["yes", "no"]}
    table:
      columns: [guide]
      rows:
        - {guide: over 0.08 mm, worn_valve: "yes"}
        - {guide: up to 0.08 mm, worn_valve: "no"}
    source: recalled
  hot:
    means: A cylinder that ran hot
    per: cylinder
    evidence:
      for:
        a guide of it is worn: {worn_valve: some(yes)}
        it is scored: {score: over 0 mm}
      against:
        the car is driven on the street: {use: street}
      then: "Prove the injector of {where}."
    source: practice
"""
GUIDES = {("1",): 0.05e-3, ("2",): 0.05e-3, ("3",): 0.09e-3, ("4",): 0.05e-3}
SCORES = {("1",): 0.0, ("2",): 0.04e-3}


def hot(folder, **inputs):
    results = books.run(folder, CAUSE, books.facts(inputs))
    return results.outcomes["hot"].answers["hot"].entries


def test_two_findings_of_one_cylinder_make_its_cause_likely(tmp_path):
    entries = hot(tmp_path, guide=GUIDES, score=SCORES, use="track")
    assert entries["2",].value == "likely"
    assert entries["1",].value == "no"


def test_a_finding_against_brings_likely_back_to_possible(tmp_path):
    assert hot(tmp_path, guide=GUIDES, score=SCORES, use="street")["2",].value == "possible"


def test_one_finding_is_possible_and_never_likely(tmp_path):
    entries = hot(tmp_path, guide=GUIDES, score={("1",): 0.0, ("2",): 0.0}, use="track")
    assert entries["2",].value == "possible"
    assert entries["2",].status is Status.FIRM


def test_what_nobody_looked_at_leaves_both_words_and_is_waited_for(tmp_path):
    entry = hot(tmp_path, guide=GUIDES, use="track")["2",]
    assert entry.value == OneOf(("likely", "possible"))
    assert entry.status is Status.PROVISIONAL
    assert entry.waiting_for == ("score",)


def test_a_cause_with_one_finding_for_it_is_refused_when_rules_load(tmp_path):
    rules = CAUSE.replace("        it is scored: {score: over 0 mm}\n", "")
    [problem] = books.problems(tmp_path, rules)
    assert "hot has 1 finding that speaks for it" in problem
    assert "it can never be likely" in problem


def test_a_cause_that_leads_to_nothing_is_refused(tmp_path):
    rules = CAUSE.replace('      then: "Prove the injector of {where}."\n', "")
    [problem] = books.problems(tmp_path, rules)
    assert "hot does not say what follows" in problem


def test_a_name_of_other_items_needs_some_or_every(tmp_path):
    [problem] = books.problems(tmp_path, CAUSE.replace("some(yes)", '"yes"'))
    assert "write some(yes) or every(yes)" in problem


def test_why_names_each_finding_and_its_side(tmp_path):
    given_facts = books.facts({"guide": GUIDES, "score": SCORES, "use": "street"})
    lines = why(books.run(tmp_path, CAUSE, given_facts), "hot", deep=False)
    told = "\n".join(lines)
    assert "for: it is scored (" in told
    assert "against: the car is driven on the street (" in told
    assert "judged by the findings for and against" in told


COUNTS = st.integers(0, 4)


@given(COUNTS, COUNTS, COUNTS, COUNTS, st.data())
def test_every_count_that_may_come_later_gives_a_word_shown_before(
    least, more, against, more_against, data
):
    shown = confidence(least, least + more, against, against + more_against)
    speaking = data.draw(st.integers(least, least + more))
    opposing = data.draw(st.integers(against, against + more_against))
    later = confidence(speaking, speaking, opposing, opposing)
    assert later in (shown.words if isinstance(shown, OneOf) else (shown,))


@pytest.mark.parametrize(
    ("speaking", "against", "word"),
    [
        (0, 0, "no"),
        (0, 2, "no"),
        (1, 0, "possible"),
        (1, 3, "possible"),
        (2, 0, "likely"),
        (2, 1, "possible"),
        (3, 1, "likely"),
    ],
)
def test_the_word_follows_from_the_two_counts(speaking, against, word):
    assert confidence(speaking, speaking, against, against) == word


COUNTED = """
decisions:
  street_count:
    means: One when it is a street car
    gives: {range: "[0 .. 9]"}
    compute: count(use, 'street')
    source: derived
"""


def test_a_choice_with_one_value_counts_as_one_or_none(tmp_path):
    results = books.run(tmp_path, COUNTED, books.facts({"use": "street"}))
    assert results.outcomes["street_count"].answers["street_count"].value() == 1.0
    results = books.run(tmp_path, COUNTED, books.facts({"use": "track"}))
    assert results.outcomes["street_count"].answers["street_count"].value() == 0.0
