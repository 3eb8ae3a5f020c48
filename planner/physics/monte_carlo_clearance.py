"""The spread of a bearing clearance whose four sizes lie anywhere in their tolerances."""

from typing import TYPE_CHECKING

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.geometry_limits import hold_not_negative, hold_positive
from planner.physics.monte_carlo import Rectangular, propagate
from planner.physics.registry import Q, outside, physics
from planner.units.dimension import LENGTH, NONE

if TYPE_CHECKING:
    from planner.physics.monte_carlo import Trials

_DIAMETER = Q(LENGTH, "diameter")
_CLEARANCE = Q(LENGTH, "clearance on diameter")
_LENGTH = Q(LENGTH)


@physics(
    slow=True,
    returns={
        "clearance_mean": _CLEARANCE,
        "clearance_uncertainty": _LENGTH,
        "clearance_low_95": _CLEARANCE,
        "clearance_high_95": _CLEARANCE,
    },
    citation="JCGM 101:2008; not opened",
    validity="sizes independent, anywhere in their tolerances alike",
    housing=_DIAMETER,
    journal=_DIAMETER,
    wall_upper=_LENGTH,
    wall_lower=_LENGTH,
    housing_half=_LENGTH,
    journal_half=_LENGTH,
    wall_half=_LENGTH,
    seed=Q(NONE),
)
def clearance_monte_carlo(
    *,
    housing: float,
    journal: float,
    wall_upper: float,
    wall_lower: float,
    housing_half: float,
    journal_half: float,
    wall_half: float,
    seed: float,
) -> dict[str, float]:
    """Work out the spread of an oil clearance by 200 000 trials.

    Parameters
    ----------
    housing, journal
        Middle of the sizes of housing bore and journal. [m]
    wall_upper, wall_lower
        Middle of the walls of the two shells. [m]
    housing_half, journal_half
        Half-widths of their tolerances, on diameter. [m]
    wall_half
        Half-width of one wall's tolerance. [m]
    seed
        Start of the random numbers, a whole number; the same seed gives the same answer. [-]

    Returns
    -------
    clearance_mean
        Mean clearance on diameter. [m]
    clearance_uncertainty
        Its standard deviation. [m]
    clearance_low_95
        Low end of the 95 % interval with equal tails. [m]
    clearance_high_95
        High end of it. [m]

    Raises
    ------
    OutsideValidity
        When a size is not above zero, a half-width is negative, or the seed is no whole
        number from 0 to 4 294 967 295.

    Notes
    -----
    Each size is drawn with all places in its tolerance alike; clearance = housing - journal
    - both walls. Mean and 95 % interval as JCGM 101, clause 7.

    References
    ----------
    JCGM 101:2008, Propagation of distributions using a Monte Carlo method; from memory,
    not opened.

    Examples
    --------
    >>> found = clearance_monte_carlo(
    ...     housing=0.058,
    ...     journal=0.05395,
    ...     wall_upper=0.002,
    ...     wall_lower=0.002,
    ...     housing_half=3e-6,
    ...     journal_half=3e-6,
    ...     wall_half=1.5e-6,
    ...     seed=1.0,
    ... )
    >>> round(found["clearance_mean"] * 1e3, 4), round(found["clearance_uncertainty"] * 1e3, 5)
    (0.05, 0.00274)
    """
    for name, size in (("housing", housing), ("journal", journal)):
        hold_positive(name, size, MILLIMETRES)
    for name, size in (("upper wall", wall_upper), ("lower wall", wall_lower)):
        hold_positive(name, size, MILLIMETRES)
    for name, half in (("housing", housing_half), ("journal", journal_half), ("wall", wall_half)):
        hold_not_negative(f"tolerance of the {name}", half, MILLIMETRES)
    found = propagate(
        _clearance,
        {
            "housing": Rectangular(housing, housing_half),
            "journal": Rectangular(journal, journal_half),
            "upper": Rectangular(wall_upper, wall_half),
            "lower": Rectangular(wall_lower, wall_half),
        },
        seed=_whole(seed),
    )
    return {
        "clearance_mean": found.mean,
        "clearance_uncertainty": found.uncertainty,
        "clearance_low_95": found.symmetric[0],
        "clearance_high_95": found.symmetric[1],
    }


def _clearance(
    *, housing: "Trials", journal: "Trials", upper: "Trials", lower: "Trials"
) -> "Trials":
    """Take journal and both walls from the housing."""
    return housing - journal - upper - lower


def _whole(seed: float) -> int:
    """Refuse a seed that is no whole number of 32 bits."""
    remedy = "Give a whole number, such as 1."
    within("seed", seed, 0, 2**32 - 1, remedy=remedy)
    if seed != int(seed):
        outside("seed", f"{seed:g}", "whole numbers", remedy)
    return int(seed)
