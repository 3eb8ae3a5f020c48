"""Simple measures of the cylinder: area, mean speed, rod ratio, power for each area."""

from math import pi

from planner.physics.bounds import MILLIMETRES, PLAIN
from planner.physics.geometry_limits import KILOWATTS, RADIANS_A_SECOND, hold_positive
from planner.physics.registry import Q, physics
from planner.units.dimension import AREA, HEAT_FLUX, LENGTH, NONE, POWER, ROTATION, SPEED

_DIAMETER = Q(LENGTH, "diameter")
_LENGTH = Q(LENGTH)


@physics(
    returns=Q(SPEED),
    citation="Heywood, Internal Combustion Engine Fundamentals, 1988, eq. 2.9",
    validity="any engine",
    rises=("stroke", "speed"),
    stroke=_LENGTH,
    speed=Q(ROTATION, "speed of rotation"),
)
def mean_piston_speed(*, stroke: float, speed: float) -> float:
    """Work out the mean speed of the piston over one turn.

    Parameters
    ----------
    stroke
        Stroke of the crank. [m]
    speed
        Speed of the crank. [rad/s]

    Returns
    -------
    float
        Mean piston speed: two strokes a turn. [m/s]

    Raises
    ------
    OutsideValidity
        When the stroke or the speed is not above zero.

    Notes
    -----
    2 S N, and N turns a second are speed / (2 pi).

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, 1988, eq. 2.9; from memory.

    Examples
    --------
    >>> round(mean_piston_speed(stroke=0.086, speed=785.4), 3)
    21.5
    """
    hold_positive("stroke", stroke, MILLIMETRES)
    hold_positive("engine speed", speed, RADIANS_A_SECOND)
    return stroke * speed / pi


@physics(
    returns=Q(NONE),
    citation="derived",
    validity="any engine",
    rises=("rod_length",),
    falls=("stroke",),
    rod_length=_LENGTH,
    stroke=_LENGTH,
)
def rod_ratio(*, rod_length: float, stroke: float) -> float:
    """Give the trade's rod ratio, rod length over stroke.

    Parameters
    ----------
    rod_length
        Rod length between end centres. [m]
    stroke
        Stroke of the crank. [m]

    Returns
    -------
    float
        Rod length over stroke. [-]

    Raises
    ------
    OutsideValidity
        When either length is not above zero.

    Notes
    -----
    Books on kinematics use half the inverse, crank radius over rod length.

    References
    ----------
    Derived above from the two lengths.

    Examples
    --------
    >>> round(rod_ratio(rod_length=0.143, stroke=0.086), 3)
    1.663
    """
    hold_positive("rod length", rod_length, MILLIMETRES)
    hold_positive("stroke", stroke, MILLIMETRES)
    return rod_length / stroke


@physics(
    returns=Q(AREA),
    citation="derived",
    validity="round bores",
    rises=("bore",),
    bore=_DIAMETER,
)
def piston_area(*, bore: float) -> float:
    """Give the area of the bore that the gas pushes on.

    Parameters
    ----------
    bore
        Diameter of the bore. [m]

    Returns
    -------
    float
        Area of one bore. [m**2]

    Raises
    ------
    OutsideValidity
        When the bore is not above zero.

    Notes
    -----
    pi / 4 times the bore squared.

    References
    ----------
    Derived above from the circle.

    Examples
    --------
    >>> round(piston_area(bore=0.086) * 1e4, 3)
    58.088
    """
    hold_positive("bore", bore, MILLIMETRES)
    return pi / 4.0 * bore * bore


@physics(
    returns=Q(HEAT_FLUX),
    citation="derived",
    validity="any engine",
    rises=("power",),
    falls=("bore", "cylinders"),
    power=Q(POWER),
    bore=_DIAMETER,
    cylinders=Q(NONE),
)
def piston_area_power(*, power: float, bore: float, cylinders: float) -> float:
    """Work out the brake power for each area of piston, the driver of piston heat.

    Parameters
    ----------
    power
        Brake power of the whole engine. [W]
    bore
        Diameter of the bore. [m]
    cylinders
        Number of cylinders. [-]

    Returns
    -------
    float
        Brake power over the area of all pistons. [W/m**2]

    Raises
    ------
    OutsideValidity
        When power, bore or number of cylinders is not above zero.

    Notes
    -----
    10 MW/m2 is the trade's 1 kW for each square centimetre.

    References
    ----------
    Derived above from the circle.

    Examples
    --------
    >>> round(piston_area_power(power=250000.0, bore=0.086, cylinders=4.0) / 1e7, 3)
    1.076
    """
    hold_positive("power", power, KILOWATTS)
    hold_positive("number of cylinders", cylinders, PLAIN)
    return power / (cylinders * piston_area(bore=bore))
