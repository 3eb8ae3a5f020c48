"""The piston pin as a beam: gas load, bending and shear."""

import math

from planner.physics.bounds import MILLIMETRES, PLAIN, within
from planner.physics.registry import Q, outside, physics
from planner.units import FORCE, LENGTH, PRESSURE

BORE = Q(LENGTH, "diameter")
GAUGE = Q(PRESSURE, "gauge")
OUTSIDE = Q(LENGTH, "diameter")
STRESS = Q(PRESSURE, "stress")
PLAIN_LENGTH = Q(LENGTH)
KOLCHIN = (
    "A. Kolchin and V. Demidov, Design of Automotive Engines (Mir, 1984), piston pin; "
    "from memory, not opened"
)


@physics(
    returns=Q(FORCE),
    citation="derived",
    validity="any bore and pressure",
    rises=("bore", "pressure"),
    bore=BORE,
    pressure=GAUGE,
)
def piston_gas_force(*, bore: float, pressure: float) -> float:
    """Work out the gas force on a piston at peak pressure.

    Parameters
    ----------
    bore
        Finished bore. [m]
    pressure
        Highest cylinder pressure that the parts are to stand. [Pa]

    Returns
    -------
    float
        Force along the bore. [N]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Pressure times bore area. The crankcase pressure under the crown is taken as that of
    the air, and the piston's own inertia, which relieves the load, is left out.

    References
    ----------
    Derived above from the definition of pressure.

    Examples
    --------
    >>> round(piston_gas_force(bore=0.086, pressure=12e6))
    69706
    """
    within("bore", bore, 0.02, 0.3, MILLIMETRES)
    return pressure * math.pi / 4 * bore**2


def inside_ratio(outside_diameter: float, wall: float) -> float:
    """Give inside over outside diameter, refused where the pin formulas do not hold."""
    within("pin outside diameter", outside_diameter, 0.008, 0.06, MILLIMETRES)
    ratio = 1 - 2 * wall / outside_diameter
    within(
        "pin inside diameter over outside diameter",
        ratio,
        0.35,
        0.75,
        PLAIN,
        remedy="Choose a wall between about 0.13 and 0.32 of the pin diameter.",
    )
    return ratio


def bearing_length(length: float, boss_gap: float) -> float:
    """Give the length of pin inside both bosses together."""
    if not 0 < boss_gap < length:
        outside(
            "gap between the pin bosses",
            f"{boss_gap * 1e3:.6g} mm",
            f"0 to the pin length, {length * 1e3:.6g} mm",
            "Measure the pin and the gap between the bosses again.",
        )
    return length - boss_gap


@physics(
    returns=STRESS,
    citation="derived",
    validity="inside over outside diameter 0.35 to 0.75; small end no wider than the boss gap",
    rises=("bore", "pressure", "length", "boss_gap"),
    falls=("outside", "wall", "small_end_width"),
    bore=BORE,
    pressure=GAUGE,
    outside=OUTSIDE,
    wall=PLAIN_LENGTH,
    length=PLAIN_LENGTH,
    boss_gap=PLAIN_LENGTH,
    small_end_width=PLAIN_LENGTH,
)
def pin_bending_stress(
    *,
    bore: float,
    pressure: float,
    outside: float,
    wall: float,
    length: float,
    boss_gap: float,
    small_end_width: float,
) -> float:
    r"""Work out the bending stress at the middle of the piston pin.

    Parameters
    ----------
    bore
        Finished bore. [m]
    pressure
        Highest cylinder pressure. [Pa]
    outside, wall, length
        Outside diameter, wall at the middle and overall length of the pin. [m]
    boss_gap
        Clear distance between the two pin bosses. [m]
    small_end_width
        Width of the rod's small end. [m]

    Returns
    -------
    float
        Stress in the outermost fibre. [Pa]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The small end carries its load evenly over its width; each boss reacts with a triangle
    of load, highest at its inner edge, whose centre lies a third of the boss length in.
    Half the load P times that lever, less the part of the small end's own load, gives
    :math:`M = P (L + 2 b - 1.5 a) / 12`, and the stress is M over
    :math:`\pi d^3 (1 - \alpha^4) / 32`. The piston's give, which moves the load inward,
    and inertia relief are left out, so the figure is high.
    Valid for inside over outside diameter 0.35 to 0.75.

    References
    ----------
    Derived above from beam bending.

    Examples
    --------
    >>> stress = pin_bending_stress(
    ...     bore=0.086,
    ...     pressure=12e6,
    ...     outside=0.022,
    ...     wall=0.0055,
    ...     length=0.058,
    ...     boss_gap=0.026,
    ...     small_end_width=0.022,
    ... )
    >>> round(stress / 1e6)
    456
    """
    ratio = inside_ratio(outside, wall)
    bearing_length(length, boss_gap)
    within(
        "small-end width",
        small_end_width,
        0.2 * boss_gap,
        boss_gap,
        MILLIMETRES,
        remedy="The small end must fit between the bosses; measure both again.",
    )
    force = piston_gas_force(bore=bore, pressure=pressure)
    moment = force * (length + 2 * boss_gap - 1.5 * small_end_width) / 12
    return moment / (math.pi / 32 * outside**3 * (1 - ratio**4))


@physics(
    returns=STRESS,
    citation=KOLCHIN,
    validity="inside over outside diameter 0.35 to 0.75",
    rises=("bore", "pressure"),
    falls=("outside", "wall"),
    bore=BORE,
    pressure=GAUGE,
    outside=OUTSIDE,
    wall=PLAIN_LENGTH,
)
def pin_shear_stress(*, bore: float, pressure: float, outside: float, wall: float) -> float:
    r"""Work out the largest shear stress between the bosses and the small end.

    Parameters
    ----------
    bore
        Finished bore. [m]
    pressure
        Highest cylinder pressure. [Pa]
    outside, wall
        Outside diameter and wall of the pin. [m]

    Returns
    -------
    float
        Largest shear stress, at the neutral line of the section. [Pa]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    :math:`0.85 P (1 + \alpha + \alpha^2) / [(1 - \alpha^4) d^2]` with alpha the inside over
    the outside diameter. It is VQ/(I t) of a tube for half the load:
    :math:`8 / (3 \pi) = 0.849`. Valid for alpha 0.35 to 0.75.

    References
    ----------
    A. Kolchin and V. Demidov, Design of Automotive Engines (Mir, 1984), piston pin; from
    memory, not opened. The factor follows from the shear formula of a tube.

    Examples
    --------
    >>> round(pin_shear_stress(bore=0.086, pressure=12e6, outside=0.022, wall=0.005) / 1e6)
    248
    """
    ratio = inside_ratio(outside, wall)
    force = piston_gas_force(bore=bore, pressure=pressure)
    return 0.85 * force * (1 + ratio + ratio**2) / ((1 - ratio**4) * outside**2)
