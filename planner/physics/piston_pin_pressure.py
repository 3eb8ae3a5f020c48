"""The pressures a piston pin rests on: in the bosses and in the small end."""

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.piston_pin import (
    BORE,
    GAUGE,
    OUTSIDE,
    PLAIN_LENGTH,
    STRESS,
    bearing_length,
    piston_gas_force,
)
from planner.physics.registry import physics


@physics(
    returns=STRESS,
    citation="derived",
    validity="boss gap shorter than the pin",
    rises=("bore", "pressure", "boss_gap"),
    falls=("outside", "length"),
    bore=BORE,
    pressure=GAUGE,
    outside=OUTSIDE,
    length=PLAIN_LENGTH,
    boss_gap=PLAIN_LENGTH,
)
def pin_boss_pressure(
    *, bore: float, pressure: float, outside: float, length: float, boss_gap: float
) -> float:
    """Work out the mean pressure of the pin on the piston bosses.

    Parameters
    ----------
    bore
        Finished bore. [m]
    pressure
        Highest cylinder pressure. [Pa]
    outside, length
        Outside diameter and overall length of the pin. [m]
    boss_gap
        Clear distance between the bosses. [m]

    Returns
    -------
    float
        Load over projected area, both bosses together. [Pa]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The load is spread over the whole length in the bosses; at the inner edge it is higher.
    Pin end chamfers and boss slots are not counted.

    References
    ----------
    Derived above from load over projected area.

    Examples
    --------
    >>> stress = pin_boss_pressure(
    ...     bore=0.086, pressure=12e6, outside=0.022, length=0.058, boss_gap=0.026
    ... )
    >>> round(stress / 1e6)
    99
    """
    within("pin outside diameter", outside, 0.008, 0.06, MILLIMETRES)
    force = piston_gas_force(bore=bore, pressure=pressure)
    return force / (outside * bearing_length(length, boss_gap))


@physics(
    returns=STRESS,
    citation="derived",
    validity="any pin and small end",
    rises=("bore", "pressure"),
    falls=("outside", "small_end_width"),
    bore=BORE,
    pressure=GAUGE,
    outside=OUTSIDE,
    small_end_width=PLAIN_LENGTH,
)
def pin_small_end_pressure(
    *, bore: float, pressure: float, outside: float, small_end_width: float
) -> float:
    """Work out the mean pressure of the pin on the small-end bush.

    Parameters
    ----------
    bore
        Finished bore. [m]
    pressure
        Highest cylinder pressure. [Pa]
    outside
        Outside diameter of the pin. [m]
    small_end_width
        Width of the small end; of a tapered one, its narrow upper side counts less. [m]

    Returns
    -------
    float
        Load over projected area. [Pa]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Inertia relief is left out; oil holes are not counted.

    References
    ----------
    Derived above from load over projected area.

    Examples
    --------
    >>> stress = pin_small_end_pressure(
    ...     bore=0.086, pressure=12e6, outside=0.022, small_end_width=0.022
    ... )
    >>> round(stress / 1e6)
    144
    """
    within("pin outside diameter", outside, 0.008, 0.06, MILLIMETRES)
    within("small-end width", small_end_width, 0.004, 0.08, MILLIMETRES)
    return piston_gas_force(bore=bore, pressure=pressure) / (outside * small_end_width)
