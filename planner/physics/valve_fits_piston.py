"""How close a valve may come to the piston: everything that moves them together, added."""

import math

from planner.physics.bounds import KELVINS, MILLIMETRES, within
from planner.physics.registry import Q, physics
from planner.units import LENGTH, NONE, PER_KELVIN, TEMPERATURE

PLAIN_LENGTH = Q(LENGTH)


@physics(
    returns=Q(LENGTH, "gap"),
    citation="derived; the margin is common practice",
    validity="piston rises 0 to 350 K, timing errors up to 10 degrees of crank",
    rises=(
        "margin",
        "rod_stretch",
        "bearing_clearance",
        "compression_height",
        "piston_expansion",
        "piston_rise",
        "valve_speed",
        "timing_error",
    ),
    margin=PLAIN_LENGTH,
    rod_stretch=PLAIN_LENGTH,
    bearing_clearance=Q(LENGTH, "clearance on diameter"),
    compression_height=PLAIN_LENGTH,
    piston_expansion=Q(PER_KELVIN),
    piston_rise=Q(TEMPERATURE, "rise"),
    valve_speed=PLAIN_LENGTH,
    timing_error=Q(NONE, "angle"),
)
def piston_to_valve_least(
    *,
    margin: float,
    rod_stretch: float,
    bearing_clearance: float,
    compression_height: float,
    piston_expansion: float,
    piston_rise: float,
    valve_speed: float,
    timing_error: float,
) -> float:
    r"""Work out the least cold clearance between valve and piston that is still safe hot.

    Parameters
    ----------
    margin
        What has to be left when everything else is used up. [m]
    rod_stretch
        Stretch of the rod at the overlap top centre, at overspeed. [m]
    bearing_clearance
        Clearance on diameter of big end, small end and mains, taken together. [m]
    compression_height
        Pin axis to crown. [m]
    piston_expansion
        Linear thermal expansion of the piston. [1/K]
    piston_rise
        Temperature of the piston above that at the mock-up. [K]
    valve_speed
        Valve lift for each radian of crank at the closest point. [m]
    timing_error
        Largest error of cam timing, tensioner and chain included. [rad]

    Returns
    -------
    float
        Least clearance at the mock-up, cold, without load. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Margin + stretch + bearings + :math:`h_c a \Delta T` + valve speed times timing error.
    The whole bearing clearance is taken up when the piston is flung upward. Valve float is
    not in it; practice leaves more. Valid for piston rises of 0 to 350 K and timing errors
    up to 10 degrees of crank.

    References
    ----------
    Derived above as a sum; the margin is common practice.

    Examples
    --------
    >>> least = piston_to_valve_least(
    ...     margin=0.5e-3,
    ...     rod_stretch=0.116e-3,
    ...     bearing_clearance=0.10e-3,
    ...     compression_height=0.033,
    ...     piston_expansion=22.3e-6,
    ...     piston_rise=150.0,
    ...     valve_speed=0.014,
    ...     timing_error=0.034907,
    ... )
    >>> round(least * 1e3, 2)
    1.32
    """
    within("rod stretch", rod_stretch, 0, 1e-3, MILLIMETRES)
    within("bearing clearance", bearing_clearance, 0, 0.5e-3, MILLIMETRES)
    within("temperature rise of the piston", piston_rise, 0, 350, KELVINS)
    within("timing error", timing_error, 0, math.radians(10), ("deg", 180 / math.pi))
    growth = compression_height * piston_expansion * piston_rise
    return margin + rod_stretch + bearing_clearance + growth + valve_speed * timing_error
