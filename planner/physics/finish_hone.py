"""The cross-hatch angle that a honing machine's settings leave."""

from math import atan2

from planner.physics.bounds import MILLIMETRES
from planner.physics.geometry_limits import RADIANS_A_SECOND, hold_not_negative, hold_positive
from planner.physics.registry import Q, physics
from planner.units.dimension import LENGTH, NONE, ROTATION, SPEED


@physics(
    returns=Q(NONE, "angle"),
    citation="derived",
    validity="the middle of the stroke, where it is steady",
    rises=("stroke_speed",),
    falls=("bore", "speed"),
    stroke_speed=Q(SPEED),
    bore=Q(LENGTH, "diameter"),
    speed=Q(ROTATION, "speed of rotation"),
)
def cross_hatch_included(*, stroke_speed: float, bore: float, speed: float) -> float:
    """Work out the included cross-hatch angle from stroking speed and turning speed.

    Parameters
    ----------
    stroke_speed
        Speed of the head along the bore, the same both ways. [m/s]
    bore
        Diameter of the bore. [m]
    speed
        Turning speed of the head. [rad/s]

    Returns
    -------
    float
        Angle between the two sets of marks, counted across the bore: twice the angle of
        one set to a plane square to the bore. [rad]

    Raises
    ------
    OutsideValidity
        When bore or turning speed is not above zero, or the stroking speed is negative.

    Notes
    -----
    2 atan(stroke speed / surface speed), surface speed = speed times bore / 2. Near the
    ends of the stroke the marks lie flatter.

    References
    ----------
    Derived above from the two speeds.

    Examples
    --------
    >>> angle = cross_hatch_included(stroke_speed=0.33, bore=0.086, speed=18.0)
    >>> round(angle * 57.29578, 1)
    46.2
    """
    hold_not_negative("stroking speed", stroke_speed, ("m/s", 1.0))
    hold_positive("bore", bore, MILLIMETRES)
    hold_positive("turning speed", speed, RADIANS_A_SECOND)
    return 2.0 * atan2(stroke_speed, speed * bore / 2.0)
