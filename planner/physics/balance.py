"""Balancing a crank: what is allowed to stay, how it splits, and what hangs on the pins."""

import math

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.registry import Q, physics
from planner.units import LENGTH, MASS, NONE, ROTATION, SPEED, UNBALANCE

PLAIN_LENGTH = Q(LENGTH)
MASS_OF_PART = Q(MASS)
SHARE = Q(NONE)


@physics(
    returns=Q(UNBALANCE),
    citation="ISO 21940-11, balance quality grades; published, not opened",
    validity="rigid rotors, grades 0.4 to 4000 mm/s",
    rises=("grade", "rotor_mass"),
    falls=("speed",),
    grade=Q(SPEED),
    rotor_mass=MASS_OF_PART,
    speed=Q(ROTATION, "speed of rotation"),
)
def permissible_unbalance(*, grade: float, rotor_mass: float, speed: float) -> float:
    r"""Work out the unbalance a grade allows to stay in a crank, both planes together.

    Parameters
    ----------
    grade
        Balance grade G: speed of the centre of mass about the axis. [m/s]
    rotor_mass
        Mass of the crank, with what turns with it. [kg]
    speed
        Highest speed. [rad/s]

    Returns
    -------
    float
        Permissible residual unbalance. [kg*m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    :math:`U = G m / \omega`. G 6.3 is 6.3 mm/s. Valid for rotors that do not bend at speed,
    grades of 0.4 to 4000 mm/s.

    References
    ----------
    ISO 21940-11, Mechanical vibration: rotor balancing, procedures and tolerances for
    rotors with rigid behaviour; not opened, the relation seen in public copies.

    Examples
    --------
    >>> unbalance = permissible_unbalance(grade=6.3e-3, rotor_mass=18.0, speed=785.398)
    >>> round(unbalance * 1e6, 1)
    144.4
    """
    within(
        "balance grade",
        grade,
        0.4e-3,
        4.0,
        ("mm/s", 1e3),
        remedy="Give the grade as a speed: G 6.3 is 6.3 mm/s.",
    )
    within("crank speed", speed, 10, 3000, ("rpm", 30 / math.pi))
    return grade * rotor_mass / speed


@physics(
    returns={"plane_a": Q(UNBALANCE), "plane_b": Q(UNBALANCE)},
    citation="ISO 21940-11, allocation to two planes; published, not opened",
    validity="centre of mass between the planes",
    rises={"plane_a": ("unbalance", "distance_b"), "plane_b": ("unbalance", "distance_a")},
    falls={"plane_a": ("distance_a",), "plane_b": ("distance_b",)},
    unbalance=Q(UNBALANCE),
    distance_a=PLAIN_LENGTH,
    distance_b=PLAIN_LENGTH,
)
def unbalance_planes(
    *, unbalance: float, distance_a: float, distance_b: float
) -> dict[str, float]:
    """Split a permissible unbalance between two correction planes.

    Parameters
    ----------
    unbalance
        Permissible unbalance of the whole crank. [kg*m]
    distance_a, distance_b
        Distance of each plane from the centre of mass, which lies between them. [m]

    Returns
    -------
    dict
        plane_a and plane_b, the unbalance each plane may keep. [kg*m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    As a load between two supports: the nearer plane takes the larger part. Valid while the
    centre of mass lies between the planes.

    References
    ----------
    ISO 21940-11, allocation of permissible unbalance to tolerance planes; not opened, the
    relation seen in public copies.

    Examples
    --------
    >>> split = unbalance_planes(unbalance=144.4e-6, distance_a=0.12, distance_b=0.18)
    >>> round(split["plane_a"] * 1e6, 1), round(split["plane_b"] * 1e6, 1)
    (86.6, 57.8)
    """
    within("distance of plane A", distance_a, 0.005, 2, MILLIMETRES)
    within("distance of plane B", distance_b, 0.005, 2, MILLIMETRES)
    apart = distance_a + distance_b
    return {
        "plane_a": unbalance * distance_b / apart,
        "plane_b": unbalance * distance_a / apart,
    }


@physics(
    returns=MASS_OF_PART,
    citation="derived; factor by common practice",
    validity="one or two rods on a pin; factor 0 to 1",
    rises=("rods_per_pin", "rotating_mass", "reciprocating_mass", "balance_factor", "oil_mass"),
    rods_per_pin=SHARE,
    rotating_mass=MASS_OF_PART,
    reciprocating_mass=MASS_OF_PART,
    balance_factor=SHARE,
    oil_mass=MASS_OF_PART,
)
def bobweight(
    *,
    rods_per_pin: float,
    rotating_mass: float,
    reciprocating_mass: float,
    balance_factor: float,
    oil_mass: float,
) -> float:
    """Work out the bobweight that hangs on a crank pin in the balancing machine.

    Parameters
    ----------
    rods_per_pin
        Rods on one pin: 2 in most V engines, 1 in an in-line engine. [-]
    rotating_mass
        Big-end share of one rod, with shells. [kg]
    reciprocating_mass
        Piston, pin, rings, locks and small-end share of one rod. [kg]
    balance_factor
        Share of the reciprocating mass that is balanced. [-]
    oil_mass
        Oil held in the pin. [kg]

    Returns
    -------
    float
        Mass of one bobweight. [kg]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Rods times (rotating mass + factor times reciprocating mass) plus oil. With two rods to
    a pin a factor of 0.5 balances the primary force of a 90 degree V whole and is the least
    bad choice at 60 degrees. In-line cranks of 2, 3 and 5 cylinders need bobweights too,
    or the couple on their drawing; mirrored 4- and 6-cylinder cranks spin bare, because
    their throws already cancel. The engine maker's figure goes first.

    References
    ----------
    Derived above from the primary forces; the factor is common practice.

    Examples
    --------
    >>> mass = bobweight(
    ...     rods_per_pin=2.0,
    ...     rotating_mass=0.480,
    ...     reciprocating_mass=0.620,
    ...     balance_factor=0.5,
    ...     oil_mass=0.004,
    ... )
    >>> round(mass * 1e3)
    1584
    """
    within("rods on a pin", rods_per_pin, 1, 2)
    within("balance factor", balance_factor, 0, 1)
    within("oil in a pin", oil_mass, 0, 0.1, ("g", 1e3))
    return rods_per_pin * (rotating_mass + balance_factor * reciprocating_mass) + oil_mass
