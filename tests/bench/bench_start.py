"""How long a command takes cold, as a multiple of starting a bare interpreter.

Run with ``python -m pytest tests/bench/bench_start.py -s``; not part of the fast suite. Each
figure is the least of several runs in fresh processes, in seconds of processor time of the
child (a shared machine makes the clock on the wall say anything), with bytecode kept.
"""

import resource
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
LARCH = "shared/jobs/larch.yaml"
RUNS = 5


def spent(arguments, cache):
    """Give the processor seconds of one child process."""
    kept = {"PATH": "", "PYTHONPATH": str(ROOT), "BOREWRIGHT_CACHE": str(cache)}
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(
        [sys.executable, *arguments], cwd=ROOT, env=kept, capture_output=True, check=False
    )
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    assert done.returncode == 0, done.stderr
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def least(arguments, cache):
    return min(spent(arguments, cache) for _ in range(RUNS))


@pytest.fixture(scope="module")
def cache(tmp_path_factory):
    """A cache that two plans have filled: rules are kept the second time."""
    folder = tmp_path_factory.mktemp("cache")
    for _ in range(2):
        spent(["-m", "planner", "plan", LARCH], folder)
    return folder


@pytest.fixture(scope="module")
def bare(cache):
    return least(["-c", "pass"], cache)


def told(what, seconds, bare):
    sys.stdout.write(f"\n{what}: {seconds:.3f} s, {seconds / bare:.1f} times a bare interpreter\n")


def test_help_is_cheap(cache, bare):
    took = least(["-m", "planner", "--help"], cache)
    told("--help", took, bare)
    assert took <= 6 * bare


def test_a_plan_with_a_compiled_rulebook_and_the_models_answers(cache, bare):
    took = least(["-m", "planner", "plan", LARCH], cache)
    told("plan, all kept", took, bare)
    assert took < 0.5


def test_a_plan_that_proves_its_rules(cache, bare):
    def without():
        for each in cache.glob("rulebook-*.json"):
            each.unlink()
        return spent(["-m", "planner", "plan", LARCH], cache)

    took = min(without() for _ in range(RUNS))
    told("plan, rules proved", took, bare)
    assert took < 0.8


def test_a_plan_with_a_compiled_rulebook_that_asks_the_model(cache, bare):
    def without():
        for each in cache.glob("answers-*.json"):
            each.unlink()
        return spent(["-m", "planner", "plan", LARCH], cache)

    spent(["-m", "planner", "plan", LARCH], cache)
    spent(["-m", "planner", "plan", LARCH], cache)
    took = min(without() for _ in range(RUNS))
    told("plan, model asked", took, bare)
