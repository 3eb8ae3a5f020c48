"""Valve springs at speed: does the spring still turn the valve round over the cam's nose."""

import math

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.registry import Q, physics
from planner.units import ACCELERATION, FORCE, LENGTH, MASS, NONE, ROTATION

ANGLE = Q(NONE, "angle")
FACTOR = Q(NONE)
MASS_OF_PART = Q(MASS)
PLAIN_LENGTH = Q(LENGTH)
SPEED_OF_ROTATION = Q(ROTATION, "speed of rotation")


@physics(
    returns=Q(ACCELERATION),
    citation="derived; harmonic nose assumed",
    validity="durations 120 to 360 degrees of crank, measured below half lift",
    rises=("lift", "speed", "shape_factor"),
    falls=("duration", "duration_lift"),
    lift=PLAIN_LENGTH,
    duration=ANGLE,
    duration_lift=PLAIN_LENGTH,
    speed=SPEED_OF_ROTATION,
    shape_factor=FACTOR,
)
def valve_nose_deceleration(
    *, lift: float, duration: float, duration_lift: float, speed: float, shape_factor: float
) -> float:
    r"""Work out the deceleration of a valve at full lift, which only the spring provides.

    Parameters
    ----------
    lift
        Full valve lift. [m]
    duration
        Crank angle over which the valve is open more than duration_lift. [rad]
    duration_lift
        Lift at which the duration is stated. [m]
    speed
        Crank speed. [rad/s]
    shape_factor
        Deceleration of the real cam over that of a cosine; 1 is the cosine. [-]

    Returns
    -------
    float
        Deceleration at full lift. [m/s**2]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Assumes a raised cosine through full lift and the stated duration,
    :math:`y = h \cos^2(\pi \theta / \Phi)`, whose deceleration at the top is
    :math:`8 h \arccos^2(\sqrt{y_d/h}) \, \omega^2 / D^2`. Real cams hurry the flanks and
    spare the nose, so the cosine is on the safe side. Spring surge and the give of the
    valve train are left out. Valid for durations of 120 to 360 degrees of crank, stated at
    a lift below half the full one.

    References
    ----------
    Derived above from a raised-cosine lift.

    Examples
    --------
    >>> rate = valve_nose_deceleration(
    ...     lift=0.010, duration=4.014, duration_lift=0.001, speed=785.4, shape_factor=1.0
    ... )
    >>> round(rate)
    4778
    """
    return _nose_rate(lift, duration, duration_lift) * shape_factor * speed**2


@physics(
    returns=Q(FORCE),
    citation="derived; harmonic nose assumed",
    validity="durations 120 to 360 degrees of crank, measured below half lift",
    rises=("effective_mass", "lift", "speed", "shape_factor", "margin"),
    falls=("duration", "duration_lift"),
    effective_mass=MASS_OF_PART,
    lift=PLAIN_LENGTH,
    duration=ANGLE,
    duration_lift=PLAIN_LENGTH,
    speed=SPEED_OF_ROTATION,
    shape_factor=FACTOR,
    margin=FACTOR,
)
def valve_spring_force_needed(
    *,
    effective_mass: float,
    lift: float,
    duration: float,
    duration_lift: float,
    speed: float,
    shape_factor: float,
    margin: float,
) -> float:
    """Work out the spring force at full lift that keeps the follower on the cam.

    Parameters
    ----------
    effective_mass
        Mass as felt at the valve. [kg]
    lift
        Full valve lift. [m]
    duration
        Crank angle over which the valve is open more than duration_lift. [rad]
    duration_lift
        Lift at which the duration is stated. [m]
    speed
        Highest crank speed, overspeed included. [rad/s]
    shape_factor
        Deceleration of the real cam over that of a cosine; 1 is the cosine. [-]
    margin
        Factor on the inertia force. [-]

    Returns
    -------
    float
        Force with the valve fully open. [N]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Mass times deceleration times margin. Below it the valve floats: it flies off the cam
    and lands on the piston or bounces on its seat. It is a screen; the cam maker's spring
    figure goes first. Valid for durations of 120 to 360 degrees of crank, stated at a lift
    below half the full one.

    References
    ----------
    Derived above from a raised-cosine lift.

    Examples
    --------
    >>> force = valve_spring_force_needed(
    ...     effective_mass=0.112,
    ...     lift=0.010,
    ...     duration=4.014,
    ...     duration_lift=0.001,
    ...     speed=785.4,
    ...     shape_factor=1.0,
    ...     margin=1.2,
    ... )
    >>> round(force)
    642
    """
    within("margin", margin, 1, 3)
    return (
        margin
        * effective_mass
        * valve_nose_deceleration(
            lift=lift,
            duration=duration,
            duration_lift=duration_lift,
            speed=speed,
            shape_factor=shape_factor,
        )
    )


@physics(
    returns=SPEED_OF_ROTATION,
    citation="derived; harmonic nose assumed",
    validity="durations 120 to 360 degrees of crank, measured below half lift",
    rises=("open_force", "duration", "duration_lift"),
    falls=("effective_mass", "lift", "shape_factor"),
    open_force=Q(FORCE),
    effective_mass=MASS_OF_PART,
    lift=PLAIN_LENGTH,
    duration=ANGLE,
    duration_lift=PLAIN_LENGTH,
    shape_factor=FACTOR,
)
def valve_float_speed(
    *,
    open_force: float,
    effective_mass: float,
    lift: float,
    duration: float,
    duration_lift: float,
    shape_factor: float,
) -> float:
    """Work out the crank speed at which the valve floats over the cam's nose.

    Parameters
    ----------
    open_force
        Spring force with the valve fully open. [N]
    effective_mass
        Mass as felt at the valve. [kg]
    lift
        Full valve lift. [m]
    duration
        Crank angle over which the valve is open more than duration_lift. [rad]
    duration_lift
        Lift at which the duration is stated. [m]
    shape_factor
        Deceleration of the real cam over that of a cosine; 1 is the cosine. [-]

    Returns
    -------
    float
        Crank speed at which inertia equals the spring. [rad/s]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The speed at which mass times nose deceleration equals the open force, no margin taken.
    Valid for durations of 120 to 360 degrees of crank, stated at a lift below half the full
    one.

    References
    ----------
    Derived above from a raised-cosine lift.

    Examples
    --------
    >>> speed = valve_float_speed(
    ...     open_force=667.5,
    ...     effective_mass=0.112,
    ...     lift=0.010,
    ...     duration=4.014,
    ...     duration_lift=0.001,
    ...     shape_factor=1.0,
    ... )
    >>> round(speed)
    877
    """
    within("effective mass", effective_mass, 0.01, 2, ("g", 1e3))
    rate = _nose_rate(lift, duration, duration_lift) * shape_factor
    return math.sqrt(max(0.0, open_force) / (effective_mass * rate))


def _nose_rate(lift: float, duration: float, duration_lift: float) -> float:
    """Give the deceleration at full lift for a crank speed of one."""
    within("valve lift", lift, 0.002, 0.02, MILLIMETRES)
    within("lift at which duration is stated", duration_lift, 0, lift / 2, MILLIMETRES)
    within(
        "duration",
        duration,
        math.radians(120),
        math.radians(360),
        ("deg", 180 / math.pi),
        remedy="Give the duration in degrees of crank, not of cam.",
    )
    return 8 * lift * (math.acos(math.sqrt(duration_lift / lift)) / duration) ** 2
