"""What frost does to an oil clearance: an aluminium housing can lock the crank."""

from planner.physics.bearing_clearance import (
    CLEARANCE,
    DIAMETER,
    WALL,
    check_clearance,
    check_journal,
)
from planner.physics.bearing_clearance_heat import CHANGE, EXPANSION, RISE, bearing_hot_growth
from planner.physics.bounds import KELVINS, MILLIMETRES, within
from planner.physics.registry import Q, physics
from planner.units import NONE


@physics(
    returns=CHANGE,
    citation="derived",
    validity="a coldest start less than 80 K below the measuring temperature",
    rises=("housing_expansion",),
    falls=("journal_expansion", "shell_expansion"),
    housing=DIAMETER,
    journal=DIAMETER,
    wall=WALL,
    housing_expansion=EXPANSION,
    journal_expansion=EXPANSION,
    shell_expansion=EXPANSION,
    cold_drop=RISE,
)
def bearing_coldest_loss(
    *,
    housing: float,
    journal: float,
    wall: float,
    housing_expansion: float,
    journal_expansion: float,
    shell_expansion: float,
    cold_drop: float,
) -> float:
    """Work out how much an oil clearance closes from measuring to the coldest start.

    Parameters
    ----------
    housing, journal
        Diameters of housing and journal as measured. [m]
    wall
        Mean wall of the two shells. [m]
    housing_expansion, journal_expansion, shell_expansion
        Linear thermal expansion of each; of a housing with cast-in iron, the iron's. [1/K]
    cold_drop
        How far the coldest start lies below the measuring temperature; below zero, a
        start in the warm, counts as none. [K]

    Returns
    -------
    float
        Loss of clearance on diameter; slightly below zero, a gain, in an iron housing. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The hot growth run backwards. An aluminium housing shrinks on to the shaft, and a tight
    cold clearance can lock the crank in frost. Valid for drops up to 80 K.

    References
    ----------
    Derived above from linear expansion.

    Examples
    --------
    >>> loss = bearing_coldest_loss(
    ...     housing=0.064,
    ...     journal=0.060,
    ...     wall=0.002,
    ...     housing_expansion=21.5e-6,
    ...     journal_expansion=11.5e-6,
    ...     shell_expansion=12e-6,
    ...     cold_drop=40.0,
    ... )
    >>> round(loss * 1e3, 3)
    0.026
    """
    within("drop to the coldest start", cold_drop, -60, 80, KELVINS)
    return bearing_hot_growth(
        housing=housing,
        journal=journal,
        wall=wall,
        housing_expansion=housing_expansion,
        journal_expansion=journal_expansion,
        shell_expansion=shell_expansion,
        rise=max(cold_drop, 0.0),
    )


@physics(
    returns=CLEARANCE,
    citation="derived",
    validity="a coldest start less than 80 K below the measuring temperature",
    rises=("clearance", "journal_expansion", "shell_expansion"),
    falls=("housing_expansion",),
    clearance=CLEARANCE,
    housing=DIAMETER,
    journal=DIAMETER,
    wall=WALL,
    housing_expansion=EXPANSION,
    journal_expansion=EXPANSION,
    shell_expansion=EXPANSION,
    cold_drop=RISE,
)
def coldest_bearing_clearance(
    *,
    clearance: float,
    housing: float,
    journal: float,
    wall: float,
    housing_expansion: float,
    journal_expansion: float,
    shell_expansion: float,
    cold_drop: float,
) -> float:
    """Work out the oil clearance at the coldest start.

    Parameters
    ----------
    clearance
        Clearance on diameter as measured. [m]
    housing, journal
        Diameters of housing and journal as measured. [m]
    wall
        Mean wall of the two shells. [m]
    housing_expansion, journal_expansion, shell_expansion
        Linear thermal expansion of each; of a housing with cast-in iron, the iron's. [1/K]
    cold_drop
        How far the coldest start lies below the measuring temperature; below zero, a
        start in the warm, counts as none. [K]

    Returns
    -------
    float
        Clearance on diameter at that start; below zero the crank is locked. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The clearance less its loss to the coldest start. Valid for drops up to 80 K.

    References
    ----------
    Derived above from linear expansion.

    Examples
    --------
    >>> cold = coldest_bearing_clearance(
    ...     clearance=0.059e-3,
    ...     housing=0.064,
    ...     journal=0.060,
    ...     wall=0.002,
    ...     housing_expansion=21.5e-6,
    ...     journal_expansion=11.5e-6,
    ...     shell_expansion=12e-6,
    ...     cold_drop=40.0,
    ... )
    >>> round(cold * 1e3, 3)
    0.033
    """
    check_clearance(clearance)
    return clearance - bearing_coldest_loss(
        housing=housing,
        journal=journal,
        wall=wall,
        housing_expansion=housing_expansion,
        journal_expansion=journal_expansion,
        shell_expansion=shell_expansion,
        cold_drop=cold_drop,
    )


@physics(
    returns=CLEARANCE,
    citation="common practice and derived",
    validity="journals 20 to 150 mm",
    rises=("journal", "floor_per_diameter", "coldest_loss", "least_coldest"),
    journal=DIAMETER,
    floor_per_diameter=Q(NONE),
    coldest_loss=CHANGE,
    least_coldest=CLEARANCE,
)
def bearing_clearance_floor(
    *, journal: float, floor_per_diameter: float, coldest_loss: float, least_coldest: float
) -> float:
    """Work out the least cold clearance that still turns freely at the coldest start.

    Parameters
    ----------
    journal
        Diameter of the journal. [m]
    floor_per_diameter
        Least clearance for each unit of diameter at the measuring temperature. [-]
    coldest_loss
        What the clearance loses from measuring to the coldest start. [m]
    least_coldest
        Least clearance on diameter allowed at the coldest start. [m]

    Returns
    -------
    float
        Least clearance on diameter to build to, cold. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The larger of the two: the share of the diameter, and what leaves the least clearance
    in the frost. A builder who goes under it risks a locked crank.

    References
    ----------
    Common practice, no source, for the share of the diameter; the rest is derived above.

    Examples
    --------
    >>> floor = bearing_clearance_floor(
    ...     journal=0.060,
    ...     floor_per_diameter=0.00065,
    ...     coldest_loss=0.026e-3,
    ...     least_coldest=0.015e-3,
    ... )
    >>> round(floor * 1e3, 3)
    0.041
    """
    check_journal(journal)
    within("loss to the coldest start", coldest_loss, -0.1e-3, 0.3e-3, MILLIMETRES)
    return max(floor_per_diameter * journal, least_coldest + coldest_loss)
