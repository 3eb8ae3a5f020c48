"""Plain bearing clearance from measured parts, the wall that gives it, and practice."""

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.registry import Q, outside, physics
from planner.units import LENGTH, NONE, ROTATION, TIME

CLEARANCE = Q(LENGTH, "clearance on diameter")
DIAMETER = Q(LENGTH, "diameter")
SPEED_OF_ROTATION = Q(ROTATION, "speed of rotation")
WALL = Q(LENGTH)
PRACTICE = "common practice"


@physics(
    returns=CLEARANCE,
    citation="derived",
    validity="housing larger than journal; shell walls 0.5 to 5 mm",
    rises=("housing",),
    falls=("journal", "upper_wall", "lower_wall"),
    housing=DIAMETER,
    journal=DIAMETER,
    upper_wall=WALL,
    lower_wall=WALL,
)
def bearing_clearance(
    *, housing: float, journal: float, upper_wall: float, lower_wall: float
) -> float:
    """Work out the oil clearance of a journal from the measured parts.

    Parameters
    ----------
    housing
        Inside diameter of the housing, fasteners torqued, no shells. [m]
    journal
        Diameter of the journal. [m]
    upper_wall, lower_wall
        Wall of each shell at its crown, 90 degrees from the parting line. [m]

    Returns
    -------
    float
        Clearance on diameter, cold; below zero the shaft would bind. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Housing less journal less both walls. Shells are eccentric and thinner at the parting
    line, so the walls are those of the crown. What crush adds is left out: the housing is
    measured torqued, and the shell's own squeeze is less than the gauge can see.

    References
    ----------
    Derived above as a difference.

    Examples
    --------
    >>> clearance = bearing_clearance(
    ...     housing=0.059012, journal=0.054985, upper_wall=0.001985, lower_wall=0.001990
    ... )
    >>> round(clearance * 1e3, 3)
    0.052
    """
    check_sizes(housing, journal)
    check_wall("upper shell wall", upper_wall)
    check_wall("lower shell wall", lower_wall)
    return housing - journal - upper_wall - lower_wall


@physics(
    returns=WALL,
    citation="derived",
    validity="housing larger than journal",
    rises=("housing",),
    falls=("journal", "clearance"),
    housing=DIAMETER,
    journal=DIAMETER,
    clearance=CLEARANCE,
)
def shell_wall_needed(*, housing: float, journal: float, clearance: float) -> float:
    """Work out the mean shell wall that gives a wanted clearance.

    Parameters
    ----------
    housing
        Inside diameter of the housing, fasteners torqued, no shells. [m]
    journal
        Diameter of the journal. [m]
    clearance
        Clearance on diameter wanted. [m]

    Returns
    -------
    float
        Wall of each shell, or the mean of a mixed pair. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Half of what housing, journal and clearance leave. The nearest stocked wall, or two
    neighbouring ones, then come close to it.

    References
    ----------
    Derived above as a difference.

    Examples
    --------
    >>> wall = shell_wall_needed(housing=0.059012, journal=0.054985, clearance=0.053e-3)
    >>> round(wall * 1e3, 4)
    1.987
    """
    check_sizes(housing, journal)
    check_clearance(clearance)
    return (housing - journal - clearance) / 2


@physics(
    returns=CLEARANCE,
    citation=PRACTICE,
    validity="journals 20 to 150 mm; factors up to 0.003",
    rises=(
        "journal",
        "clearance_per_diameter",
        "rev_ceiling",
        "addition_per_speed",
        "boost_addition",
    ),
    falls=("quiet_speed",),
    journal=DIAMETER,
    clearance_per_diameter=Q(NONE),
    rev_ceiling=SPEED_OF_ROTATION,
    quiet_speed=SPEED_OF_ROTATION,
    addition_per_speed=Q(TIME),
    boost_addition=Q(NONE),
)
def bearing_practice_clearance(
    *,
    journal: float,
    clearance_per_diameter: float,
    rev_ceiling: float,
    quiet_speed: float,
    addition_per_speed: float,
    boost_addition: float,
) -> float:
    """Work out the clearance that practice gives a journal, by its size, revs and boost.

    Parameters
    ----------
    journal
        Diameter of the journal. [m]
    clearance_per_diameter
        Clearance on diameter for each unit of diameter, by use. [-]
    rev_ceiling
        Highest speed the engine is meant to run. [rad/s]
    quiet_speed
        Speed up to which nothing is added. [rad/s]
    addition_per_speed
        What each rad/s above that adds to the factor. [s/rad]
    boost_addition
        What boost adds to the factor. [-]

    Returns
    -------
    float
        Clearance on diameter, cold, shells torqued in. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Diameter times (factor + boost addition + addition per speed times the excess speed).
    It is a starting value for pressure-fed shells in a ferrous housing; all three figures
    are judgement and come from the rulebook.

    References
    ----------
    Common practice, no source: about a thousandth of the diameter, more for speed.

    Examples
    --------
    >>> clearance = bearing_practice_clearance(
    ...     journal=0.048,
    ...     clearance_per_diameter=0.00110,
    ...     rev_ceiling=785.4,
    ...     quiet_speed=733.0,
    ...     addition_per_speed=0.00005 / 104.72,
    ...     boost_addition=0.00005,
    ... )
    >>> round(clearance * 1e3, 3)
    0.056
    """
    check_journal(journal)
    within("clearance for each unit of diameter", clearance_per_diameter, 0.0, 0.003)
    within("boost addition", boost_addition, 0.0, 0.003)
    over = max(0.0, rev_ceiling - quiet_speed)
    return journal * (clearance_per_diameter + boost_addition + addition_per_speed * over)


def check_journal(journal: float) -> None:
    """Refuse a journal no car engine has."""
    within("journal diameter", journal, 0.02, 0.15, MILLIMETRES)


def check_clearance(clearance: float) -> None:
    """Refuse a clearance that is a slipped decimal point."""
    within("oil clearance", clearance, -0.5e-3, 0.5e-3, MILLIMETRES)


def check_wall(name: str, wall: float) -> None:
    """Refuse a shell wall no car engine has."""
    within(
        name,
        wall,
        0.5e-3,
        5e-3,
        MILLIMETRES,
        remedy="Give the wall of one shell, measured at its crown with a ball micrometer.",
    )


def check_sizes(housing: float, journal: float) -> None:
    """Refuse a housing that could not hold the journal and two shells."""
    check_journal(journal)
    if not journal < housing < journal + 0.012:
        outside(
            "bearing housing",
            f"{housing * 1e3:.6g} mm",
            f"{journal * 1e3:.6g} to {(journal + 0.012) * 1e3:.6g} mm for this journal",
            "Check that housing and journal belong to one another and were not swapped.",
        )
