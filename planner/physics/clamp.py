"""Does the head stay down: clamp of the studs against the lift of peak pressure."""

import math

from planner.physics.bounds import MEGAPASCALS, MILLIMETRES, within
from planner.physics.registry import Q, physics
from planner.units import FORCE, LENGTH, NONE, PRESSURE

SEAL = Q(LENGTH, "diameter")
GAUGE = Q(PRESSURE, "gauge")


@physics(
    returns=Q(FORCE),
    citation="derived",
    validity="pressures up to 40 MPa, sealing diameters 50 to 130 mm",
    rises=("pressure", "seal_diameter"),
    pressure=GAUGE,
    seal_diameter=SEAL,
)
def head_lift_force(*, pressure: float, seal_diameter: float) -> float:
    """Work out the force with which one cylinder lifts the head.

    Parameters
    ----------
    pressure
        Highest cylinder pressure that the parts are to stand. [Pa]
    seal_diameter
        Diameter on which the gasket's fire ring seals. [m]

    Returns
    -------
    float
        Lift. [N]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Pressure times the area inside the sealing line, which is larger than the bore's.
    Valid for pressures up to 40 MPa and sealing diameters of 50 to 130 mm.

    References
    ----------
    Derived above from the definition of pressure.

    Examples
    --------
    >>> round(head_lift_force(pressure=12e6, seal_diameter=0.088) / 1e3, 1)
    73.0
    """
    within("peak pressure", pressure, 1e5, 40e6, MEGAPASCALS)
    within("sealing diameter", seal_diameter, 0.05, 0.13, MILLIMETRES)
    return pressure * math.pi / 4 * seal_diameter**2


@physics(
    returns=Q(NONE),
    citation="derived",
    validity="pressures up to 40 MPa, sealing diameters 50 to 130 mm",
    rises=("preload", "fasteners"),
    falls=("cylinders", "pressure", "seal_diameter"),
    preload=Q(FORCE),
    fasteners=Q(NONE),
    cylinders=Q(NONE),
    pressure=GAUGE,
    seal_diameter=SEAL,
)
def clamp_ratio(
    *,
    preload: float,
    fasteners: float,
    cylinders: float,
    pressure: float,
    seal_diameter: float,
) -> float:
    """Work out by how much the head's clamp exceeds the lift of peak pressure.

    Parameters
    ----------
    preload
        Clamping force of one stud or bolt, tightened. [N]
    fasteners, cylinders
        How many hold this head, and how many cylinders it covers. [-]
    pressure
        Highest cylinder pressure that the parts are to stand. [Pa]
    seal_diameter
        Diameter on which the gasket's fire ring seals. [m]

    Returns
    -------
    float
        Clamp over lift of one cylinder. [-]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Fasteners are shared evenly by the cylinders; only one cylinder peaks at a time, and the
    end ones have fewer neighbours, so the figure is a screen. About one lift is needed to
    load the gasket's beads, the rest keeps the joint from moving.

    References
    ----------
    Derived above as a ratio of forces.

    Examples
    --------
    >>> ratio = clamp_ratio(
    ...     preload=62600.0, fasteners=10.0, cylinders=4.0, pressure=12e6, seal_diameter=0.088
    ... )
    >>> round(ratio, 2)
    2.14
    """
    within("cylinders under one head", cylinders, 1, 8)
    within("fasteners of one head", fasteners, 2, 60)
    lift = head_lift_force(pressure=pressure, seal_diameter=seal_diameter)
    return preload * fasteners / cylinders / lift
