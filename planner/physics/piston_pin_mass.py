"""What the piston pin weighs, and what a tapered inside saves."""

import math

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.piston_pin import OUTSIDE, PLAIN_LENGTH, inside_ratio
from planner.physics.registry import Q, physics
from planner.units import DENSITY, MASS

DENSITY_OF_PIN = Q(DENSITY)


@physics(
    returns=Q(MASS),
    citation="derived",
    validity="inside over outside diameter 0.35 to 0.75",
    rises=("outside", "wall", "length", "density"),
    outside=OUTSIDE,
    wall=PLAIN_LENGTH,
    length=PLAIN_LENGTH,
    density=DENSITY_OF_PIN,
)
def pin_mass(*, outside: float, wall: float, length: float, density: float) -> float:
    """Work out the mass of a piston pin with a straight inside.

    Parameters
    ----------
    outside, wall, length
        Outside diameter, wall and overall length of the pin. [m]
    density
        Density of the pin's material. [kg/m**3]

    Returns
    -------
    float
        Mass, end chamfers not taken off. [kg]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Ring area pi w (d - w) times length times density. Valid for inside over outside
    diameter 0.35 to 0.75.

    References
    ----------
    Derived above from the volume of a tube.

    Examples
    --------
    >>> mass = pin_mass(outside=0.022, wall=0.0055, length=0.058, density=7850.0)
    >>> round(mass * 1e3)
    130
    """
    inside_ratio(outside, wall)
    return math.pi * wall * (outside - wall) * length * density


@physics(
    returns=Q(MASS),
    citation="derived",
    validity="end hole between the straight inside and the outside diameter",
    rises=("wall", "end_inside", "taper_length", "density"),
    outside=OUTSIDE,
    wall=PLAIN_LENGTH,
    length=PLAIN_LENGTH,
    end_inside=OUTSIDE,
    taper_length=PLAIN_LENGTH,
    density=DENSITY_OF_PIN,
)
def pin_taper_saving(
    *,
    outside: float,
    wall: float,
    length: float,
    end_inside: float,
    taper_length: float,
    density: float,
) -> float:
    r"""Work out the mass saved by tapering the inside of a piston pin at both ends.

    Parameters
    ----------
    outside, wall, length
        Outside diameter, wall at the middle and overall length of the pin. [m]
    end_inside
        Inside diameter at the end face. [m]
    taper_length
        Length of each taper, measured in from the end face. [m]
    density
        Density of the pin's material. [kg/m**3]

    Returns
    -------
    float
        Mass saved, both ends together. [kg]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Two cone frustums less the straight hole they replace:
    :math:`2 \rho \frac{\pi}{12} l (d_e^2 + d_e d_i - 2 d_i^2)`. The full wall stays in
    the middle, where the bending and the oval growth are; the tapers must not reach it.

    References
    ----------
    Derived above from the volume of a frustum.

    Examples
    --------
    >>> saved = pin_taper_saving(
    ...     outside=0.022,
    ...     wall=0.005,
    ...     length=0.058,
    ...     end_inside=0.015,
    ...     taper_length=0.014,
    ...     density=7850.0,
    ... )
    >>> round(saved * 1e3, 1)
    6.7
    """
    inside = inside_ratio(outside, wall) * outside
    within(
        "inside diameter at the pin's end",
        end_inside,
        inside,
        0.95 * outside,
        MILLIMETRES,
        remedy="The taper opens outward: the end is wider than the middle, and has a wall.",
    )
    within(
        "taper length",
        taper_length,
        0,
        length / 2,
        MILLIMETRES,
        remedy="The two tapers may not meet; keep the full wall in the middle.",
    )
    areas = end_inside**2 + end_inside * inside - 2 * inside**2
    return 2 * density * math.pi / 12 * taper_length * areas
