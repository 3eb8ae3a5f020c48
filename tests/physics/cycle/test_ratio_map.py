from math import inf, radians

import numpy as np
import pytest

from planner.physics.cycle.model import phasings_at_limit
from planner.physics.cycle.ratio_map import ratio_map
from tests.physics.cycle.cases import BAR, BEST, cooled, full_boost, latest


def test_a_small_map_holds_the_phasing_of_each_tile():
    point = full_boost(margins=False)
    boosts = (0.5 * BAR, 0.9 * BAR)
    charge = [cooled(each) for each in boosts]
    found = ratio_map(point, (8.0, 9.0, 10.0), boosts, latest=latest(), best=BEST, charge=charge)
    assert found.phasing.shape == (3, 2)
    at = full_boost(boost=0.9 * BAR, charge_temperature=charge[1], margins=False)
    (alone,) = phasings_at_limit((at,), 9.0, BEST)
    assert found.phasing[1, 1] == pytest.approx(alone, abs=1e-6)
    assert found.margin[1, 1] == pytest.approx(found.latest[1] - found.phasing[1, 1])


def test_a_large_map_agrees_with_single_tiles_and_tells_its_progress():
    point, told = full_boost(), []
    ratios, boosts = np.linspace(7, 14, 60), np.linspace(0, 2.4 * BAR, 80)
    found = ratio_map(
        point,
        ratios,
        boosts,
        latest=latest(),
        best=BEST,
        progress=lambda done, whole: told.append((done, whole)),
    )
    assert told[-1] == (4800, 4800)
    assert len(told) > 1
    rng = np.random.default_rng(3)
    for row, column in zip(rng.integers(0, 60, 40), rng.integers(0, 80, 40), strict=True):
        at = full_boost(boost=float(boosts[column]), charge_temperature=point.charge_temperature)
        (alone,) = phasings_at_limit((at,), float(ratios[row]), BEST)
        assert found.phasing[row, column] == pytest.approx(alone, abs=radians(0.05))
    assert (found.phasing == inf).any()
    assert (found.margin[found.phasing == inf] == -inf).all()


def test_more_ratio_or_boost_never_lets_the_burn_come_earlier():
    found = ratio_map(
        full_boost(),
        np.linspace(7, 12, 30),
        np.linspace(0, 2 * BAR, 30),
        latest=latest(),
        best=BEST,
    ).phasing
    late = np.minimum(found, 1.0)
    assert (np.diff(late, axis=0) >= -radians(0.02)).all()
    assert (np.diff(late, axis=1) >= -radians(0.02)).all()
