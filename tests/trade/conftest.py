"""The whole rulebook, and answers of a job to it, for tests of trade facts."""

from collections.abc import Callable
from pathlib import Path

import pytest

from planner.planning.job_reader import read_job
from planner.rulebook import evaluate, load_rulebook
from planner.rulebook.results import Results
from planner.rulebook.syntax import Rulebook
from planner.rulebook.values import Band, Value

ROOT = Path(__file__).parents[2]
MM = 1e-3

Answers = Callable[..., "Job"]


class Job:
    """A demonstration job as the rules answer it."""

    def __init__(self, results: Results) -> None:
        self.results = results

    def value(self, name: str, *items: str) -> Value:
        """Return what a decision came to."""
        decision, result = self.results.rulebook.results[name]
        entry = self.results.outcomes[decision].answers[result].entries[items]
        assert entry.value is not None, f"{name}: {entry.refused or entry.waiting_for}"
        return entry.value

    def number(self, name: str, *items: str) -> float:
        """Return a single number, SI."""
        value = self.value(name, *items)
        assert isinstance(value, float), value
        return value

    def band(self, name: str, *items: str) -> tuple[float, ...]:
        """Return a band in millimetres: low, aim, high."""
        value = self.value(name, *items)
        assert isinstance(value, Band), value
        return tuple(part / MM for part in value.parts())

    def rejected(self, name: str) -> dict[str, tuple[str, str]]:
        """Return each rejected choice with the need it failed and the figures."""
        traces = self.results.outcomes[name].traces
        return {each.choice: (each.failed, each.why) for each in traces[()].rejected}

    def conflicts(self) -> dict[str, tuple[str, ...]]:
        """Return the named conflicts with their ways out."""
        return {
            each.name: each.ways_out
            for each in self.results.advice
            if each.conflict_between and not each.may_apply
        }

    def cautions(self) -> set[tuple[str, str]]:
        """Return every caution as its advice and severity, counted by place in the advice."""
        return {
            (f"{each.name} {at}", caution.severity)
            for each in self.results.advice
            for at, caution in enumerate(each.cautions)
        }


@pytest.fixture(scope="session")
def rulebook() -> Rulebook:
    """Return our own rulebook, proved."""
    return load_rulebook([ROOT / "rules"], [ROOT / "catalogs"])


@pytest.fixture(scope="session")
def answers(rulebook: Rulebook) -> Answers:
    """Return a function that works out a demonstration job with what-if settings."""

    def work_out(job: str, *settings: str) -> Job:
        path = ROOT / "shared" / "jobs" / f"{job}.yaml"
        return Job(evaluate(rulebook, read_job(path, rulebook, settings).facts))

    return work_out
