"""The two demonstration engines: the stories a builder would tell of them, kept apart."""

from functools import cache
from pathlib import Path

import pytest

from planner.planning.job_reader import read_job
from planner.rulebook import evaluate, load_rulebook
from planner.rulebook.syntax import EvidenceBody

ROOT = Path(__file__).parents[2]


@cache
def rulebook():
    return load_rulebook([ROOT / "rules"], [ROOT / "catalogs"])


@cache
def causes(job):
    """Return the confidence of every cause, by its name and item."""
    facts = read_job(ROOT / "shared" / "jobs" / f"{job}.yaml", rulebook()).facts
    results = evaluate(rulebook(), facts)
    return {
        (name, *key): entry.value
        for name, outcome in results.outcomes.items()
        if isinstance(outcome.decision.body, EvidenceBody)
        for key, entry in next(iter(outcome.answers.values())).entries.items()
    }


def likely(job):
    return {at for at, word in causes(job).items() if word == "likely"}


def possible(job):
    return {at for at, word in causes(job).items() if word == "possible"}


def test_larch_is_worn_by_miles_and_cylinder_3_has_a_story_of_its_own():
    assert likely("larch") == {("cause_mileage",), ("cause_hot_cylinder", "3")}


def test_larch_may_flex_at_the_caps_and_no_more_than_may():
    assert possible("larch") == {("cause_flexing",)}


def test_sorrel_starved_in_corners_and_cylinder_5_may_have_run_hot():
    assert likely("sorrel") == {("cause_oil_starvation",)}
    assert possible("sorrel") == {("cause_hot_cylinder", "5")}


@pytest.mark.parametrize(("job", "cylinder"), [("larch", "3"), ("sorrel", "5")])
def test_no_other_cylinder_is_drawn_into_the_story_of_one(job, cylinder):
    told = {at for at, word in causes(job).items() if word != "no"}
    assert [at[1] for at in told if at[0] == "cause_hot_cylinder"] == [cylinder]
