"""Valve springs at rest: what keeps the valve shut, the force open, and the room to bind."""

import math

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.registry import Q, outside, physics
from planner.units import FORCE, LENGTH, NONE, PRESSURE, STIFFNESS

DIAMETER = Q(LENGTH, "diameter")
FORCE_OF_SPRING = Q(FORCE)
GAUGE = Q(PRESSURE, "gauge")
PLAIN_LENGTH = Q(LENGTH)


@physics(
    returns=FORCE_OF_SPRING,
    citation="derived; the margin is common practice",
    validity="seat diameters 15 to 60 mm, stem thinner than the seat",
    rises=("base_force", "margin", "port_pressure", "seat_diameter"),
    falls=("cylinder_pressure", "stem_diameter"),
    base_force=FORCE_OF_SPRING,
    margin=Q(NONE),
    port_pressure=GAUGE,
    cylinder_pressure=GAUGE,
    seat_diameter=DIAMETER,
    stem_diameter=DIAMETER,
)
def valve_seat_force(
    *,
    base_force: float,
    margin: float,
    port_pressure: float,
    cylinder_pressure: float,
    seat_diameter: float,
    stem_diameter: float,
) -> float:
    """Work out the spring force a closed valve needs against pressure in its port.

    Parameters
    ----------
    base_force
        Force that seats the valve without any pressure in the port. [N]
    margin
        Factor on the force of the pressure. [-]
    port_pressure, cylinder_pressure
        Highest pressure in the port, and the pressure in the cylinder at that moment. [Pa]
    seat_diameter, stem_diameter
        Diameter on which the valve seals, and of its stem. [m]

    Returns
    -------
    float
        Force at installed height. [N]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Boost behind an intake valve, or back pressure behind an exhaust valve, pushes the valve
    open with the pressure difference times the ring between seat and stem. A cylinder
    pressure above the port's helps the spring; that help is not counted.

    References
    ----------
    Derived above from pressure times area; the base force and the margin are common
    practice.

    Examples
    --------
    >>> force = valve_seat_force(
    ...     base_force=200.0,
    ...     margin=1.2,
    ...     port_pressure=0.14e6,
    ...     cylinder_pressure=0.0,
    ...     seat_diameter=0.033,
    ...     stem_diameter=0.006,
    ... )
    >>> round(force)
    339
    """
    within("seat diameter", seat_diameter, 0.015, 0.06, MILLIMETRES)
    within("margin", margin, 1, 3)
    if not 0 < stem_diameter < seat_diameter / 2:
        outside(
            "stem diameter",
            f"{stem_diameter * 1e3:.6g} mm",
            f"0 to half the seat diameter, {seat_diameter * 500:.6g} mm",
            "Measure stem and seat again.",
        )
    push = max(0.0, port_pressure - cylinder_pressure)
    return base_force + margin * push * math.pi / 4 * (seat_diameter**2 - stem_diameter**2)


@physics(
    returns=FORCE_OF_SPRING,
    citation="derived",
    validity="a straight spring, lifts up to 20 mm",
    rises=("seat_force", "spring_rate", "lift"),
    seat_force=FORCE_OF_SPRING,
    spring_rate=Q(STIFFNESS),
    lift=PLAIN_LENGTH,
)
def spring_open_force(*, seat_force: float, spring_rate: float, lift: float) -> float:
    """Work out the force of a valve spring at full lift.

    Parameters
    ----------
    seat_force
        Force at installed height. [N]
    spring_rate
        Force for each length of travel. [N/m]
    lift
        Valve lift. [m]

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
    Seat force plus rate times lift. Valid for a spring with one rate; of a beehive or
    double spring measure the open force itself. Lifts up to 20 mm.

    References
    ----------
    Derived above from Hooke's law.

    Examples
    --------
    >>> round(spring_open_force(seat_force=300.0, spring_rate=35e3, lift=0.0105), 1)
    667.5
    """
    _check_lift(lift)
    return seat_force + spring_rate * lift


@physics(
    returns=PLAIN_LENGTH,
    citation="derived",
    validity="lifts up to 20 mm",
    rises=("installed_height",),
    falls=("lift", "solid_height"),
    installed_height=PLAIN_LENGTH,
    lift=PLAIN_LENGTH,
    solid_height=PLAIN_LENGTH,
)
def coil_bind_clearance(*, installed_height: float, lift: float, solid_height: float) -> float:
    """Work out the travel left before a valve spring is solid.

    Parameters
    ----------
    installed_height
        Height of the spring with the valve shut. [m]
    lift
        Valve lift. [m]
    solid_height
        Height of the spring with all coils touching. [m]

    Returns
    -------
    float
        Travel left at full lift; below zero the spring binds. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Installed height less lift less solid height. Check the retainer against the stem seal
    as well: it may touch first. Valid for lifts up to 20 mm.

    References
    ----------
    Derived above as a difference.

    Examples
    --------
    >>> left = coil_bind_clearance(installed_height=0.037, lift=0.0105, solid_height=0.0245)
    >>> round(left * 1e3, 1)
    2.0
    """
    _check_lift(lift)
    within("installed height", installed_height, 0.015, 0.08, MILLIMETRES)
    return installed_height - lift - solid_height


def _check_lift(lift: float) -> None:
    """Refuse a lift no car engine has."""
    within("valve lift", lift, 0, 0.02, MILLIMETRES)
