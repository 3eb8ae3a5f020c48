"""The boost, speed or charge temperature at which a chosen ratio meets the limit."""

from functools import lru_cache

import numpy as np

from planner.physics.cycle.gas import Array
from planner.physics.cycle.limits import BAR, LIMITS, RPM
from planner.physics.cycle.model import KEPT
from planner.physics.cycle.setting import Point, setting
from planner.physics.cycle.solve import crossing, log_knock, spread

Latest = tuple[float, float, float]  # unboosted [rad], slope [rad/Pa], ever [rad]

BOOSTS: Array = np.linspace(0.0, LIMITS["boost"][1], 13)
SPEEDS: Array = np.array([12.0, 9.0, 7.0, 5.5, 4.5, 3.5, 2.8, 2.2, 1.6, 1.0]) * 1e3 * RPM
TEMPERATURES: Array = np.linspace(240.0, 460.0, 9)


def latest_at(boost: Array, latest: Latest) -> Array:
    """Latest phasing allowed at each boost [rad]."""
    return np.minimum(latest[2], latest[0] + latest[1] * boost)


@lru_cache(maxsize=KEPT)
def boost_at_limit(point: Point, ratio: float, latest: Latest) -> float:
    """Boost at which the limit is met; 0 or 3 bar when it is not met between [Pa]."""
    # two refining batches: the limit has a corner where the latest phasing stops growing
    found = _meeting("boost", point, ratio, latest, BOOSTS, (0.12 / BAR[1], 0.02 / BAR[1]))
    return min(max(found, float(BOOSTS[0])), float(BOOSTS[-1]))


@lru_cache(maxsize=KEPT)
def speed_at_limit(point: Point, ratio: float, latest: Latest) -> float:
    """Speed at which the limit is met; inf when even the highest knocks [rad/s]."""
    found = _meeting("speed", point, ratio, latest, SPEEDS, (150 * RPM, 30 * RPM))
    return -found if abs(found) == np.inf else found


@lru_cache(maxsize=KEPT)
def temperature_at_limit(point: Point, ratio: float, latest: Latest) -> float:
    """Charge temperature at which the limit is met; inf when none is too hot [K]."""
    return _meeting("charge_temperature", point, ratio, latest, TEMPERATURES, (6.0, 1.0))


def _meeting(
    name: str,
    point: Point,
    ratio: float,
    latest: Latest,
    grid: Array,
    spacings: tuple[float, ...],
) -> float:
    """Find where the knock integral is one along one quantity."""
    cases = setting([point])

    def excess(candidates: Array) -> Array:
        values = candidates.ravel()
        case = spread(cases, candidates).with_values(**{name: values})
        return log_knock(case, np.full(values.size, ratio), latest_at(case.value["boost"], latest))

    return float(crossing(excess, 1, grid, spacings)[0])
