"""The undersize a worn or bent journal needs to clean up on the crank's true axis."""

from planner.physics.bounds import MILLIMETRES
from planner.physics.geometry_limits import hold_not_negative, hold_positive
from planner.physics.readings_grid import Grid, checked
from planner.physics.registry import Q, physics
from planner.units.dimension import LENGTH

_DIAMETER = Q(LENGTH, "diameter")
_LENGTH = Q(LENGTH)


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="journals ground on the true axis of the crank",
    rises=("upper_limit", "runout", "stock"),
    falls=("smallest",),
    smallest=_DIAMETER,
    upper_limit=_DIAMETER,
    runout=_LENGTH,
    stock=_LENGTH,
)
def undersize_needed(*, smallest: float, upper_limit: float, runout: float, stock: float) -> float:
    """Work out the undersize that cleans a journal of which diameters and run-out are known.

    Parameters
    ----------
    smallest
        Smallest diameter read on the journal. [m]
    upper_limit
        Upper limit of the standard size. [m]
    runout
        Full indicator reading at that journal, the crank on its end mains. [m]
    stock
        Least metal, on diameter, that grinding and polishing must take. [m]

    Returns
    -------
    float
        Undersize needed; the stocked undersize must be no less. Zero or less means that the
        journal needs none. [m]

    Raises
    ------
    OutsideValidity
        When a diameter is not above zero, or run-out or stock is negative.

    Notes
    -----
    A ground journal fits inside the worn one about the true axis. Half the full indicator
    reading is the distance between the two axes; it comes off the radius, so the whole
    reading comes off the diameter: u = D_upper - (d_min - runout - stock). On the safe
    side, since the run-out and the smallest diameter seldom point the same way; radii
    taken on the true axis, `undersize_needed_from_radii`, waste nothing.

    References
    ----------
    Derived above from two circles, one inside the other.

    Examples
    --------
    >>> need = undersize_needed(
    ...     smallest=0.053955, upper_limit=0.054, runout=0.00004, stock=0.00001
    ... )
    >>> round(need * 1e3, 3)
    0.095
    """
    hold_positive("smallest journal reading", smallest, MILLIMETRES)
    hold_positive("upper limit of the journal", upper_limit, MILLIMETRES)
    hold_not_negative("run-out", runout, MILLIMETRES)
    hold_not_negative("stock", stock, MILLIMETRES)
    return upper_limit - (smallest - runout - stock)


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="journals ground on the true axis of the crank",
    rises=("upper_limit", "stock"),
    falls=("radii",),
    radii=Q(LENGTH, "radius", grid=True),
    upper_limit=_DIAMETER,
    stock=_LENGTH,
)
def undersize_needed_from_radii(*, radii: Grid, upper_limit: float, stock: float) -> float:
    """Work out the undersize that cleans a journal from radii about the true axis.

    Parameters
    ----------
    radii
        Distances of the surface from the true axis, a row for each plane. [m]
    upper_limit
        Upper limit of the standard size. [m]
    stock
        Least metal, on diameter, that grinding and polishing must take. [m]

    Returns
    -------
    float
        Undersize needed; the stocked undersize must be no less. [m]

    Raises
    ------
    OutsideValidity
        When there is no reading, a size is not above zero or the stock is negative.

    Notes
    -----
    u = D_upper - (2 r_min - stock), with the least radius of all points.

    References
    ----------
    Derived above from two circles, one inside the other.

    Examples
    --------
    >>> need = undersize_needed_from_radii(
    ...     radii=((0.02699, 0.02698), (0.02699, 0.02697)), upper_limit=0.054, stock=0.00001
    ... )
    >>> round(need * 1e3, 3)
    0.07
    """
    hold_positive("upper limit of the journal", upper_limit, MILLIMETRES)
    hold_not_negative("stock", stock, MILLIMETRES)
    least = min(radius for row in checked(radii) for radius in row)
    return upper_limit - (2.0 * least - stock)
