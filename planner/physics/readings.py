"""The sizes a machinist reads off a grid of diameters: rows are depths or planes, columns axes.

The last row is the deepest.
"""

from planner.physics.readings_grid import Grid, checked
from planner.physics.registry import Q, physics
from planner.units.dimension import LENGTH

_DIAMETER = Q(LENGTH, "diameter")
_READINGS = Q(LENGTH, "diameter", grid=True)


@physics(
    returns=_DIAMETER,
    citation="derived",
    validity="any readings",
    rises=("readings",),
    readings=_READINGS,
)
def largest_reading(*, readings: Grid) -> float:
    """Give the largest reading of a grid.

    Parameters
    ----------
    readings
        Diameters, a row for each depth or plane. [m]

    Returns
    -------
    float
        The largest of them. [m]

    Raises
    ------
    OutsideValidity
        When there is no reading, or one is not above zero.

    Notes
    -----
    Taken over all rows and axes.

    References
    ----------
    Derived above from the readings.

    Examples
    --------
    >>> largest_reading(readings=((0.08607, 0.08604), (0.08602, 0.08601)))
    0.08607
    """
    return max(reading for row in checked(readings) for reading in row)


@physics(
    returns=_DIAMETER,
    citation="derived",
    validity="any readings",
    rises=("readings",),
    readings=_READINGS,
)
def smallest_reading(*, readings: Grid) -> float:
    """Give the smallest reading of a grid.

    Parameters
    ----------
    readings
        Diameters, a row for each depth or plane. [m]

    Returns
    -------
    float
        The smallest of them. [m]

    Raises
    ------
    OutsideValidity
        When there is no reading, or one is not above zero.

    Notes
    -----
    Taken over all rows and axes.

    References
    ----------
    Derived above from the readings.

    Examples
    --------
    >>> smallest_reading(readings=((0.08607, 0.08604), (0.08602, 0.08601)))
    0.08601
    """
    return min(reading for row in checked(readings) for reading in row)


@physics(
    returns=_DIAMETER,
    citation="derived",
    validity="any readings",
    rises=("readings",),
    readings=_READINGS,
)
def mean_reading(*, readings: Grid) -> float:
    """Give the mean of all readings of a grid.

    Parameters
    ----------
    readings
        Diameters, a row for each depth or plane. [m]

    Returns
    -------
    float
        Their mean. [m]

    Raises
    ------
    OutsideValidity
        When there is no reading, or one is not above zero.

    Notes
    -----
    Each reading counts alike.

    References
    ----------
    Derived above from the readings.

    Examples
    --------
    >>> round(mean_reading(readings=((0.08606, 0.08604), (0.08602, 0.08600))), 6)
    0.08603
    """
    every = [reading for row in checked(readings) for reading in row]
    return sum(every) / len(every)


@physics(
    returns=_DIAMETER,
    citation="derived",
    validity="last row read below ring travel",
    rises=("readings",),
    readings=_READINGS,
)
def deepest_smallest(*, readings: Grid) -> float:
    """Give the smallest reading of the deepest row: the bore where no ring has worn it.

    Parameters
    ----------
    readings
        Bore diameters, a row for each depth, the deepest last. [m]

    Returns
    -------
    float
        Smallest diameter in the last row. [m]

    Raises
    ------
    OutsideValidity
        When there is no reading, or one is not above zero.

    Notes
    -----
    Stands for the unworn bore only when the last row was read just below ring travel;
    read higher it is already worn and the clean-up diameter comes out too small.

    References
    ----------
    Derived above from the readings.

    Examples
    --------
    >>> deepest_smallest(readings=((0.08607, 0.08604), (0.08602, 0.08601)))
    0.08601
    """
    return min(checked(readings)[-1])
