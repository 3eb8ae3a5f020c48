"""How fast the cycle model answers, against a SciPy solution of the same cycle.

Run with ``python -m pytest tests/bench/bench_cycle.py -s``; not part of the fast suite. Times
on a shared machine mean little, so each is told as a ratio to one cycle solved by
``solve_ivp`` in the same run, and only ratios and the wide ceilings of the design are held.
"""

import sys
import time
from math import pi, radians

import numpy as np
import pytest

from planner.physics.cycle import model, ratio_limit
from planner.physics.cycle.burned import build, burned_table, elements
from planner.physics.cycle.compiled import can_compile, compiled_runs
from planner.physics.cycle.lines import line_up
from planner.physics.cycle.march import march
from planner.physics.cycle.ratio_map import ratio_map
from planner.physics.cycle.setting import setting
from tests.physics.cycle.cases import BAR, BEST, full_boost, latest, off_boost
from tests.physics.cycle.ode import Cylinder, mixed_gas, splined

POINT = full_boost(margins=False)
RATIO = np.array([8.5])
PHASING = np.array([radians(19)])


def best_of(work, times=5):
    """Shortest of several runs, after one to warm up."""
    work()
    took = []
    for _ in range(times):
        begin = time.perf_counter()
        work()
        took.append(time.perf_counter() - begin)
    return min(took)


@pytest.fixture(scope="module")
def ode():
    lined = line_up(setting([POINT]), RATIO)
    state = splined(burned_table(POINT.fuel, POINT.mixture))
    gas = mixed_gas(lined.charge)
    cylinder = Cylinder(POINT, lined.charge, gas, state, 8.5, float(PHASING[0]))
    first, last = POINT.inlet_closing - pi, pi - POINT.exhaust_opening
    took = best_of(lambda: cylinder.solve(first, last, 1e-6), 3)
    sys.stdout.write(f"\nODE, one cycle: {took * 1e3:.1f} ms\n")
    return took


def cycle():
    march(line_up(setting([POINT]), RATIO), PHASING)


def recommendation():
    ratio_limit.ratio_limits.cache_clear()
    model.ratios_at_limit.cache_clear()
    ratio_limit.ratio_limits(off_boost(), full_boost(), latest())


def whole_map():
    sides = np.linspace(7, 12, 200), np.linspace(0, 2 * BAR, 200)
    ratio_map(full_boost(), *sides, latest=latest(), best=BEST)


def told(name, took, ode):
    sys.stdout.write(f"{name}: {took * 1e3:.2f} ms, {took / ode:.3f} of an ODE cycle\n")


def test_one_cycle_is_faster_than_the_ode(ode):
    took = best_of(cycle)
    told("one cycle", took, ode)
    assert took < 0.5 * ode


def test_a_recommendation_takes_a_tenth_of_a_second(ode):
    took = best_of(recommendation)
    told("recommendation, both points and every boost on the way", took, ode)
    assert took < 0.1
    assert took < ode


def test_a_table_is_built_in_a_moment(ode):
    atoms = elements(full_boost().fuel, 1.23)
    took = best_of(lambda: build(atoms), 3)
    told("one table of burned gas", took, ode)
    assert took < 0.5


def test_a_map_of_40000_tiles_takes_seconds(ode):
    took = best_of(whole_map, 1)
    told("map of 200 by 200", took, ode)
    assert took < 5.0
    assert took / 40000 < 0.01 * ode


@pytest.mark.skipif(not can_compile(), reason="numba is not installed")
def test_with_numba_a_recommendation_takes_milliseconds(ode):
    with compiled_runs():
        took = best_of(recommendation)
    told("recommendation with numba", took, ode)
    assert took < 0.05
