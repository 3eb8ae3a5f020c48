"""What heat does to an oil clearance: an aluminium housing opens it, iron hardly."""

from planner.physics.bearing_clearance import (
    CLEARANCE,
    DIAMETER,
    WALL,
    check_clearance,
    check_sizes,
    check_wall,
)
from planner.physics.bounds import KELVINS, within
from planner.physics.registry import Q, physics
from planner.units import LENGTH, PER_KELVIN, TEMPERATURE

EXPANSION = Q(PER_KELVIN)
RISE = Q(TEMPERATURE, "rise")
CHANGE = Q(LENGTH)


@physics(
    returns=CHANGE,
    citation="derived",
    validity="rises 0 to 200 K; one temperature for all parts",
    rises=("housing_expansion",),
    falls=("journal_expansion", "shell_expansion"),
    housing=DIAMETER,
    journal=DIAMETER,
    wall=WALL,
    housing_expansion=EXPANSION,
    journal_expansion=EXPANSION,
    shell_expansion=EXPANSION,
    rise=RISE,
)
def bearing_hot_growth(
    *,
    housing: float,
    journal: float,
    wall: float,
    housing_expansion: float,
    journal_expansion: float,
    shell_expansion: float,
    rise: float,
) -> float:
    r"""Work out how much an oil clearance opens from cold to running hot.

    Parameters
    ----------
    housing, journal
        Diameters of housing and journal, cold. [m]
    wall
        Mean wall of the two shells. [m]
    housing_expansion, journal_expansion, shell_expansion
        Linear thermal expansion of each; of a housing with cast-in iron, the iron's. [1/K]
    rise
        Temperature of the bearing above that at which it was measured. [K]

    Returns
    -------
    float
        Change of the clearance on diameter, positive when it opens. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    :math:`(H a_h - J a_j - 2 w a_w) \Delta T`, all parts at one temperature: in truth the
    journal is the hottest, which takes a little back. Valid for rises of 0 to 200 K.

    References
    ----------
    Derived above from linear expansion.

    Examples
    --------
    >>> growth = bearing_hot_growth(
    ...     housing=0.059,
    ...     journal=0.055,
    ...     wall=0.002,
    ...     housing_expansion=21.5e-6,
    ...     journal_expansion=11.5e-6,
    ...     shell_expansion=12e-6,
    ...     rise=90.0,
    ... )
    >>> round(growth * 1e3, 3)
    0.053
    """
    within("temperature rise of the bearing", rise, 0, 200, KELVINS)
    check_sizes(housing, journal)
    check_wall("shell wall", wall)
    steel = journal * journal_expansion + 2 * wall * shell_expansion
    return (housing * housing_expansion - steel) * rise


@physics(
    returns=CLEARANCE,
    citation="derived",
    validity="rises 0 to 200 K; one temperature for all parts",
    rises=("clearance", "housing_expansion"),
    falls=("journal_expansion", "shell_expansion"),
    clearance=CLEARANCE,
    housing=DIAMETER,
    journal=DIAMETER,
    wall=WALL,
    housing_expansion=EXPANSION,
    journal_expansion=EXPANSION,
    shell_expansion=EXPANSION,
    rise=RISE,
)
def hot_bearing_clearance(
    *,
    clearance: float,
    housing: float,
    journal: float,
    wall: float,
    housing_expansion: float,
    journal_expansion: float,
    shell_expansion: float,
    rise: float,
) -> float:
    """Work out the oil clearance at running temperature.

    Parameters
    ----------
    clearance
        Clearance on diameter as measured cold. [m]
    housing, journal
        Diameters of housing and journal, cold. [m]
    wall
        Mean wall of the two shells. [m]
    housing_expansion, journal_expansion, shell_expansion
        Linear thermal expansion of each; of a housing with cast-in iron, the iron's. [1/K]
    rise
        Temperature of the bearing above that at which it was measured. [K]

    Returns
    -------
    float
        Clearance on diameter, hot. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The cold clearance and its hot growth. It is shown for information: the practice
    clearances are cold figures that already live with it. Valid for rises of 0 to 200 K.

    References
    ----------
    Derived above from linear expansion.

    Examples
    --------
    >>> hot = hot_bearing_clearance(
    ...     clearance=0.050e-3,
    ...     housing=0.059,
    ...     journal=0.055,
    ...     wall=0.002,
    ...     housing_expansion=21.5e-6,
    ...     journal_expansion=11.5e-6,
    ...     shell_expansion=12e-6,
    ...     rise=90.0,
    ... )
    >>> round(hot * 1e3, 3)
    0.103
    """
    check_clearance(clearance)
    return clearance + bearing_hot_growth(
        housing=housing,
        journal=journal,
        wall=wall,
        housing_expansion=housing_expansion,
        journal_expansion=journal_expansion,
        shell_expansion=shell_expansion,
        rise=rise,
    )
