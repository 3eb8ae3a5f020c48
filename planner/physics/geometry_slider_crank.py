"""Where the piston is, how fast it moves and how hard it is thrown, with a pin offset."""

from math import cos, sin, sqrt
from typing import NamedTuple

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.geometry_limits import hold_positive
from planner.physics.registry import Q, physics
from planner.units.dimension import ACCELERATION, LENGTH, NONE, ROTATION, SPEED

_LENGTH = Q(LENGTH)
_ANGLE = Q(NONE, "angle")
_TURNING = Q(ROTATION, "speed of rotation")
_CITATION = "derived from slider-crank kinematics (Heywood 1988, ch. 2)"
_VALIDITY = "rod 1.2 to 3 strokes long, pin offset up to 3 % of the stroke, rigid parts"


class Throw(NamedTuple):
    """Crank radius, rod length and pin offset, checked against the validity."""

    radius: float
    rod: float
    offset: float


@physics(
    returns=_LENGTH,
    citation=_CITATION,
    validity=_VALIDITY,
    angle=_ANGLE,
    stroke=_LENGTH,
    rod_length=_LENGTH,
    pin_offset=_LENGTH,
)
def piston_position(*, angle: float, stroke: float, rod_length: float, pin_offset: float) -> float:
    """Work out how far the piston stands below its highest point.

    Parameters
    ----------
    angle
        Crank angle after the throw points up the bore. [rad]
    stroke
        Twice the crank radius. [m]
    rod_length
        Rod length between end centres. [m]
    pin_offset
        Distance of the pin from the plane of the crank, towards the rising throw side
        positive. [m]

    Returns
    -------
    float
        Distance below the highest point the piston reaches. [m]

    Raises
    ------
    OutsideValidity
        When the rod is shorter than 1.2 or longer than 3 strokes, or the offset is more
        than 3 % of the stroke.

    Notes
    -----
    x = sqrt((L + r)^2 - e^2) - [r cos a + sqrt(L^2 - (r sin a - e)^2)] with crank radius r,
    rod L, offset e. Parts are rigid and bearings without clearance.

    References
    ----------
    Derived above from slider-crank kinematics; without offset it is Heywood, Internal
    Combustion Engine Fundamentals, 1988, eq. 2.5, from memory.

    Examples
    --------
    >>> x = piston_position(
    ...     angle=1.5707963267948966, stroke=0.086, rod_length=0.143, pin_offset=0.0
    ... )
    >>> round(x * 1e3, 3)
    49.618
    """
    throw = checked_throw(stroke, rod_length, pin_offset)
    highest = sqrt((throw.rod + throw.radius) ** 2 - throw.offset**2)
    return highest - (throw.radius * cos(angle) + _upright(throw, angle))


@physics(
    returns=Q(SPEED),
    citation=_CITATION,
    validity=_VALIDITY,
    angle=_ANGLE,
    stroke=_LENGTH,
    rod_length=_LENGTH,
    pin_offset=_LENGTH,
    speed=_TURNING,
)
def piston_speed(
    *, angle: float, stroke: float, rod_length: float, pin_offset: float, speed: float
) -> float:
    """Work out the speed of the piston at a crank angle, downwards positive.

    Parameters
    ----------
    angle
        Crank angle after the throw points up the bore. [rad]
    stroke
        Twice the crank radius. [m]
    rod_length
        Rod length between end centres. [m]
    pin_offset
        Distance of the pin from the plane of the crank. [m]
    speed
        Speed of the crank, steady. [rad/s]

    Returns
    -------
    float
        Speed of the piston, positive on the way down. [m/s]

    Raises
    ------
    OutsideValidity
        As `piston_position`.

    Notes
    -----
    The first derivative of `piston_position`: with u = r sin a - e and q = sqrt(L^2 - u^2),
    v = w (r sin a + u r cos a / q).

    References
    ----------
    Derived above from slider-crank kinematics.

    Examples
    --------
    >>> v = piston_speed(angle=1.3, stroke=0.086, rod_length=0.143, pin_offset=0.0, speed=785.0)
    >>> round(v, 2)
    35.26
    """
    throw = checked_throw(stroke, rod_length, pin_offset)
    across = throw.radius * sin(angle) - throw.offset
    swing = across * throw.radius * cos(angle) / _upright(throw, angle)
    return speed * (throw.radius * sin(angle) + swing)


@physics(
    returns=Q(ACCELERATION),
    citation=_CITATION,
    validity=_VALIDITY,
    angle=_ANGLE,
    stroke=_LENGTH,
    rod_length=_LENGTH,
    pin_offset=_LENGTH,
    speed=_TURNING,
)
def piston_acceleration(
    *, angle: float, stroke: float, rod_length: float, pin_offset: float, speed: float
) -> float:
    """Work out the acceleration of the piston at a crank angle, downwards positive.

    Parameters
    ----------
    angle
        Crank angle after the throw points up the bore. [rad]
    stroke
        Twice the crank radius. [m]
    rod_length
        Rod length between end centres. [m]
    pin_offset
        Distance of the pin from the plane of the crank. [m]
    speed
        Speed of the crank, steady. [rad/s]

    Returns
    -------
    float
        Acceleration of the piston, positive towards the crank. [m/s**2]

    Raises
    ------
    OutsideValidity
        As `piston_position`.

    Notes
    -----
    The second derivative of `piston_position`: with u and q of `piston_speed`,
    a = w^2 [r cos a + (r^2 cos^2 a - u r sin a) / q + u^2 r^2 cos^2 a / q^3].

    References
    ----------
    Derived above from slider-crank kinematics.

    Examples
    --------
    >>> a = piston_acceleration(
    ...     angle=0.0, stroke=0.086, rod_length=0.143, pin_offset=0.0, speed=785.4
    ... )
    >>> round(a)
    34501
    """
    throw = checked_throw(stroke, rod_length, pin_offset)
    return speed * speed * crank_acceleration(throw, angle)


def checked_throw(stroke: float, rod_length: float, pin_offset: float) -> Throw:
    """Hold stroke, rod and offset against the validity.

    Raises
    ------
    OutsideValidity
        When the rod or the offset does not suit the stroke.
    """
    hold_positive("stroke", stroke, MILLIMETRES)
    remedy = "Measure rod length and stroke again; a rod this far off fits no car engine."
    within("rod length over stroke", rod_length / stroke, 1.2, 3.0, remedy=remedy)
    share = abs(pin_offset) / stroke
    remedy = "Give the pin offset as the distance of the pin from the piston centre."
    within("pin offset over stroke", share, 0.0, 0.03, remedy=remedy)
    return Throw(stroke / 2.0, rod_length, pin_offset)


def _upright(throw: Throw, angle: float) -> float:
    """Give the length of the rod seen along the bore."""
    return sqrt(throw.rod**2 - (throw.radius * sin(angle) - throw.offset) ** 2)


def crank_acceleration(throw: Throw, angle: float) -> float:
    """Give the second derivative of the piston's position by crank angle."""
    across = throw.radius * sin(angle) - throw.offset
    along = throw.radius * cos(angle)
    upright = _upright(throw, angle)
    bend = (along * along - across * throw.radius * sin(angle)) / upright
    return along + bend + across * across * along * along / upright**3
