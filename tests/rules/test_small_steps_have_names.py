"""A choice that changes between 1.0 and 1.2 bar says which row or need changed it."""

import itertools

import pytest

from planner.rulebook.syntax import ChooseBody, TableBody, WeighBody
from tests.rules.demo_builds import build

STEPS = [(1.0, 1.1), (1.1, 1.2), (1.0, 1.2)]
# Decisions whose words follow boost between 1.0 and 1.2 bar on this engine, and why.
KNOWN = {
    "head_gasket": "a composite gasket carries 1.0 bar",
}


def at(boost):
    return build("larch", f"goals.boost={boost} bar gauge")


def choices(results):
    for outcome in results.outcomes.values():
        for answer in outcome.answers.values():
            for key, entry in answer.entries.items():
                if isinstance(entry.value, str):
                    yield answer.name, key, entry.value, outcome


def changed(lower, higher):
    before = {(name, key): (word, outcome) for name, key, word, outcome in choices(at(lower))}
    for name, key, word, outcome in choices(at(higher)):
        was = before.get((name, key))
        if was is not None and was[0] != word:
            yield name, key, was, (word, outcome)


def reason(key, was, now):
    """Name what turned the choice: another row, the need that failed, another voice."""
    (old_word, old), (_, new) = was, now
    body = new.decision.body
    if isinstance(body, TableBody):
        rows = {row for row, _ in new.traces[key].rows}
        return rows - {row for row, _ in old.traces[key].rows}
    if isinstance(body, ChooseBody):
        return {each.failed for each in new.traces[key].rejected if each.choice == old_word}
    if isinstance(body, WeighBody):
        return {voice.name for voice in new.traces[key].voices if voice.governs}
    return set()


@pytest.mark.parametrize(("lower", "higher"), STEPS)
def test_no_choice_changes_without_a_named_row(lower, higher):
    for name, key, was, now in changed(lower, higher):
        assert reason(key, was, now), f"{name} {key}: {was[0]} to {now[0]} without a reason"


def test_the_choices_that_follow_boost_here_are_known():
    found = {name for lower, higher in STEPS for name, *_ in changed(lower, higher)}
    assert found <= KNOWN.keys(), f"also {sorted(found - KNOWN.keys())}: say why, or mend the rule"


def test_the_settings_really_change_the_boost():
    pressures = [
        at(boost).outcomes["manifold_pressure"].answers["manifold_pressure"].entries[()].value
        for boost in (1.0, 1.1, 1.2)
    ]
    assert all(later > sooner for sooner, later in itertools.pairwise(pressures))
