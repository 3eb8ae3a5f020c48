"""The ratio of what is trapped when the inlet valve closes."""

from math import pi, radians

from planner.physics.bounds import within
from planner.physics.geometry import piston_area
from planner.physics.geometry_limits import CUBIC_CENTIMETRES, DEGREES, hold_positive
from planner.physics.geometry_slider_crank import piston_position
from planner.physics.registry import Q, physics
from planner.units.dimension import LENGTH, NONE, VOLUME


@physics(
    returns=Q(NONE),
    citation="derived",
    validity="inlet closing 5 to 120 degrees after bottom centre; slider-crank validity",
    rises=("bore",),
    falls=("clearance", "inlet_closing"),
    clearance=Q(VOLUME),
    bore=Q(LENGTH, "diameter"),
    stroke=Q(LENGTH),
    rod_length=Q(LENGTH),
    pin_offset=Q(LENGTH),
    inlet_closing=Q(NONE, "angle"),
)
def effective_ratio(
    *,
    clearance: float,
    bore: float,
    stroke: float,
    rod_length: float,
    pin_offset: float,
    inlet_closing: float,
) -> float:
    """Work out the ratio counted from the closing of the inlet valve.

    Parameters
    ----------
    clearance
        Volume left at top centre. [m**3]
    bore
        Finished bore. [m]
    stroke
        Twice the crank radius. [m]
    rod_length
        Rod length between end centres. [m]
    pin_offset
        Distance of the pin from the plane of the crank. [m]
    inlet_closing
        Crank angle after bottom centre at which the inlet closes; say at what lift. [rad]

    Returns
    -------
    float
        Effective compression ratio. [-]

    Raises
    ------
    OutsideValidity
        When the inlet closes below 5 or above 120 degrees after bottom centre, or the
        slider-crank is outside its own validity.

    Notes
    -----
    (V_c + pi / 4 B^2 x) / V_c with x the piston's place at closing. Geometry alone: what
    the moving column of air really traps, and knock, are other questions, and boost is
    not to be multiplied in.

    References
    ----------
    Derived above from `piston_position`.

    Examples
    --------
    >>> ratio = effective_ratio(
    ...     clearance=66.091e-6,
    ...     bore=0.086,
    ...     stroke=0.086,
    ...     rod_length=0.143,
    ...     pin_offset=0.0,
    ...     inlet_closing=0.8726646259971648,
    ... )
    >>> round(ratio, 3)
    7.547
    """
    limits = (radians(5.0), radians(120.0))
    remedy = "Give the closing after bottom centre, at the lift of the cam card."
    within("inlet closing", inlet_closing, *limits, DEGREES, remedy=remedy)
    hold_positive("clearance volume", clearance, CUBIC_CENTIMETRES)
    down = piston_position(
        angle=pi + inlet_closing, stroke=stroke, rod_length=rod_length, pin_offset=pin_offset
    )
    return (clearance + piston_area(bore=bore) * down) / clearance
