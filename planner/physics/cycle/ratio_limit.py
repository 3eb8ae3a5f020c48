"""The ratio that holds off boost and at every boost on the way up."""

from dataclasses import replace
from functools import lru_cache
from math import inf

import numpy as np

from planner.physics.cycle.crossings import Latest, latest_at
from planner.physics.cycle.model import KEPT, ratios_at_limit
from planner.physics.cycle.setting import Point
from planner.physics.cycle.solve import RATIOS

STEP_OF_BOOST = 0.1e5  # [Pa]


@lru_cache(maxsize=KEPT)
def ratio_limits(off: Point, full: Point, latest: Latest) -> tuple[float, float]:
    """Find the highest ratio that keeps to the limit off boost, and from there to full boost.

    Boost has to pass every lower value on its way up, with an earlier latest phasing there,
    so the ratio at full boost is the smallest on the way. It is worked out every 0.1 bar and
    taken straight between: so it never rises with boost, however the limit is set.

    Parameters
    ----------
    off, full
        Full load before boost comes, and at full boost.
    latest
        Latest phasing allowed: unboosted, slope and ever. [rad], [rad/Pa], [rad]

    Returns
    -------
    tuple[float, float]
        Off boost and full boost; -inf below 5.5, inf above 17.5. [-]
    """
    steps = int(np.ceil(full.boost / STEP_OF_BOOST - 1e-9))
    boosts = np.asarray(STEP_OF_BOOST * np.arange(steps + 1), dtype=np.float64)
    points = (off, *(replace(full, boost=float(each)) for each in boosts))
    phasings = (latest[0], *(float(each) for each in latest_at(boosts, latest)))
    at_off, *on_the_way = ratios_at_limit(points, phasings)
    lowest = np.minimum.accumulate(np.array(on_the_way))
    if lowest[0] == inf and lowest[-1] == inf:
        return at_off, inf
    if lowest[-1] == -inf:
        return at_off, -inf
    # above 17.5 the ratio is not known, so the way down from there starts at 17.5
    known = np.minimum(lowest, RATIOS[-1])
    return at_off, float(np.interp(full.boost, boosts, known))
