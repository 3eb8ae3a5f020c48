"""What is learned later never lands outside what was shown before it was known."""

import random
from dataclasses import replace
from pathlib import Path

import pytest

from planner.planning.job_reader import read_job
from planner.rulebook import evaluate, load_rulebook
from planner.rulebook.intervals import high, low
from planner.rulebook.results import Fact
from planner.rulebook.values import Band, Entry, Interval, Names, OneOf, Status

ROOT = Path(__file__).parents[2]
SLACK = 1e-9


@pytest.fixture(scope="module")
def rulebook():
    return load_rulebook([ROOT / "rules"], [ROOT / "catalogs"])


@pytest.fixture(scope="module", params=["larch", "sorrel"])
def facts(request, rulebook):
    return read_job(ROOT / "shared" / "jobs" / f"{request.param}.yaml", rulebook).facts


def loosened(facts, rulebook, draw):
    """Make some settled inputs loose round their value, inside their declared range."""
    inputs = dict(facts.inputs)
    chosen = draw.sample(sorted(inputs), k=draw.randint(1, 4))
    for name in chosen:
        fact = inputs[name]
        declared = rulebook.inputs[name].type
        entries = {key: loose(entry, declared, name, draw) for key, entry in fact.entries.items()}
        inputs[name] = Fact(name, entries, fact.places)
    return replace(facts, inputs=inputs), chosen


def loose(entry, declared, name, draw):
    value = entry.value
    if isinstance(value, str) and len(declared.words) > 1:
        others = [word for word in declared.words if word != value]
        words = {value, *draw.sample(others, k=draw.randint(1, len(others)))}
        ordered = tuple(word for word in declared.words if word in words)
        return Entry(OneOf(ordered), Status.PROVISIONAL, (name,), loose=(name,))
    if isinstance(value, tuple):
        cells = [cell for row in value for cell in row]
        least, most = min(cells), max(cells)
    elif isinstance(value, float):
        least = most = value
    else:
        return entry
    width = (declared.high - declared.low) * draw.choice([0.001, 0.02])
    stretch = Interval(
        max(declared.low, least - width * draw.random()),
        min(declared.high, most + width * draw.random()),
    )
    return Entry(stretch, Status.PROVISIONAL, (name,), loose=(name,))


def inside(settled, shown):
    """Tell whether what is known later, settled or narrower, lies in what was shown."""
    if isinstance(settled, Band):
        return isinstance(shown, Band) and all(
            inside(a, b) for a, b in zip(settled.parts(), shown.parts(), strict=True)
        )
    if isinstance(settled, (float, Interval)):
        slack = SLACK * max(abs(low(settled)), abs(high(settled)), 1e-9)
        return low(shown) - slack <= low(settled) and high(settled) <= high(shown) + slack
    if isinstance(settled, (str, OneOf)):
        return words(settled) <= words(shown)
    if isinstance(settled, Names):
        could = {*shown.called, *shown.perhaps}
        return (
            set(shown.called) <= set(settled.called)
            and {
                *settled.called,
                *settled.perhaps,
            }
            <= could
        )
    return settled == shown


def words(value):
    return set(value.words if isinstance(value, OneOf) else (value,))


@pytest.mark.parametrize("seed", range(12))
def test_a_firm_answer_lies_inside_what_was_shown_before(seed, facts, rulebook):
    draw = random.Random(seed)
    before, chosen = loosened(facts, rulebook, draw)
    shown, learned = evaluate(rulebook, before), evaluate(rulebook, facts)
    compared = 0
    for name, outcome in learned.outcomes.items():
        for result, answer in outcome.answers.items():
            for key, entry in answer.entries.items():
                earlier = shown.outcomes[name].answers[result].entries[key]
                if earlier.value is None or entry.value is None:
                    continue
                compared += 1
                assert inside(entry.value, earlier.value), (result, key, chosen, earlier, entry)
    assert compared > 300


@pytest.mark.parametrize("seed", range(12))
def test_what_surely_is_in_the_route_stays_in_it(seed, facts, rulebook):
    draw = random.Random(100 + seed)
    before, _ = loosened(facts, rulebook, draw)
    shown, learned = evaluate(rulebook, before), evaluate(rulebook, facts)
    sure = {each.operation.name for each in shown.called if not each.perhaps}
    could = {each.operation.name for each in shown.called}
    final = {each.operation.name for each in learned.called}
    assert sure <= final <= could
