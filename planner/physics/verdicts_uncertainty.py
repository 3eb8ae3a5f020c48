"""The uncertainty of a reading by the way it was taken, and the chance that a part conforms."""

from math import erfc, hypot, sqrt

from planner.physics.bounds import MILLIMETRES
from planner.physics.geometry_limits import hold_not_negative, hold_positive
from planner.physics.registry import Q, outside, physics
from planner.units.dimension import LENGTH, NONE

_LENGTH = Q(LENGTH)


@physics(
    returns=Q(NONE),
    citation="JCGM 106:2012; not opened",
    validity="normally distributed errors, nothing known beforehand of the part",
    rises=("high",),
    falls=("low",),
    value=_LENGTH,
    low=_LENGTH,
    high=_LENGTH,
    uncertainty=_LENGTH,
)
def conformity_probability(*, value: float, low: float, high: float, uncertainty: float) -> float:
    """Work out the chance that a part lies inside its limits, given one reading.

    Parameters
    ----------
    value
        The reading. [m]
    low, high
        The limits. [m]
    uncertainty
        Standard uncertainty of the reading, one standard deviation. [m]

    Returns
    -------
    float
        Probability, 0 to 1. [-]

    Raises
    ------
    OutsideValidity
        When the limits cross or the uncertainty is not above zero.

    Notes
    -----
    Phi((high - value) / u) - Phi((low - value) / u), Phi the normal distribution.

    References
    ----------
    JCGM 106:2012, Evaluation of measurement data: the role of measurement uncertainty in
    conformity assessment; from memory, not opened.

    Examples
    --------
    >>> chance = conformity_probability(value=46.5e-6, low=45e-6, high=60e-6, uncertainty=1.2e-6)
    >>> round(chance, 3)
    0.894
    """
    hold_positive("uncertainty", uncertainty, MILLIMETRES)
    if not low <= high:
        text = f"{low * 1e3:.6g} to {high * 1e3:.6g} mm"
        outside("pair of limits", text, "a low limit below a high one", "Swap the two.")
    return _normal((high - value) / uncertainty) - _normal((low - value) / uncertainty)


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="two readings on one gauge, zeroed once",
    rises=("repeatability",),
    repeatability=_LENGTH,
)
def uncertainty_of_difference(*, repeatability: float) -> float:
    """Work out the uncertainty of a difference of two readings on one gauge.

    Parameters
    ----------
    repeatability
        Standard deviation of the gauge when it repeats one reading. [m]

    Returns
    -------
    float
        Standard uncertainty of out-of-round, taper or spread. [m]

    Raises
    ------
    OutsideValidity
        When the repeatability is negative.

    Notes
    -----
    Repeatability times the root of two. The gauge's own error falls out of a difference.

    References
    ----------
    Derived above from the variance of a difference.

    Examples
    --------
    >>> round(uncertainty_of_difference(repeatability=1e-6) * 1e6, 3)
    1.414
    """
    hold_not_negative("repeatability", repeatability, MILLIMETRES)
    return repeatability * sqrt(2.0)


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="two instruments, each with its own setting",
    rises=("first", "second"),
    first=_LENGTH,
    second=_LENGTH,
)
def uncertainty_separate(*, first: float, second: float) -> float:
    """Work out the uncertainty of a clearance taken with two instruments.

    Parameters
    ----------
    first, second
        Standard uncertainty of each instrument. [m]

    Returns
    -------
    float
        Standard uncertainty of the difference of their readings. [m]

    Raises
    ------
    OutsideValidity
        When either is negative.

    Notes
    -----
    Root of the sum of squares. A bore gauge zeroed on the journal itself does better: the
    setting errors fall out.

    References
    ----------
    Derived above from the variance of a difference.

    Examples
    --------
    >>> round(uncertainty_separate(first=2.5e-6, second=2e-6) * 1e6, 3)
    3.202
    """
    hold_not_negative("uncertainty of the first instrument", first, MILLIMETRES)
    hold_not_negative("uncertainty of the second instrument", second, MILLIMETRES)
    return hypot(first, second)


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="housing, journal and both walls measured separately",
    rises=("housing", "journal", "wall"),
    housing=_LENGTH,
    journal=_LENGTH,
    wall=_LENGTH,
)
def uncertainty_shell_clearance(*, housing: float, journal: float, wall: float) -> float:
    """Work out the uncertainty of an oil clearance found from its four sizes.

    Parameters
    ----------
    housing, journal
        Standard uncertainty of the housing bore and of the journal. [m]
    wall
        Standard uncertainty of one shell wall. [m]

    Returns
    -------
    float
        Standard uncertainty of the clearance. [m]

    Raises
    ------
    OutsideValidity
        When one of them is negative.

    Notes
    -----
    sqrt(h^2 + j^2 + 2 w^2).

    References
    ----------
    Derived above from the variance of a sum.

    Examples
    --------
    >>> spread = uncertainty_shell_clearance(housing=2.5e-6, journal=2e-6, wall=1.5e-6)
    >>> round(spread * 1e6, 3)
    3.841
    """
    hold_not_negative("uncertainty of the housing", housing, MILLIMETRES)
    hold_not_negative("uncertainty of the journal", journal, MILLIMETRES)
    hold_not_negative("uncertainty of the wall", wall, MILLIMETRES)
    return hypot(housing, journal, wall, wall)


def _normal(deviate: float) -> float:
    """Give the share of a normal distribution below a deviate."""
    return 0.5 * erfc(-deviate / sqrt(2.0))
