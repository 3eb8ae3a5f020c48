"""The demo jobs worked out with some goals changed, for properties of the whole rulebook."""

from functools import cache
from pathlib import Path

from planner.planning.job_reader import read_job
from planner.rulebook import load_rulebook
from planner.rulebook.evaluate import evaluate
from planner.rulebook.judging import judge
from planner.rulebook.values import Status

ROOT = Path(__file__).parents[2]


@cache
def shipped():
    """Load the rulebook that ships."""
    return load_rulebook([ROOT / "rules"], [ROOT / "catalogs"])


@cache
def build(job, *settings):
    """Work a demo job out, with settings as `borewright plan --set` takes them."""
    reading = read_job(ROOT / "shared/jobs" / f"{job}.yaml", shipped(), settings)
    return evaluate(shipped(), reading.facts)


def parts(results, name):
    """Give the numbers of every item of an answer; nothing for an item without a value."""
    entries = results.outcomes[name].answers[name].entries
    found = {}
    for key, entry in entries.items():
        value = entry.value
        found[key] = None if value is None else getattr(value, "parts", lambda: (value,))()  # noqa: B023 - called at once
    return found


def shown_cautions(results):
    """Give the cautions that hold or may hold, by their advice and place in it."""
    found = {}
    for advice in results.rulebook.advice.values():
        if judge(results.world, advice.when).holds is False:
            continue
        for at, caution in enumerate(advice.cautions):
            if judge(results.world, caution.when).holds is not False:
                found[advice.name, at] = (advice, caution)
    return found


def rests_on_a_refusal(results, advice, caution):
    """Tell whether a caution's condition reads something that is refused on this job."""
    return any(
        entry.status == Status.REFUSED
        for when in (advice.when, caution.when)
        for group in when
        for condition in group
        for entry in results.world.entries(condition.ref).values()
    )
