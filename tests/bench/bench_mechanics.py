"""What each registered formula costs, against the least that such work can cost here.

Run with ``python -m pytest tests/bench/bench_mechanics.py -s``; not part of the fast suite. A
time on a shared machine means little, so each formula is told as a ratio to a floor measured
in the same run: for a formula on plain floats, a bare function with the same arguments by
keyword that multiplies them; for one on numpy or through a cycle, the heart of its work alone
(a sort, a fit, the draws, a search, the map of the journal). The cycle model has its own bench.
"""

import contextlib
import io
import math
import sys
import time
from itertools import chain

import numpy as np
import pytest

from planner.physics import load_all
from planner.physics.bearing_orbit import mobility
from planner.physics.registry import REGISTRY
from tests.physics.other_units import recorded_calls

load_all()
NAMES = sorted(
    name
    for name, each in REGISTRY.items()
    if each.function.__module__.startswith("planner.physics.")
    and ".cycle." not in each.function.__module__
)
# A plan calls a light formula at most a few hundred times: at this many floors it stays unseen.
LIGHT = 150.0
HEAVY = 100.0
TRIALS = 200_000
SAMPLES, CYCLES, MAPS = 720, 3, 8


def best(work, least=0.004):
    """Give the shortest time of one call, from runs long enough to measure."""
    work()
    count = 1
    while True:
        begin = time.perf_counter()
        for _ in range(count):
            work()
        took = time.perf_counter() - begin
        if took > least:
            break
        count *= 4
    runs = []
    for _ in range(3):
        begin = time.perf_counter()
        for _ in range(count):
            work()
        runs.append(time.perf_counter() - begin)
    return min(runs) / count


def flat(values):
    """Give every float among the arguments, grids laid out."""
    for value in values.values():
        yield from chain.from_iterable(value) if isinstance(value, tuple) else (value,)


def plain_floor(values):
    """Build the least a formula of these arguments can be: a product, called by keyword."""
    names = [name for name, value in values.items() if not isinstance(value, tuple)]
    grids = [name for name, value in values.items() if isinstance(value, tuple)]
    terms = [*names, *(f"sum(map(sum, {name}))" for name in grids)]
    space = {}
    head = ", ".join(values)
    exec(f"def floor(*, {head}):\n    return {' * '.join(terms)}\n", space)
    return lambda: space["floor"](**values)


def draws(values):
    """Draw and sort as many clearances as the trials ask for."""
    rng = np.random.default_rng(int(values["seed"]))
    return lambda: np.sort(sum(rng.uniform(-1.0, 1.0, TRIALS) for _ in range(4)))


def sorted_heights(values):
    """Sort a profile, as a material ratio curve must."""
    heights = list(flat(values))
    return lambda: np.sort(np.array(heights))


def fitted(values):
    """Fit a plane or a line by least squares."""
    points = np.array([row for grid in values.values() if isinstance(grid, tuple) for row in grid])
    left = np.column_stack([points[:, :-1], np.ones(len(points))])
    return lambda: np.linalg.lstsq(left, points[:, -1], rcond=None)


def mapped(values):
    """Read the journal's map as often as an orbit steps."""
    slimness = values["width"] / values["journal"]
    return lambda: [mobility(0.3 + 0.4j, 1j, slimness) for _ in range(SAMPLES * CYCLES * MAPS)]


def searched(values):
    """Evaluate a curve as often as a search along it does."""
    return lambda: [math.sin(at / 60.0) * math.sqrt(1.0 - (at / 70.0) ** 2) for at in range(60)]


FLOORS = {
    "bearing_film": searched,
    "film_eccentricity": searched,
    "largest_piston_speed": searched,
    "big_end_film": mapped,
    "big_end_orbit": mapped,
    "clearance_monte_carlo": draws,
    "flatness": fitted,
    "flatness_least_squares": fitted,
    "flatness_within": fitted,
    "main_line": fitted,
    "circumscribed_circle": fitted,
    "least_squares_circle": fitted,
    "profile_roughness": sorted_heights,
    "rk_parameters": sorted_heights,
}


@pytest.mark.parametrize("name", NAMES)
def test_a_formula_costs_a_few_floors(name):
    signature = REGISTRY[name]
    with contextlib.redirect_stdout(io.StringIO()):
        values = recorded_calls(signature)[0]
    took = best(lambda: signature.function(**values))
    floor = best(FLOORS.get(name, plain_floor)(values))
    kind = "its own" if name in FLOORS else "the plain"
    sys.stdout.write(f"\n{name:32} {took * 1e6:10.2f} us {took / floor:8.1f} times {kind} floor")
    assert took / floor < (HEAVY if name in FLOORS else LIGHT)
