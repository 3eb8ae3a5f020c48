"""Find where the knock integral reaches one: over phasing, ratio, boost or anything else.

The logarithm of the knock integral is smooth in all of them and never turns back, so one
batch over a coarse grid brackets the crossing and one over three near values settles it with
a parabola: two marches whatever the number of cases.
"""

from collections.abc import Callable

import numpy as np

from planner.physics.cycle.gas import Array
from planner.physics.cycle.limits import LATEST_OF_ALL
from planner.physics.cycle.lines import BEST, STEP, Lined, line_up
from planner.physics.cycle.march import march
from planner.physics.cycle.setting import Setting

RATIOS: Array = np.linspace(5.5, 17.5, 9)
NEAR_RATIO = (0.3,)
NEAR_PHASING = (float(np.deg2rad(1.0)),)
PASSES = 8

Excess = Callable[[Array], Array]  # [case, candidate] to the ln of the knock integral there


def log_knock(setting: Setting, ratio: Array, phasing: Array, step: float = STEP) -> Array:
    """Logarithm of the knock integral of each case; zero is the limit."""
    outcome = march(line_up(setting, ratio, step), phasing, whole=False)
    return np.asarray(np.log(outcome.knock))


def spread(setting: Setting, candidates: Array) -> Setting:
    """Repeat each case for each of its candidates, in the order of a flattened grid."""
    return setting.part(np.repeat(np.arange(setting.size), candidates.shape[1]))


def limited_ratio(setting: Setting, phasing: Array, step: float = STEP) -> Array:
    """Find the ratio at which each case just reaches the knock limit at its phasing.

    Parameters
    ----------
    setting
        The operating points.
    phasing
        Latest phasing allowed for each. [rad]
    step
        Crank angle step. [rad]

    Returns
    -------
    Array
        The ratio; -inf below 5.5, inf above 17.5. [-]
    """

    def excess(ratios: Array) -> Array:
        late = np.repeat(phasing, ratios.shape[1])
        return log_knock(spread(setting, ratios), ratios.ravel(), late, step)

    return crossing(excess, setting.size, RATIOS, NEAR_RATIO)


def limited_phasing(
    setting: Setting, ratio: Array, best: float = BEST, step: float = STEP
) -> Array:
    """Find the knock-limited phasing of each case.

    Parameters
    ----------
    setting
        The operating points.
    ratio
        Static compression ratio of each. [-]
    best
        Earliest phasing worth having. [rad]
    step
        Crank angle step. [rad]

    Returns
    -------
    Array
        The earliest phasing from `best` on that does not knock; inf where even 50 degrees
        after top centre does. [rad]
    """

    def excess(phasings: Array) -> Array:
        each = np.repeat(ratio, phasings.shape[1])
        return log_knock(spread(setting, phasings), each, phasings.ravel(), step)

    # from late to early, so that the excess rises along the grid
    grid = np.linspace(LATEST_OF_ALL, best, 8)
    found = crossing(excess, setting.size, grid, NEAR_PHASING)
    settled = np.where(found == np.inf, best, np.clip(found, best, LATEST_OF_ALL))
    return np.where(found == -np.inf, np.inf, settled)


def crossing(excess: Excess, cases: int, grid: Array, spacings: tuple[float, ...]) -> Array:
    """Find where the excess of each case is zero along a grid on which it rises.

    Parameters
    ----------
    excess
        Gives the excess for candidates [case, candidate].
    cases
        How many cases there are.
    grid
        Candidates in the order in which the excess rises.
    spacings
        Distance of the near values from the middle one, for each refining batch.

    Returns
    -------
    Array
        The crossing; -inf when the excess is above zero on the whole grid, inf when below.
    """
    values = excess(np.tile(grid, (cases, 1))).reshape(cases, -1)
    found = np.array([np.interp(0.0, row, grid) for row in values])
    ends = min(grid[0], grid[-1]), max(grid[0], grid[-1])
    for spacing in spacings:
        centre = np.clip(found, ends[0] + spacing, ends[1] - spacing)
        near = centre[:, None] + spacing * np.array([-1.0, 0.0, 1.0])
        found = centre + parabola_root(excess(near).reshape(cases, -1), spacing)
    found = np.where(values[:, 0] > 0.0, -np.inf, found)
    return np.where(values[:, -1] < 0.0, np.inf, found)


def parabola_root(values: Array, spacing: float) -> Array:
    """Root nearest zero of the parabola through values at -spacing, 0 and spacing."""
    slope = (values[:, 2] - values[:, 0]) / (2 * spacing)
    bend = (values[:, 2] - 2 * values[:, 1] + values[:, 0]) / spacing**2
    inside = np.maximum(slope**2 - 2 * bend * values[:, 1], 0.0)
    return np.asarray(-2 * values[:, 1] / (slope + np.copysign(np.sqrt(inside), slope)))


def followed_phasing(lined: Lined, best: Array, passes: int = PASSES) -> Array:
    """Find the knock-limited phasing of many cases by the Illinois false position.

    Slower than `limited_phasing` for a few cases, faster for thousands: what is the same for
    every phasing, the compression, is marched only once.

    Parameters
    ----------
    lined
        Cases set out along the crank.
    best
        Earliest phasing worth having, for each case. [rad]
    passes
        Passes of the false position: 6 settle it to some 0.1 degrees, 8 to 0.03.

    Returns
    -------
    Array
        As `limited_phasing`. [rad]
    """

    def excess(phasing: Array) -> Array:
        return np.asarray(np.log(march(lined, phasing, whole=False).knock))

    low, high = best, np.full_like(best, LATEST_OF_ALL)
    at_low, at_high = excess(low), excess(high)
    fine, beyond = at_low <= 0.0, at_high > 0.0
    for _ in range(passes):
        middle = _chord(low, high, at_low, at_high)
        at_middle = excess(middle)
        same = np.sign(at_middle) == np.sign(at_high)
        # an end that stays twice has its value halved, which keeps both ends moving
        at_low = np.where(same, 0.5 * at_low, at_high)
        low = np.where(same, low, high)
        high, at_high = middle, at_middle
    found = _chord(low, high, at_low, at_high)
    return np.where(fine, best, np.where(beyond, np.inf, found))


def _chord(low: Array, high: Array, at_low: Array, at_high: Array) -> Array:
    """Where the chord crosses zero, held between the ends."""
    gap = at_high - at_low
    crossing_point = high - at_high * (high - low) / np.where(gap == 0.0, 1.0, gap)
    return np.clip(crossing_point, np.minimum(low, high), np.maximum(low, high))
