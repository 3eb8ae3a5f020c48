"""Bearing shells: the load they carry and how crush holds them in the housing."""

import math

from planner.physics.bearing_clearance import (
    DIAMETER,
    SPEED_OF_ROTATION,
    WALL,
    check_journal,
    check_wall,
)
from planner.physics.bounds import MILLIMETRES, within
from planner.physics.piston_pin import BORE, GAUGE, STRESS, piston_gas_force
from planner.physics.registry import Q, physics
from planner.physics.rods import crank_ratio
from planner.units import FORCE, LENGTH, MASS


@physics(
    returns=STRESS,
    citation="derived",
    validity="bearing width 0.1 to 1.5 of the journal diameter",
    rises=("force",),
    falls=("journal", "width"),
    force=Q(FORCE),
    journal=DIAMETER,
    width=Q(LENGTH),
)
def bearing_specific_load(*, force: float, journal: float, width: float) -> float:
    """Work out the load of a bearing for each unit of projected area.

    Parameters
    ----------
    force
        Load on the journal. [N]
    journal
        Diameter of the journal. [m]
    width
        Width of the shell that carries, chamfers and grooves taken off. [m]

    Returns
    -------
    float
        Specific load. [Pa]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Load over diameter times width, as lining makers state their limits.

    References
    ----------
    Derived above from load over projected area.

    Examples
    --------
    >>> load = bearing_specific_load(force=39860.0, journal=0.048, width=0.019)
    >>> round(load / 1e6, 1)
    43.7
    """
    check_journal(journal)
    within("bearing width", width, 0.1 * journal, 1.5 * journal, MILLIMETRES)
    return force / (journal * width)


@physics(
    returns=Q(FORCE),
    citation="derived; slider-crank as in Heywood, Internal Combustion Engine Fundamentals, ch. 2",
    validity="rod length 1.1 to 3 strokes",
    rises=("bore", "pressure", "rod_length"),
    falls=("reciprocating_mass", "rotating_mass", "stroke", "speed"),
    bore=BORE,
    pressure=GAUGE,
    reciprocating_mass=Q(MASS),
    rotating_mass=Q(MASS),
    stroke=Q(LENGTH),
    rod_length=Q(LENGTH),
    speed=SPEED_OF_ROTATION,
)
def big_end_firing_load(
    *,
    bore: float,
    pressure: float,
    reciprocating_mass: float,
    rotating_mass: float,
    stroke: float,
    rod_length: float,
    speed: float,
) -> float:
    r"""Work out the load of a big end at firing top centre: gas less inertia.

    Parameters
    ----------
    bore
        Finished bore. [m]
    pressure
        Highest cylinder pressure. [Pa]
    reciprocating_mass
        Piston, pin, rings and the small-end share of the rod. [kg]
    rotating_mass
        Big-end share of the rod, with shells. [kg]
    stroke, rod_length
        Stroke and rod length between centres. [m]
    speed
        Crank speed at which that pressure stands. [rad/s]

    Returns
    -------
    float
        Force on the journal, pushing it down; below zero inertia wins. [N]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    :math:`P - [m_o (1 + \lambda) + m_r] r \omega^2`, :math:`\lambda = r/l`, with the
    peak pressure placed at top centre itself, where inertia relieves it most; some degrees
    later it relieves a little less. The lower the speed, the higher the load: full boost
    at low revs is the worst the shells see.

    References
    ----------
    Derived above from the slider-crank, whose motion is in J. B. Heywood, Internal
    Combustion Engine Fundamentals, chapter 2.

    Examples
    --------
    >>> load = big_end_firing_load(
    ...     bore=0.086,
    ...     pressure=12e6,
    ...     reciprocating_mass=0.625,
    ...     rotating_mass=0.38,
    ...     stroke=0.086,
    ...     rod_length=0.143,
    ...     speed=314.16,
    ... )
    >>> round(load)
    64643
    """
    pull = reciprocating_mass * (1 + crank_ratio(stroke, rod_length)) + rotating_mass
    return piston_gas_force(bore=bore, pressure=pressure) - pull * stroke / 2 * speed**2


@physics(
    returns=STRESS,
    citation="derived",
    validity="crush up to 0.2 mm for each half",
    rises=("crush_per_half", "elastic_modulus"),
    falls=("housing",),
    crush_per_half=Q(LENGTH),
    housing=DIAMETER,
    elastic_modulus=STRESS,
)
def shell_crush_stress(*, crush_per_half: float, housing: float, elastic_modulus: float) -> float:
    """Work out the hoop stress that crush puts into a shell.

    Parameters
    ----------
    crush_per_half
        How much longer the half shell is than the half housing, along its back. [m]
    housing
        Inside diameter of the housing. [m]
    elastic_modulus
        Young's modulus of the shell's steel back. [Pa]

    Returns
    -------
    float
        Compressive hoop stress. [Pa]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The half shell, pi D/2 long, is squeezed by its crush; friction on the back and the
    housing's give are left out, so the figure is high.

    References
    ----------
    Derived above from Hooke's law.

    Examples
    --------
    >>> stress = shell_crush_stress(crush_per_half=0.04e-3, housing=0.051, elastic_modulus=205e9)
    >>> round(stress / 1e6)
    102
    """
    within("crush of one half", crush_per_half, 0, 0.2e-3, MILLIMETRES)
    within("bearing housing", housing, 0.02, 0.16, MILLIMETRES)
    return elastic_modulus * crush_per_half / (math.pi * housing / 2)


@physics(
    returns=STRESS,
    citation="derived",
    validity="crush up to 0.2 mm for each half; walls 0.5 to 5 mm",
    rises=("crush_per_half", "wall", "elastic_modulus"),
    falls=("housing",),
    crush_per_half=Q(LENGTH),
    housing=DIAMETER,
    wall=WALL,
    elastic_modulus=STRESS,
)
def shell_crush_pressure(
    *, crush_per_half: float, housing: float, wall: float, elastic_modulus: float
) -> float:
    """Work out the pressure with which crush seats a shell in its housing.

    Parameters
    ----------
    crush_per_half
        How much longer the half shell is than the half housing, along its back. [m]
    housing
        Inside diameter of the housing. [m]
    wall
        Wall of the shell. [m]
    elastic_modulus
        Young's modulus of the shell's steel back. [Pa]

    Returns
    -------
    float
        Pressure between shell and housing. [Pa]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    A thin hoop under the crush stress presses outward with stress times wall over the
    housing radius. Too little lets the shell spin, too much bends its edges inward.

    References
    ----------
    Derived above from the equilibrium of a thin hoop.

    Examples
    --------
    >>> pressure = shell_crush_pressure(
    ...     crush_per_half=0.04e-3, housing=0.051, wall=0.0015, elastic_modulus=205e9
    ... )
    >>> round(pressure / 1e6, 1)
    6.0
    """
    check_wall("shell wall", wall)
    stress = shell_crush_stress(
        crush_per_half=crush_per_half, housing=housing, elastic_modulus=elastic_modulus
    )
    return stress * wall / (housing / 2)
