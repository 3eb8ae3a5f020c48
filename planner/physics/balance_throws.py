"""Which cranks need bobweights: what the throws leave unbalanced, in force and couple."""

import cmath
import math

from planner.physics.bounds import within
from planner.physics.registry import Q, outside, physics
from planner.units import LENGTH, MASS, NONE

Row = tuple[tuple[float, ...], ...]


@physics(
    returns={"force_share": Q(NONE), "couple_arm": Q(LENGTH)},
    citation="derived",
    validity="equal masses on all throws",
    throw_angles=Q(NONE, grid=True),
    positions=Q(LENGTH, grid=True),
)
def throw_unbalance(*, throw_angles: Row, positions: Row) -> dict[str, float]:
    r"""Work out what equal masses on a crank's throws leave unbalanced.

    Parameters
    ----------
    throw_angles
        One row: the angle of each throw about the axis. [rad]
    positions
        One row: the place of each throw along the crank. [m]

    Returns
    -------
    dict
        force_share, the unbalanced force over that of one throw [-]; couple_arm, the
        unbalanced couple about the middle over the force of one throw [m].

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    :math:`|\sum e^{i\theta}|` and :math:`|\sum (z - \bar z) e^{i\theta}|`. Both are zero
    for a mirrored crank, such as an in-line four or six: it spins bare. Any other needs
    bobweights in the machine, or the couple on its drawing. Counterweights are not counted:
    this is what the rods bring.

    References
    ----------
    Derived above from the sum of rotating forces.

    Examples
    --------
    >>> three = throw_unbalance(
    ...     throw_angles=((0.0, 2.0943951, 4.1887902),), positions=((0.0, 0.1, 0.2),)
    ... )
    >>> round(abs(three["force_share"]), 6), round(three["couple_arm"], 4)
    (0.0, 0.1732)
    """
    angles, places = throw_angles[0], positions[0]
    if not 1 <= len(angles) == len(places) <= 16:
        outside(
            "list of throws",
            f"{len(angles)} angles and {len(places)} places",
            "as many places as angles, up to 16",
            "Write one angle and one place for each throw, from the front.",
        )
    middle = math.fsum(places) / len(places)
    pairs = list(zip(angles, places, strict=True))
    force = sum(cmath.exp(1j * angle) for angle, _ in pairs)
    couple = sum((place - middle) * cmath.exp(1j * angle) for angle, place in pairs)
    return {"force_share": abs(force), "couple_arm": abs(couple)}


@physics(
    returns={"along": Q(MASS), "across": Q(MASS)},
    citation="derived",
    validity="two rods on one pin, vee angles 0 to 180 degrees",
    rises={
        "along": ("reciprocating_mass",),
        "across": ("reciprocating_mass", "vee_angle"),
    },
    falls={"along": ("vee_angle",)},
    reciprocating_mass=Q(MASS),
    vee_angle=Q(NONE, "angle"),
)
def vee_primary(*, reciprocating_mass: float, vee_angle: float) -> dict[str, float]:
    r"""Work out the primary force of two pistons on one pin, as turning masses.

    Parameters
    ----------
    reciprocating_mass
        Reciprocating mass of one cylinder. [kg]
    vee_angle
        Angle between the two banks. [rad]

    Returns
    -------
    dict
        along and across: the mass at crank radius whose force equals the greatest primary
        force in line with the middle of the V, and square to it. [kg]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The two forces trace an ellipse with half axes :math:`2 m \cos^2(\gamma/2)` and
    :math:`2 m \sin^2(\gamma/2)`. At 90 degrees it is a circle, which a counterweight of one
    m cancels whole: half of both pistons, the factor 0.5.

    References
    ----------
    Derived above from the slider-crank's primary force.

    Examples
    --------
    >>> sixty = vee_primary(reciprocating_mass=0.62, vee_angle=1.0471976)
    >>> round(sixty["along"], 3), round(sixty["across"], 3)
    (0.93, 0.31)
    """
    within("vee angle", vee_angle, 0, math.pi, ("deg", 180 / math.pi))
    return {
        "along": 2 * reciprocating_mass * math.cos(vee_angle / 2) ** 2,
        "across": 2 * reciprocating_mass * math.sin(vee_angle / 2) ** 2,
    }
