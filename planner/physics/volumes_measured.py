"""Volumes measured by pouring, and what a skim of the head takes away."""

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.geometry import piston_area
from planner.physics.geometry_limits import CUBIC_CENTIMETRES, hold_positive
from planner.physics.registry import Q, physics
from planner.units.dimension import LENGTH, NONE, VOLUME

_DIAMETER = Q(LENGTH, "diameter")
_LENGTH = Q(LENGTH)
_VOLUME = Q(VOLUME)


@physics(
    returns=_VOLUME,
    citation="derived",
    validity="piston level, sealed with grease down to the top ring",
    rises=("poured",),
    falls=("bore", "depth"),
    poured=_VOLUME,
    bore=_DIAMETER,
    depth=_LENGTH,
)
def crown_volume_from_pour(*, poured: float, bore: float, depth: float) -> float:
    """Work out the crown volume from liquid poured on the piston down its bore.

    Parameters
    ----------
    poured
        Liquid that fills the bore to the deck. [m**3]
    bore
        Diameter of that bore. [m]
    depth
        Flat of the crown below the deck while pouring. [m]

    Returns
    -------
    float
        Crown volume: a dish is positive, a dome negative. [m**3]

    Raises
    ------
    OutsideValidity
        When the poured volume or the depth is not above zero.

    Notes
    -----
    Poured volume less the plain cylinder, pi / 4 B^2 times depth. The grease keeps the
    liquid out of the room round the top land, so that room is not in the answer and
    `clearance_volume` adds it on its own; without grease it would be counted twice.

    References
    ----------
    Derived above from the cylinder.

    Examples
    --------
    >>> dish = crown_volume_from_pour(poured=45e-6, bore=0.086, depth=0.006)
    >>> round(dish * 1e6, 3)
    10.147
    """
    hold_positive("poured volume", poured, CUBIC_CENTIMETRES)
    hold_positive("depth of the piston", depth, MILLIMETRES)
    return poured - piston_area(bore=bore) * depth


@physics(
    returns=_VOLUME,
    citation="derived",
    validity="skims up to 2 mm",
    rises=("chamber",),
    falls=("skim", "bore", "area_share"),
    chamber=_VOLUME,
    skim=_LENGTH,
    bore=_DIAMETER,
    area_share=Q(NONE),
)
def chamber_after_skim(*, chamber: float, skim: float, bore: float, area_share: float) -> float:
    """Work out the chamber volume left after the head face is skimmed.

    Parameters
    ----------
    chamber
        Chamber volume as measured before the skim. [m**3]
    skim
        Metal taken off the head face. [m]
    bore
        Diameter of the bore. [m]
    area_share
        Area of the chamber's mouth over the area of the bore. [-]

    Returns
    -------
    float
        Chamber volume after the skim. [m**3]

    Raises
    ------
    OutsideValidity
        When the skim is negative or above 2 mm, the share outside 0.3 to 1.1, or nothing
        is left of the chamber.

    Notes
    -----
    Valid while the walls of the chamber stand square to the face over the skim; a sloping
    chamber loses its mouth as it is skimmed. Measure again after the cut.

    References
    ----------
    Derived above from the cylinder.

    Examples
    --------
    >>> left = chamber_after_skim(chamber=48e-6, skim=0.0001, bore=0.086, area_share=0.75)
    >>> round(left * 1e6, 2)
    47.56
    """
    within("skim", skim, 0.0, 0.002, MILLIMETRES, remedy="Weld and re-form the chamber instead.")
    remedy = "Give the chamber mouth as a share of the bore area, near 0.75."
    within("area share", area_share, 0.3, 1.1, remedy=remedy)
    left = chamber - area_share * piston_area(bore=bore) * skim
    hold_positive("chamber after the skim", left, CUBIC_CENTIMETRES)
    return left
