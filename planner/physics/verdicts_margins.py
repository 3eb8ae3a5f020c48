"""How far a reading is from being proved, after ISO 14253-1, as lengths that rules compare."""

from planner.physics.registry import Q, outside, physics
from planner.physics.verdicts import guard_band
from planner.units.dimension import LENGTH, NONE

_LENGTH = Q(LENGTH)
_NUMBER = Q(NONE)
_CITATION = "ISO 14253-1:2017; not opened"
_VALIDITY = "uncertainty small against the band; coverage 1.65 for 95 % on one side"


@physics(
    returns=_LENGTH,
    citation=_CITATION,
    validity=_VALIDITY,
    rises=("high",),
    falls=("low", "uncertainty", "coverage"),
    value=_LENGTH,
    low=_LENGTH,
    high=_LENGTH,
    uncertainty=_LENGTH,
    coverage=_NUMBER,
)
def conform_margin(
    *, value: float, low: float, high: float, uncertainty: float, coverage: float
) -> float:
    """Work out how far a reading lies inside both limits and the guard band.

    Parameters
    ----------
    value
        The reading. [m]
    low, high
        The limits. [m]
    uncertainty
        Standard uncertainty of the reading, one standard deviation. [m]
    coverage
        Guard band over uncertainty. [-]

    Returns
    -------
    float
        Zero or more: proved to conform. Below zero: not proved. [m]

    Raises
    ------
    OutsideValidity
        When the limits cross, or uncertainty or coverage is negative.

    Notes
    -----
    The smaller distance to a limit, less the guard band.

    References
    ----------
    ISO 14253-1:2017; from memory, not opened.

    Examples
    --------
    >>> margin = conform_margin(
    ...     value=47.5e-6, low=45e-6, high=60e-6, uncertainty=1.2e-6, coverage=1.65
    ... )
    >>> round(margin * 1e6, 3)
    0.52
    """
    _hold_limits(low, high)
    depth = min(value - low, high - value)
    return depth - guard_band(uncertainty=uncertainty, coverage=coverage)


@physics(
    returns=_LENGTH,
    citation=_CITATION,
    validity=_VALIDITY,
    rises=("low",),
    falls=("high", "uncertainty", "coverage"),
    value=_LENGTH,
    low=_LENGTH,
    high=_LENGTH,
    uncertainty=_LENGTH,
    coverage=_NUMBER,
)
def nonconform_margin(
    *, value: float, low: float, high: float, uncertainty: float, coverage: float
) -> float:
    """Work out how far a reading lies outside a limit and the guard band.

    Parameters
    ----------
    value
        The reading. [m]
    low, high
        The limits. [m]
    uncertainty
        Standard uncertainty of the reading, one standard deviation. [m]
    coverage
        Guard band over uncertainty. [-]

    Returns
    -------
    float
        Above zero: proved not to conform. [m]

    Raises
    ------
    OutsideValidity
        When the limits cross, or uncertainty or coverage is negative.

    Notes
    -----
    The larger distance beyond a limit, less the guard band. When neither this nor
    `conform_margin` says yes, nothing is proved: measure again or better.

    References
    ----------
    ISO 14253-1:2017; from memory, not opened.

    Examples
    --------
    >>> margin = nonconform_margin(
    ...     value=42.5e-6, low=45e-6, high=60e-6, uncertainty=1.2e-6, coverage=1.65
    ... )
    >>> round(margin * 1e6, 3)
    0.52
    """
    _hold_limits(low, high)
    beyond = max(low - value, value - high)
    return beyond - guard_band(uncertainty=uncertainty, coverage=coverage)


@physics(
    returns=_LENGTH,
    citation=_CITATION,
    validity=_VALIDITY,
    rises=("high",),
    falls=("low", "uncertainty", "coverage"),
    low=_LENGTH,
    high=_LENGTH,
    uncertainty=_LENGTH,
    coverage=_NUMBER,
)
def acceptance_width(*, low: float, high: float, uncertainty: float, coverage: float) -> float:
    """Work out how wide the band is in which a reading proves itself.

    Parameters
    ----------
    low, high
        The limits. [m]
    uncertainty
        Standard uncertainty of the reading, one standard deviation. [m]
    coverage
        Guard band over uncertainty. [-]

    Returns
    -------
    float
        Width; below zero the gauge is too coarse for these limits. [m]

    Raises
    ------
    OutsideValidity
        When the limits cross, or uncertainty or coverage is negative.

    Notes
    -----
    The band less a guard band at each end.

    References
    ----------
    ISO 14253-1:2017; from memory, not opened.

    Examples
    --------
    >>> width = acceptance_width(low=45e-6, high=60e-6, uncertainty=1.2e-6, coverage=1.65)
    >>> round(width * 1e6, 3)
    11.04
    """
    _hold_limits(low, high)
    return high - low - 2.0 * guard_band(uncertainty=uncertainty, coverage=coverage)


def _hold_limits(low: float, high: float) -> None:
    """Refuse limits that cross."""
    if not low <= high:
        text = f"{low * 1e3:.6g} to {high * 1e3:.6g} mm"
        outside("pair of limits", text, "a low limit below a high one", "Swap the two.")
