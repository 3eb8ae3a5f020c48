"""How far a bore, housing or journal is from round and straight, as the trade counts it.

Every difference here is of diameters, twice what a roundness machine shows, and a
two-point gauge cannot see a bore with an odd number of lobes.
"""

from planner.physics.bounds import within
from planner.physics.geometry_limits import BAR, hold_positive
from planner.physics.readings_grid import Grid, checked, equal_rows
from planner.physics.registry import Q, physics
from planner.units.dimension import LENGTH, NONE, PRESSURE

_READINGS = Q(LENGTH, "diameter", grid=True)
_LENGTHS = Q(LENGTH, grid=True)


@physics(
    returns=Q(LENGTH),
    citation="Common practice",
    validity="two or more axes in each row",
    spreads=("readings",),
    readings=_READINGS,
)
def out_of_round(*, readings: Grid) -> float:
    """Work out the trade's out-of-round: largest less smallest at one height, the worst.

    Parameters
    ----------
    readings
        Diameters, a row for each depth or plane, two or more axes in each. [m]

    Returns
    -------
    float
        The worst difference of diameters within one row. [m]

    Raises
    ------
    OutsideValidity
        When a row has fewer than two readings, or a reading is not above zero.

    Notes
    -----
    Of diameters: an oval shows twice its radial roundness to ISO 1101 and ISO 12181, and a
    bore of three or five lobes can show none at all on a two-point gauge.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> round(out_of_round(readings=((0.08607, 0.08604), (0.08602, 0.08601))) * 1e6, 3)
    30.0
    """
    rows = checked(readings)
    fewest = min(len(row) for row in rows)
    remedy = "Read every height on two axes at least: thrust and along the crank."
    within("number of axes read", fewest, 2, 1000, remedy=remedy)
    return max(max(row) - min(row) for row in rows)


@physics(
    returns=Q(LENGTH),
    citation="Common practice",
    validity="two or more rows, the same axes in each",
    spreads=("readings",),
    readings=_READINGS,
)
def taper(*, readings: Grid) -> float:
    """Work out the trade's taper: largest less smallest along one axis, the worst.

    Parameters
    ----------
    readings
        Diameters, a row for each depth or plane, the same axes in each. [m]

    Returns
    -------
    float
        The worst difference of diameters along one axis. [m]

    Raises
    ------
    OutsideValidity
        When there are fewer than two rows or the rows differ in length.

    Notes
    -----
    A difference from any height to any other, so a barrel counts as taper too.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> round(taper(readings=((0.08607, 0.08604), (0.08602, 0.08601))) * 1e6, 3)
    50.0
    """
    rows = equal_rows(readings)
    remedy = "Read the bore or journal at two heights at least."
    within("number of heights read", len(rows), 2, 1000, remedy=remedy)
    return max(max(column) - min(column) for column in zip(*rows, strict=True))


@physics(
    returns=Q(LENGTH),
    citation="derived",
    validity="any readings",
    spreads=("readings",),
    readings=_LENGTHS,
)
def spread_of_readings(*, readings: Grid) -> float:
    """Give the largest less the smallest of all readings, such as deck heights.

    Parameters
    ----------
    readings
        Heights or other lengths. [m]

    Returns
    -------
    float
        Largest less smallest. [m]

    Raises
    ------
    OutsideValidity
        When there is no reading, or one is not above zero.

    Notes
    -----
    Taken over all rows and columns.

    References
    ----------
    Derived above from the readings.

    Examples
    --------
    >>> round(spread_of_readings(readings=((0.21598, 0.21597, 0.21594, 0.21595),)) * 1e6, 3)
    40.0
    """
    every = [reading for row in checked(readings) for reading in row]
    return max(every) - min(every)


@physics(
    returns=Q(NONE),
    citation="Common practice",
    validity="readings of one test, same gauge and cranking speed",
    rises=("highest",),
    falls=("lowest",),
    highest=Q(PRESSURE),
    lowest=Q(PRESSURE),
)
def compression_spread(*, highest: float, lowest: float) -> float:
    """Work out how far the worst cylinder's cranking pressure is below the best.

    Parameters
    ----------
    highest
        Highest cranking pressure of all cylinders, gauge. [Pa]
    lowest
        Lowest cranking pressure of all cylinders, gauge. [Pa]

    Returns
    -------
    float
        The difference as a share of the highest. [-]

    Raises
    ------
    OutsideValidity
        When the highest is not above zero, or the lowest is negative or above it.

    Notes
    -----
    (highest - lowest) / highest.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> round(compression_spread(highest=1120000.0, lowest=810000.0), 4)
    0.2768
    """
    bar = BAR
    hold_positive("highest compression", highest, bar)
    remedy = "Give the lowest reading of the same test."
    within("lowest compression", lowest, 0.0, highest, bar, remedy=remedy)
    return (highest - lowest) / highest
