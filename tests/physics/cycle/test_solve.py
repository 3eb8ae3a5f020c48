from math import inf, radians

import numpy as np
import pytest

from planner.physics.cycle.lines import line_up
from planner.physics.cycle.setting import setting
from planner.physics.cycle.solve import (
    crossing,
    followed_phasing,
    limited_phasing,
    limited_ratio,
    log_knock,
    parabola_root,
)
from tests.physics.cycle.cases import BAR, BEST, RPM, full_boost

POINTS = [full_boost(boost=b * BAR, margins=False) for b in (0.0, 0.4, 0.9, 1.4)]


def test_at_the_phasing_found_the_knock_integral_is_one():
    cases, ratio = setting(POINTS), np.full(4, 10.0)
    found = limited_phasing(cases, ratio)
    excess = log_knock(cases, ratio, found)
    assert excess[found > BEST] == pytest.approx(0.0, abs=2e-3)
    assert (excess[found == BEST] <= 0.0).all()


def test_the_false_position_and_the_grid_find_one_phasing():
    cases, ratio = setting(POINTS), np.full(4, 10.0)
    grid = limited_phasing(cases, ratio)
    for passes, agreement in ((6, radians(0.1)), (8, radians(0.03))):
        followed = followed_phasing(line_up(cases, ratio), np.full(4, BEST), passes)
        assert followed == pytest.approx(grid, abs=agreement)


def test_where_even_the_latest_burn_knocks_there_is_no_phasing():
    cases = setting([full_boost(boost=2.5 * BAR, octane=80.0)])
    assert limited_phasing(cases, np.array([14.0]))[0] == inf
    assert followed_phasing(line_up(cases, np.array([14.0])), np.array([BEST]))[0] == inf


def test_at_the_ratio_found_the_knock_integral_is_one():
    cases, phasing = setting(POINTS), np.radians([10.0, 14.0, 19.0, 24.0])
    found = limited_ratio(cases, phasing)
    assert log_knock(cases, found, phasing) == pytest.approx(0.0, abs=2e-3)


def test_no_ratio_is_never_clamped_in_silence():
    hopeless = full_boost(boost=2.8 * BAR, octane=80.0)
    easy = full_boost(boost=0.0, octane=120.0, speed=8000 * RPM)
    found = limited_ratio(setting([hopeless, easy]), np.radians([20.0, 20.0]))
    assert list(found) == [-inf, inf]


def test_a_crossing_of_a_known_curve_is_found():
    grid = np.linspace(0.0, 3.0, 7)
    found = crossing(lambda x: np.exp(x) - 4.0, 2, grid, (0.2, 0.02))
    assert found == pytest.approx(np.log(4.0), abs=1e-5)
    assert crossing(lambda x: x + 1.0, 1, grid, (0.2,))[0] == -inf
    assert crossing(lambda x: x - 9.0, 1, grid, (0.2,))[0] == inf
    falling = crossing(lambda x: 1.3 - x, 1, grid[::-1], (0.2,))
    assert falling == pytest.approx(1.3)


@pytest.mark.parametrize("root", [-0.2, 0.0, 0.15])
@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_a_parabola_gives_its_own_root(root, sign):
    at = np.array([[-0.3, 0.0, 0.3]])
    values = sign * (at - root) * (3.0 + at)
    assert parabola_root(values, 0.3)[0] == pytest.approx(root)
