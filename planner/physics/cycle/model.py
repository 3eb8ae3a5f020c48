"""Answers of the cycle model for single operating points, each worked out once."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from planner.physics.cycle.lines import Lined, line_up
from planner.physics.cycle.march import Outcome, march
from planner.physics.cycle.setting import Point, Setting, setting
from planner.physics.cycle.solve import limited_phasing, limited_ratio

KEPT = 256
BLOW_DOWN = 0.27 / 1.27  # (gamma - 1)/gamma of exhaust gas at 1.27


@dataclass(frozen=True)
class Cycle:
    """One cycle of one cylinder."""

    phasing: float  # [rad]
    knock: float  # knock integral; 1 is the limit [-]
    peak_pressure: float  # absolute [Pa]
    peak_angle: float  # [rad]
    gross_pressure: float  # indicated mean effective, compression and expansion [Pa]
    net_pressure: float  # indicated mean effective, gas exchange counted [Pa]
    closing_temperature: float  # charge at inlet closing [K]
    end_gas_temperature: float  # highest [K]
    exhaust_temperature: float  # after blow-down [K]
    air_mass: float  # in one cylinder [kg]
    fuel_mass: float  # in one cylinder [kg]
    closure: float  # energy unaccounted for over fuel energy [-]


@lru_cache(maxsize=KEPT)
def ratios_at_limit(points: tuple[Point, ...], phasings: tuple[float, ...]) -> tuple[float, ...]:
    """Ratio of each point at which it just reaches the limit; -inf or inf off the grid."""
    found = limited_ratio(setting(points), np.array(phasings))
    return tuple(float(each) for each in found)


@lru_cache(maxsize=KEPT)
def phasings_at_limit(points: tuple[Point, ...], ratio: float, best: float) -> tuple[float, ...]:
    """Knock-limited phasing of each point at one ratio; inf when there is none [rad]."""
    found = limited_phasing(setting(points), np.full(len(points), ratio), best)
    return tuple(float(each) for each in found)


@lru_cache(maxsize=KEPT)
def cycles(
    points: tuple[Point, ...], ratio: float, phasings: tuple[float, ...]
) -> tuple[Cycle, ...]:
    """Whole cycles of several points at one ratio, each at its own phasing."""
    cases = setting(points)
    lined = line_up(cases, np.full(cases.size, ratio))
    phasing = np.array(phasings)
    outcome = march(lined, phasing)
    return tuple(_cycle(cases, lined, outcome, ratio, i, phasings[i]) for i in range(len(points)))


def _cycle(
    cases: Setting, lined: Lined, outcome: Outcome, ratio: float, i: int, phasing: float
) -> Cycle:
    """Gather one case; the strokes outside the march are at constant mean pressure."""
    charge = lined.charge
    closing, opening = (float(lined.volume[k, i] * charge.mass[i]) for k in (0, -1))
    swept, pressure = float(charge.swept[i]), float(charge.pressure[i])
    exhaust, last = float(charge.exhaust_pressure[i]), float(outcome.last_pressure[i])
    bottom = swept * ratio / (ratio - 1.0)
    work = (
        float(outcome.work[i])
        - pressure * (bottom - closing)
        + 0.5 * (last + exhaust) * (bottom - opening)
    )
    fresh = float(charge.mass[i] * (1.0 - charge.residual[i]))
    fuel = fresh * float(cases.fuel_share[i])
    return Cycle(
        phasing=phasing,
        knock=float(outcome.knock[i]),
        peak_pressure=float(outcome.peak_pressure[i]),
        peak_angle=float(outcome.peak_angle[i]),
        gross_pressure=work / swept,
        net_pressure=work / swept + pressure - exhaust,
        closing_temperature=float(charge.temperature[i]),
        end_gas_temperature=float(outcome.hottest_end_gas[i]),
        exhaust_temperature=float(outcome.last_temperature[i]) * (exhaust / last) ** BLOW_DOWN,
        air_mass=fresh - fuel,
        fuel_mass=fuel,
        closure=float(outcome.closure[i]),
    )
