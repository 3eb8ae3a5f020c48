"""How the stack of throw, rod, piston and gasket stands to the deck and the head."""

from planner.physics.bounds import MILLIMETRES
from planner.physics.geometry_limits import hold_positive
from planner.physics.registry import Q, physics
from planner.units.dimension import LENGTH

_LENGTH = Q(LENGTH)


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="any engine with the bore square to the crank",
    rises=("deck_height",),
    falls=("stroke", "rod_length", "compression_height"),
    deck_height=_LENGTH,
    stroke=_LENGTH,
    rod_length=_LENGTH,
    compression_height=_LENGTH,
)
def deck_clearance(
    *, deck_height: float, stroke: float, rod_length: float, compression_height: float
) -> float:
    """Work out how far the flat of the crown stands below the deck at top centre.

    Parameters
    ----------
    deck_height
        Main bore centreline to deck, as it will be after any cut. [m]
    stroke
        Stroke of the crank. [m]
    rod_length
        Rod length between end centres. [m]
    compression_height
        Pin centre to flat crown. [m]

    Returns
    -------
    float
        Deck clearance, positive when the piston is below the deck. [m]

    Raises
    ------
    OutsideValidity
        When a length is not above zero.

    Notes
    -----
    Deck height less half the stroke, the rod and the compression height. Oil clearances
    and the small lift of an offset pin are left out.

    References
    ----------
    Derived above from the stack of lengths.

    Examples
    --------
    >>> stack = deck_clearance(
    ...     deck_height=0.2192, stroke=0.086, rod_length=0.143, compression_height=0.033
    ... )
    >>> round(stack * 1e3, 6)
    0.2
    """
    hold_positive("compression height", compression_height, MILLIMETRES)
    return deck_height - compression_height - _throw_and_rod(stroke, rod_length)


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="any engine with the bore square to the crank",
    rises=("deck_height",),
    falls=("stroke", "rod_length", "deck_clearance"),
    deck_height=_LENGTH,
    stroke=_LENGTH,
    rod_length=_LENGTH,
    deck_clearance=_LENGTH,
)
def compression_height_needed(
    *, deck_height: float, stroke: float, rod_length: float, deck_clearance: float
) -> float:
    """Work out the compression height that gives a wanted deck clearance.

    Parameters
    ----------
    deck_height
        Main bore centreline to deck, as it will be after any cut. [m]
    stroke
        Stroke of the crank. [m]
    rod_length
        Rod length between end centres. [m]
    deck_clearance
        Wanted deck clearance, positive when the piston is below the deck. [m]

    Returns
    -------
    float
        Pin centre to flat crown to order. [m]

    Raises
    ------
    OutsideValidity
        When a length is not above zero.

    Notes
    -----
    The stack of `deck_clearance`, solved for the piston.

    References
    ----------
    Derived above from the stack of lengths.

    Examples
    --------
    >>> height = compression_height_needed(
    ...     deck_height=0.2159, stroke=0.086, rod_length=0.143, deck_clearance=0.0001
    ... )
    >>> round(height * 1e3, 6)
    29.8
    """
    return deck_height - deck_clearance - _throw_and_rod(stroke, rod_length)


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="any engine",
    rises=("deck_clearance", "gasket_thickness"),
    falls=("pad_height",),
    deck_clearance=_LENGTH,
    gasket_thickness=_LENGTH,
    pad_height=_LENGTH,
)
def quench_distance(*, deck_clearance: float, gasket_thickness: float, pad_height: float) -> float:
    """Work out the gap between quench pad and head at top centre, cold and still.

    Parameters
    ----------
    deck_clearance
        Flat of the crown below the deck; negative when it stands proud. [m]
    gasket_thickness
        Head gasket compressed thickness. [m]
    pad_height
        Height of the pad above the flat of the crown; zero when they are one. [m]

    Returns
    -------
    float
        Quench distance; rod stretch and rock at speed take from it. [m]

    Raises
    ------
    OutsideValidity
        When the gasket has no thickness.

    Notes
    -----
    Deck clearance plus crushed gasket less pad height.

    References
    ----------
    Derived above from the stack of lengths.

    Examples
    --------
    >>> gap = quench_distance(deck_clearance=0.0002, gasket_thickness=0.001, pad_height=0.0)
    >>> round(gap * 1e3, 6)
    1.2
    """
    hold_positive("gasket thickness", gasket_thickness, MILLIMETRES)
    return deck_clearance + gasket_thickness - pad_height


def _throw_and_rod(stroke: float, rod_length: float) -> float:
    """Give the height of the pin above the main bore centre at top centre."""
    hold_positive("stroke", stroke, MILLIMETRES)
    hold_positive("rod length", rod_length, MILLIMETRES)
    return stroke / 2.0 + rod_length
