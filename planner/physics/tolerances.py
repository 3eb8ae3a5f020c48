"""How tolerances add up in a bearing clearance, at worst and as a rule."""

from collections.abc import Iterable
from math import fsum, hypot

from planner.physics.bounds import MILLIMETRES
from planner.physics.geometry_limits import hold_not_negative
from planner.physics.registry import Q, physics
from planner.units.dimension import LENGTH

_LENGTH = Q(LENGTH)


def worst_case(terms: Iterable[float]) -> float:
    """Add up half-widths as if each were at its worst at once.

    Examples
    --------
    >>> worst_case([0.003, 0.003, 0.0015, 0.0015])
    0.009
    """
    return fsum(abs(term) for term in terms)


def root_sum_square(terms: Iterable[float]) -> float:
    """Add up half-widths as independent, centred and equally capable ones add up.

    Examples
    --------
    >>> root_sum_square([3.0, 4.0])
    5.0
    """
    return hypot(*terms)


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="any tolerances",
    rises=("housing", "journal", "wall"),
    housing=_LENGTH,
    journal=_LENGTH,
    wall=_LENGTH,
)
def clearance_tolerance_worst_case(*, housing: float, journal: float, wall: float) -> float:
    """Work out how far a bearing clearance can be off when all is at its worst.

    Parameters
    ----------
    housing
        Half-width of the housing's tolerance, on diameter. [m]
    journal
        Half-width of the journal's tolerance, on diameter. [m]
    wall
        Half-width of one shell wall's tolerance. [m]

    Returns
    -------
    float
        Half-width of the clearance on diameter. [m]

    Raises
    ------
    OutsideValidity
        When a half-width is negative.

    Notes
    -----
    Clearance = housing - journal - two walls, so h + j + 2 w.

    References
    ----------
    Derived above from the sum.

    Examples
    --------
    >>> worst = clearance_tolerance_worst_case(housing=3e-6, journal=3e-6, wall=1.5e-6)
    >>> round(worst * 1e6, 3)
    9.0
    """
    _hold(housing, journal, wall)
    return worst_case((housing, journal, wall, wall))


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="independent, centred tolerances of about equal capability",
    rises=("housing", "journal", "wall"),
    housing=_LENGTH,
    journal=_LENGTH,
    wall=_LENGTH,
)
def clearance_tolerance_root_sum_square(*, housing: float, journal: float, wall: float) -> float:
    """Work out how far a bearing clearance is off as a rule.

    Parameters
    ----------
    housing
        Half-width of the housing's tolerance, on diameter. [m]
    journal
        Half-width of the journal's tolerance, on diameter. [m]
    wall
        Half-width of one shell wall's tolerance. [m]

    Returns
    -------
    float
        Half-width of the clearance on diameter that few builds exceed. [m]

    Raises
    ------
    OutsideValidity
        When a half-width is negative.

    Notes
    -----
    sqrt(h^2 + j^2 + 2 w^2). Holds when the sizes are independent and centred; a journal
    set ground to one end of its limits is not.

    References
    ----------
    Derived above from the variance of a sum.

    Examples
    --------
    >>> usual = clearance_tolerance_root_sum_square(housing=3e-6, journal=3e-6, wall=1.5e-6)
    >>> round(usual * 1e6, 3)
    4.743
    """
    _hold(housing, journal, wall)
    return root_sum_square((housing, journal, wall, wall))


def _hold(housing: float, journal: float, wall: float) -> None:
    """Refuse negative half-widths."""
    hold_not_negative("tolerance of the housing", housing, MILLIMETRES)
    hold_not_negative("tolerance of the journal", journal, MILLIMETRES)
    hold_not_negative("tolerance of the wall", wall, MILLIMETRES)
