"""Ring end gaps from expansion, side and back clearance."""

from math import pi

from planner.physics.bounds import KELVINS, MILLIMETRES, within
from planner.physics.geometry_limits import PER_MILLION, hold_positive
from planner.physics.registry import Q, physics
from planner.units.dimension import LENGTH, PER_KELVIN, TEMPERATURE

_DIAMETER = Q(LENGTH, "diameter")
_GAP = Q(LENGTH, "gap")
_LENGTH = Q(LENGTH)
_EXPANSION = Q(PER_KELVIN)
_RISE = Q(TEMPERATURE, "rise")


@physics(
    returns=_GAP,
    citation="derived from linear expansion",
    validity="bores 60 to 130 mm; expansions 8 to 30 per million; rises 0 to 500 K",
    rises=("hot_gap", "ring_expansion", "ring_rise"),
    falls=("bore_expansion", "bore_rise"),
    bore=_DIAMETER,
    hot_gap=_GAP,
    bore_expansion=_EXPANSION,
    bore_rise=_RISE,
    ring_expansion=_EXPANSION,
    ring_rise=_RISE,
)
def ring_end_gap_thermal(
    *,
    bore: float,
    hot_gap: float,
    bore_expansion: float,
    bore_rise: float,
    ring_expansion: float,
    ring_rise: float,
) -> float:
    """Work out the cold end gap that leaves a wanted gap when ring and bore are hot.

    Parameters
    ----------
    bore
        Finished bore at the reference temperature, plate on. [m]
    hot_gap
        Gap to be left when hot; zero is the ends just touching. [m]
    bore_expansion, ring_expansion
        Linear thermal expansion of cylinder and ring. [1/K]
    bore_rise, ring_rise
        Rise of the bore at the top of ring travel, and of the ring, above the reference
        temperature. [K]

    Returns
    -------
    float
        Cold ring end gap, ring square in the bore. Below zero: the gap only opens. [m]

    Raises
    ------
    OutsideValidity
        When bore, an expansion or a rise is outside the validity.

    Notes
    -----
    The ring lies on the circle of the bore less its gap:
    g = pi B - [pi B (1 + a_b T_b) - g_hot] / (1 + a_r T_r), exact for linear expansion.
    A bore out of round and a ring out of contact are left out; so is warm-up, when the ring
    is hot and the bore is not.

    References
    ----------
    Derived above from linear expansion.

    Examples
    --------
    >>> gap = ring_end_gap_thermal(
    ...     bore=0.086,
    ...     hot_gap=0.0,
    ...     bore_expansion=11e-6,
    ...     bore_rise=98.0,
    ...     ring_expansion=11e-6,
    ...     ring_rise=158.0,
    ... )
    >>> round(gap * 1e3, 3)
    0.178
    """
    remedy = "Outside it use the ring maker's sheet."
    within("bore", bore, 0.060, 0.130, MILLIMETRES, remedy=remedy)
    remedy = "Give the expansion for each kelvin, for example 11e-6 1/K."
    within("expansion of the bore", bore_expansion, 8e-6, 30e-6, PER_MILLION, remedy=remedy)
    within("expansion of the ring", ring_expansion, 8e-6, 30e-6, PER_MILLION, remedy=remedy)
    remedy = "Give the rise over the 20 degC the parts are measured at."
    within("temperature rise of the bore", bore_rise, 0.0, 500.0, KELVINS, remedy=remedy)
    within("temperature rise of the ring", ring_rise, 0.0, 500.0, KELVINS, remedy=remedy)
    hot_ring = pi * bore * (1.0 + bore_expansion * bore_rise) - hot_gap
    return pi * bore - hot_ring / (1.0 + ring_expansion * ring_rise)


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="round bores",
    rises=("bore_change",),
    bore_change=_LENGTH,
)
def ring_gap_change(*, bore_change: float) -> float:
    """Work out how much a ring end gap opens when its bore is made larger.

    Parameters
    ----------
    bore_change
        Growth of the bore's diameter; negative where the bore is smaller. [m]

    Returns
    -------
    float
        Growth of the end gap. [m]

    Notes
    -----
    pi times the change of diameter, so a gap filed in the wrong place of a tapered bore is
    wrong by three times the taper.

    References
    ----------
    Derived above from the circle.

    Examples
    --------
    >>> round(ring_gap_change(bore_change=0.00001) * 1e3, 3)
    0.031
    """
    return pi * bore_change


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="plain rectangular grooves",
    rises=("groove_height",),
    falls=("ring_height",),
    groove_height=_LENGTH,
    ring_height=_LENGTH,
)
def ring_side_clearance(*, groove_height: float, ring_height: float) -> float:
    """Work out the side clearance of a ring in its groove.

    Parameters
    ----------
    groove_height
        Height of the ring groove. [m]
    ring_height
        Height of the ring. [m]

    Returns
    -------
    float
        Groove height less ring height. [m]

    Raises
    ------
    OutsideValidity
        When a size is not above zero.

    Notes
    -----
    Negative means that the ring does not enter the groove.

    References
    ----------
    Derived above from the sizes.

    Examples
    --------
    >>> round(ring_side_clearance(groove_height=0.00124, ring_height=0.0012) * 1e3, 3)
    0.04
    """
    hold_positive("groove height", groove_height, MILLIMETRES)
    hold_positive("ring height", ring_height, MILLIMETRES)
    return groove_height - ring_height


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="plain rectangular grooves",
    rises=("groove_depth",),
    falls=("ring_thickness",),
    groove_depth=_LENGTH,
    ring_thickness=_LENGTH,
)
def ring_back_clearance(*, groove_depth: float, ring_thickness: float) -> float:
    """Work out how far a ring goes below its land when pushed home.

    Parameters
    ----------
    groove_depth
        Depth of the ring groove from the land. [m]
    ring_thickness
        Thickness of the ring, across the bore. [m]

    Returns
    -------
    float
        Groove depth less ring thickness. [m]

    Raises
    ------
    OutsideValidity
        When a size is not above zero.

    Notes
    -----
    Negative means that the ring stands proud of the land: the piston cannot enter.

    References
    ----------
    Derived above from the sizes.

    Examples
    --------
    >>> round(ring_back_clearance(groove_depth=0.0031, ring_thickness=0.003) * 1e3, 3)
    0.1
    """
    hold_positive("groove depth", groove_depth, MILLIMETRES)
    hold_positive("ring thickness", ring_thickness, MILLIMETRES)
    return groove_depth - ring_thickness
