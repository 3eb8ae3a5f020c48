"""The axes of the bearing film table, shared by the formulas and the script that makes it."""

import math

LEAST_ECCENTRICITY, MOST_ECCENTRICITY = 0.05, 0.97
SHORTEST, LONGEST = 0.25, 1.0
ECCENTRICITY_POINTS, LENGTH_POINTS = 33, 9
FIELDS = (
    "log_sommerfeld",
    "attitude",
    "log_friction",
    "flow",
    "side_share",
    "pressure_share",
)


def steepness(eccentricity: float) -> float:
    """Give ln(e / (1 - e)): against it, ln S is nearly straight at both ends.

    Examples
    --------
    >>> steepness(0.5)
    0.0
    """
    return math.log(eccentricity / (1 - eccentricity))


def eccentricity_axis() -> tuple[float, ...]:
    """List the steepness of each column, evenly spaced."""
    low, high = steepness(LEAST_ECCENTRICITY), steepness(MOST_ECCENTRICITY)
    step = (high - low) / (ECCENTRICITY_POINTS - 1)
    return tuple(low + step * place for place in range(ECCENTRICITY_POINTS))


def length_axis() -> tuple[float, ...]:
    """List the logarithm of length over diameter of each row, evenly spaced."""
    low, high = math.log(SHORTEST), math.log(LONGEST)
    step = (high - low) / (LENGTH_POINTS - 1)
    return tuple(low + step * place for place in range(LENGTH_POINTS))
