"""The largest speed and accelerations of the piston over a turn."""

from math import pi

from planner.physics.geometry_limits import RADIANS_A_SECOND, hold_not_negative
from planner.physics.geometry_slider_crank import (
    checked_throw,
    crank_acceleration,
    piston_speed,
)
from planner.physics.registry import Q, physics
from planner.units.dimension import ACCELERATION, LENGTH, NONE, ROTATION, SPEED

_LENGTH = Q(LENGTH)
_ANGLE = Q(NONE, "angle")
_TURNING = Q(ROTATION, "speed of rotation")
_CITATION = "derived from slider-crank kinematics (Heywood 1988, ch. 2)"


@physics(
    returns={"largest_piston_speed": Q(SPEED), "largest_speed_angle": _ANGLE},
    citation=_CITATION,
    validity="rod 1.2 to 3 strokes long, no pin offset, rigid parts",
    rises={"largest_piston_speed": ("stroke", "speed"), "largest_speed_angle": ("rod_length",)},
    falls={"largest_piston_speed": ("rod_length",), "largest_speed_angle": ("stroke",)},
    stroke=_LENGTH,
    rod_length=_LENGTH,
    speed=_TURNING,
)
def largest_piston_speed(*, stroke: float, rod_length: float, speed: float) -> dict[str, float]:
    """Find the largest speed of the piston and the crank angle where it comes.

    Parameters
    ----------
    stroke
        Twice the crank radius. [m]
    rod_length
        Rod length between end centres. [m]
    speed
        Speed of the crank, steady. [rad/s]

    Returns
    -------
    largest_piston_speed
        Largest speed on the way down. [m/s]
    largest_speed_angle
        Crank angle after top centre where it comes. [rad]

    Raises
    ------
    OutsideValidity
        When the rod is shorter than 1.2 or longer than 3 strokes.

    Notes
    -----
    The acceleration passes through zero there; found by halving between 45 and 90 degrees,
    where it surely changes sign.

    References
    ----------
    Derived above from slider-crank kinematics.

    Examples
    --------
    >>> found = largest_piston_speed(stroke=0.086, rod_length=0.143, speed=785.4)
    >>> round(found["largest_piston_speed"], 3), round(found["largest_speed_angle"], 4)
    (35.276, 1.3003)
    """
    hold_not_negative("engine speed", speed, RADIANS_A_SECOND)
    throw = checked_throw(stroke, rod_length, 0.0)
    low, high = pi / 4.0, pi / 2.0
    for _ in range(60):
        middle = (low + high) / 2.0
        if crank_acceleration(throw, middle) > 0.0:
            low = middle
        else:
            high = middle
    fastest = piston_speed(
        angle=low, stroke=stroke, rod_length=rod_length, pin_offset=0.0, speed=speed
    )
    return {"largest_piston_speed": fastest, "largest_speed_angle": low}


@physics(
    returns=Q(ACCELERATION),
    citation=_CITATION,
    validity="rod 1.2 to 3 strokes long, no pin offset, rigid parts",
    rises=("stroke", "speed"),
    falls=("rod_length",),
    stroke=_LENGTH,
    rod_length=_LENGTH,
    speed=_TURNING,
)
def top_centre_acceleration(*, stroke: float, rod_length: float, speed: float) -> float:
    """Work out the acceleration of the piston at top centre, the largest of the turn.

    Parameters
    ----------
    stroke
        Twice the crank radius. [m]
    rod_length
        Rod length between end centres. [m]
    speed
        Speed of the crank, steady. [rad/s]

    Returns
    -------
    float
        Acceleration at top centre, towards the crank. [m/s**2]

    Raises
    ------
    OutsideValidity
        When the rod is shorter than 1.2 or longer than 3 strokes.

    Notes
    -----
    w^2 r (1 + r / L): `piston_acceleration` at zero angle without offset.

    References
    ----------
    Derived above from slider-crank kinematics.

    Examples
    --------
    >>> round(top_centre_acceleration(stroke=0.086, rod_length=0.143, speed=785.4))
    34501
    """
    hold_not_negative("engine speed", speed, RADIANS_A_SECOND)
    throw = checked_throw(stroke, rod_length, 0.0)
    return speed * speed * throw.radius * (1.0 + throw.radius / throw.rod)


@physics(
    returns=Q(ACCELERATION),
    citation=_CITATION,
    validity="rod 1.2 to 3 strokes long, no pin offset, rigid parts",
    rises=("rod_length", "speed"),
    stroke=_LENGTH,
    rod_length=_LENGTH,
    speed=_TURNING,
)
def bottom_centre_acceleration(*, stroke: float, rod_length: float, speed: float) -> float:
    """Work out the size of the piston's acceleration at bottom centre.

    Parameters
    ----------
    stroke
        Twice the crank radius. [m]
    rod_length
        Rod length between end centres. [m]
    speed
        Speed of the crank, steady. [rad/s]

    Returns
    -------
    float
        Acceleration at bottom centre, away from the crank, as a positive number. [m/s**2]

    Raises
    ------
    OutsideValidity
        When the rod is shorter than 1.2 or longer than 3 strokes.

    Notes
    -----
    w^2 r (1 - r / L): `piston_acceleration` at half a turn without offset.

    References
    ----------
    Derived above from slider-crank kinematics.

    Examples
    --------
    >>> round(bottom_centre_acceleration(stroke=0.086, rod_length=0.143, speed=785.4))
    18549
    """
    hold_not_negative("engine speed", speed, RADIANS_A_SECOND)
    throw = checked_throw(stroke, rod_length, 0.0)
    return speed * speed * throw.radius * (1.0 - throw.radius / throw.rod)
