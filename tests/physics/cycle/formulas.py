"""Arguments of the registered formulas, from the test engine."""

from dataclasses import asdict

from planner.physics.cycle.arguments import LATEST, MODEL
from tests.physics.cycle.cases import BAR, BEST, RPM, SEA_LEVEL, full_boost, latest

POINT = asdict(full_boost(margins=False))
ENGINE = {name: POINT[name] for name in MODEL}
LIMIT = dict(zip(LATEST, latest(), strict=True))
AIR = {"ratio": 8.5, "boost": 0.9 * BAR, "ambient_pressure": SEA_LEVEL}
CYCLE = {
    **ENGINE,
    **AIR,
    "charge_temperature": 323.6,
    "speed": 3000 * RPM,
    "mixture": 1.18,
    "best_phasing": BEST,
}
PEAK = {
    **ENGINE,
    **AIR,
    "charge_temperature": 328.15,
    "rev_ceiling": 7200 * RPM,
    "full_boost_speed": 3000 * RPM,
    "mixture": 1.18,
    "best_phasing": BEST,
    "speed_share": 0.9,
    "pressure_spread": 1.2,
}
MARGIN = {
    **ENGINE,
    **LIMIT,
    **AIR,
    "normal_temperature": 323.6,
    "hot_temperature": 338.6,
    "speed": 3000 * RPM,
    "mixture": 1.18,
    "best_phasing": BEST,
}
POWER = {
    **ENGINE,
    **AIR,
    "boost": 1.1 * BAR,
    "charge_temperature": 328.15,
    "mixture": 1.18,
    "rev_ceiling": 7200 * RPM,
    "best_phasing": BEST,
    "cylinders": 4,
    "breathing_low": 0.8,
    "breathing_high": 1.0,
    "friction_low": 2e5,
    "friction_high": 3e5,
}


def without(given, *names):
    """The same arguments without some."""
    return {name: each for name, each in given.items() if name not in names}
