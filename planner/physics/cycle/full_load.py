"""Full load over the speeds near the rev ceiling."""

from math import inf, pi

from planner.errors import OutsideValidity
from planner.physics.cycle.model import Cycle, cycles, phasings_at_limit
from planner.physics.cycle.setting import Point

FRICTION_SPEED = 20.0  # mean piston speed at which the friction is told [m/s]


def full_load(
    points: tuple[Point, ...],
    ratio: float,
    best: float,
    cylinders: float,
    ends: tuple[tuple[float, float], tuple[float, float]],
) -> dict[str, float]:
    """Work out power, air and fuel from the best of several speeds.

    Parameters
    ----------
    points
        The operating points, at rising speed.
    ratio
        Static compression ratio. [-]
    best
        Phasing of best torque. [rad]
    cylinders
        Their number. [-]
    ends
        Breathing and friction at the low end and at the high end. [-], [Pa]

    Returns
    -------
    dict[str, float]
        As `full_load_power` returns.

    Raises
    ------
    OutsideValidity
        When it knocks at every speed.
    """
    limited = phasings_at_limit(points, ratio, best)
    free = tuple(
        (point, phasing) for point, phasing in zip(points, limited, strict=True) if phasing < inf
    )
    if not free:
        raise OutsideValidity(
            problem=f"At a ratio of {ratio:.3g} it knocks at every speed, however late the burn.",
            reason="There is no cycle to take the power from.",
            remedy="Lower the ratio or the boost, cool the charge, or use a better fuel.",
        )
    kept = tuple(point for point, _ in free)
    ran = cycles(kept, ratio, tuple(phasing for _, phasing in free))
    low, high = (
        max(
            (_power(point, cycle, cylinders, *end), i)
            for i, (point, cycle) in enumerate(zip(kept, ran, strict=True))
        )
        for end in ends
    )
    at = kept[high[1]]
    drawn = ends[1][0] * cylinders * at.speed / (4 * pi)
    fuel = ran[high[1]].fuel_mass * drawn
    return {
        "power_low": low[0],
        "power_high": high[0],
        "power_speed": at.speed,
        "air_flow": ran[high[1]].air_mass * drawn,
        "fuel_mass_flow": fuel,
        "fuel_volume_flow": fuel / at.fuel.density,
    }


def _power(
    point: Point, cycle: Cycle, cylinders: float, breathing: float, friction: float
) -> float:
    """Brake power: breathing times the gas work, less friction, each cycle two turns [W]."""
    piston = point.stroke * point.speed / pi
    lost = friction * piston / FRICTION_SPEED
    swept = pi / 4 * point.bore**2 * point.stroke
    brake = breathing * cycle.net_pressure - lost
    return max(0.0, brake) * swept * cylinders * point.speed / (4 * pi)
