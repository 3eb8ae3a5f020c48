"""Whether a reading proves that a part is inside its limits, after ISO 14253-1."""

from math import isfinite
from typing import Literal

from planner.physics.bounds import MILLIMETRES
from planner.physics.geometry_limits import hold_not_negative
from planner.physics.registry import Q, outside, physics
from planner.units.dimension import LENGTH, NONE

Verdict = Literal["conform", "nonconform", "indeterminate", "gauge too coarse"]

_LENGTH = Q(LENGTH)
_NUMBER = Q(NONE)
_CITATION = "ISO 14253-1:2017; not opened"
_VALIDITY = "uncertainty small against the band; coverage 1.65 for 95 % on one side"


def inside_limit(value: float, low: float | None, high: float | None) -> bool:
    """Say whether a reading lies inside the limits, the shop's plain acceptance.

    Examples
    --------
    >>> inside_limit(0.047, 0.045, 0.060), inside_limit(0.061, None, 0.060)
    (True, False)
    """
    return (low is None or value >= low) and (high is None or value <= high)


def verdict(
    value: float, low: float | None, high: float | None, *, uncertainty: float, coverage: float
) -> Verdict:
    """Judge a reading with its uncertainty; what is not proved is never called a pass.

    Parameters
    ----------
    value
        The reading. [m]
    low, high
        The limits; None where there is none on that side. [m]
    uncertainty
        Standard uncertainty of the reading, one standard deviation. [m]
    coverage
        Guard band over uncertainty, 1.65 for 95 % on one side. [-]

    Returns
    -------
    str
        "conform" inside both limits by the guard band or more; "nonconform" outside one by
        more than it; "gauge too coarse" when no reading could conform; else
        "indeterminate": measure again or better.

    Raises
    ------
    OutsideValidity
        When there is no limit, the reading is not finite, or uncertainty or coverage is
        negative.

    Notes
    -----
    Without a low limit the size is taken as one that cannot fall below zero, such as a
    form error; its limit has to exceed the guard band for any reading to conform.

    References
    ----------
    ISO 14253-1:2017; from memory, not opened.

    Examples
    --------
    >>> verdict(0.0465, 0.045, 0.060, uncertainty=0.0012, coverage=1.65)
    'indeterminate'
    >>> verdict(0.003, None, 0.005, uncertainty=0.0035, coverage=1.65)
    'gauge too coarse'
    """
    guard = guard_band(uncertainty=uncertainty, coverage=coverage)
    margins = [] if low is None else [value - low]
    margins += [] if high is None else [high - value]
    if not margins:
        outside("limits", "none", "one limit or two", "Give at least one limit.")
    if not isfinite(value):
        outside("reading", repr(value), "finite numbers", "Read it again.")
    if min(margins) < -guard:
        return "nonconform"
    width = (high if high is not None else float("inf")) - (low if low is not None else 0.0)
    guards = 2.0 * guard if low is not None and high is not None else guard
    if high is not None and width < guards:
        return "gauge too coarse"
    return "conform" if min(margins) >= guard else "indeterminate"


@physics(
    returns=_LENGTH,
    citation=_CITATION,
    validity=_VALIDITY,
    rises=("uncertainty", "coverage"),
    uncertainty=_LENGTH,
    coverage=_NUMBER,
)
def guard_band(*, uncertainty: float, coverage: float) -> float:
    """Work out how far inside a limit a reading must lie to prove itself.

    Parameters
    ----------
    uncertainty
        Standard uncertainty of the reading, one standard deviation. [m]
    coverage
        Guard band over uncertainty, 1.65 for 95 % on one side. [-]

    Returns
    -------
    float
        Guard band. [m]

    Raises
    ------
    OutsideValidity
        When either is negative.

    Notes
    -----
    Coverage times uncertainty.

    References
    ----------
    ISO 14253-1:2017, decision rules for proving conformity; from memory, not opened.

    Examples
    --------
    >>> round(guard_band(uncertainty=1.2e-6, coverage=1.65) * 1e6, 3)
    1.98
    """
    hold_not_negative("uncertainty", uncertainty, MILLIMETRES)
    hold_not_negative("coverage factor", coverage, ("", 1.0))
    return coverage * uncertainty
