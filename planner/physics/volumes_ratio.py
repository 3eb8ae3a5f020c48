"""The volume left at top centre, the compression ratio it makes, and the crown it asks for."""

from planner.physics.bounds import within
from planner.physics.geometry_limits import CUBIC_CENTIMETRES, hold_positive
from planner.physics.registry import Q, physics
from planner.units.dimension import NONE, VOLUME

_VOLUME = Q(VOLUME)


@physics(
    returns=_VOLUME,
    citation="derived",
    validity="any cylinder with something left at top centre",
    rises=("chamber", "gasket", "deck", "crown", "crevice"),
    chamber=_VOLUME,
    gasket=_VOLUME,
    deck=_VOLUME,
    crown=_VOLUME,
    crevice=_VOLUME,
)
def clearance_volume(
    *, chamber: float, gasket: float, deck: float, crown: float, crevice: float
) -> float:
    """Add up the volume left above the piston at top centre.

    Parameters
    ----------
    chamber
        Chamber volume in the head, valves and plug fitted. [m**3]
    gasket
        Volume of the gasket's opening. [m**3]
    deck
        Volume between crown flat and deck; negative when proud. [m**3]
    crown
        Volume of the crown: a dish is positive, a dome negative. [m**3]
    crevice
        Volume round the top land. [m**3]

    Returns
    -------
    float
        Clearance volume. [m**3]

    Raises
    ------
    OutsideValidity
        When nothing would be left above the piston.

    Notes
    -----
    A plain sum.

    References
    ----------
    Derived above from the definition.

    Examples
    --------
    >>> volume = clearance_volume(
    ...     chamber=48.5e-6, gasket=5.9447e-6, deck=1.1618e-6, crown=10e-6, crevice=0.4846e-6
    ... )
    >>> round(volume * 1e6, 3)
    66.091
    """
    total = chamber + gasket + deck + crown + crevice
    hold_positive("volume above the piston", total, CUBIC_CENTIMETRES)
    return total


@physics(
    returns=Q(NONE),
    citation="derived",
    validity="any cylinder",
    rises=("swept",),
    falls=("clearance",),
    swept=_VOLUME,
    clearance=_VOLUME,
)
def volume_ratio(*, swept: float, clearance: float) -> float:
    """Give the static compression ratio two volumes make.

    Parameters
    ----------
    swept
        Swept volume of one cylinder. [m**3]
    clearance
        Volume left at top centre. [m**3]

    Returns
    -------
    float
        Static compression ratio. [-]

    Raises
    ------
    OutsideValidity
        When either volume is not above zero.

    Notes
    -----
    (swept + clearance) / clearance.

    References
    ----------
    Derived above from the definition; Heywood, Internal Combustion Engine Fundamentals,
    1988, eq. 2.1, from memory.

    Examples
    --------
    >>> round(volume_ratio(swept=499.557e-6, clearance=66.091e-6), 3)
    8.559
    """
    hold_positive("swept volume", swept, CUBIC_CENTIMETRES)
    hold_positive("clearance volume", clearance, CUBIC_CENTIMETRES)
    return (swept + clearance) / clearance


@physics(
    returns=_VOLUME,
    citation="derived",
    validity="ratios from 5 to 20",
    rises=("swept",),
    falls=("ratio", "chamber", "gasket", "deck", "crevice"),
    swept=_VOLUME,
    ratio=Q(NONE),
    chamber=_VOLUME,
    gasket=_VOLUME,
    deck=_VOLUME,
    crevice=_VOLUME,
)
def crown_volume_needed(
    *, swept: float, ratio: float, chamber: float, gasket: float, deck: float, crevice: float
) -> float:
    """Work out the crown volume that gives a wanted static compression ratio.

    Parameters
    ----------
    swept
        Swept volume of one cylinder. [m**3]
    ratio
        Wanted static compression ratio. [-]
    chamber
        Chamber volume in the head, after any skim. [m**3]
    gasket
        Volume of the gasket's opening. [m**3]
    deck
        Volume between crown flat and deck; negative when proud. [m**3]
    crevice
        Volume round the top land. [m**3]

    Returns
    -------
    float
        Crown volume to order: a dish is positive, a dome negative. [m**3]

    Raises
    ------
    OutsideValidity
        When the ratio is below 5 or above 20, or the swept volume is not above zero.

    Notes
    -----
    swept / (ratio - 1) less all the other volumes.

    References
    ----------
    Derived above from `volume_ratio`.

    Examples
    --------
    >>> dish = crown_volume_needed(
    ...     swept=499.557e-6,
    ...     ratio=8.8,
    ...     chamber=48.5e-6,
    ...     gasket=5.9447e-6,
    ...     deck=1.1618e-6,
    ...     crevice=0.4846e-6,
    ... )
    >>> round(dish * 1e6, 3)
    7.955
    """
    hold_positive("swept volume", swept, CUBIC_CENTIMETRES)
    within("compression ratio", ratio, 5.0, 20.0, remedy="Give a petrol engine's ratio.")
    return swept / (ratio - 1.0) - chamber - gasket - deck - crevice
