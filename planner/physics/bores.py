"""What a worn bore needs to clean up, and the wall that boring leaves."""

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.geometry_limits import BAR, hold_not_negative, hold_positive
from planner.physics.readings import largest_reading
from planner.physics.readings_grid import Grid
from planner.physics.registry import Q, outside, physics
from planner.units.dimension import LENGTH, NONE, PRESSURE

_DIAMETER = Q(LENGTH, "diameter")
_READINGS = Q(LENGTH, "diameter", grid=True)
_LENGTH = Q(LENGTH)


@physics(
    returns=_DIAMETER,
    citation="derived",
    validity="wear no more than 1 mm on diameter, bar set on the unworn bore",
    rises=("readings", "score"),
    falls=("unworn",),
    readings=_READINGS,
    unworn=_DIAMETER,
    score=_LENGTH,
)
def clean_up_diameter(*, readings: Grid, unworn: float, score: float) -> float:
    """Work out the diameter that surely cleans a worn bore with its centre kept.

    Parameters
    ----------
    readings
        Bore diameters, a row for each depth, two-point gauge. [m]
    unworn
        Diameter where no ring runs; the smallest reading below ring travel. [m]
    score
        Deepest score, from the surface; zero when there is none. [m]

    Returns
    -------
    float
        Clean-up diameter, honing stock not counted. [m]

    Raises
    ------
    OutsideValidity
        When unworn bore and largest reading are more than 1 mm apart, or the score is
        negative.

    Notes
    -----
    A two-point gauge does not say which side wore. At worst all of d_max - d_unworn is on
    one side, so that wall stands d_max - d_unworn / 2 from the old axis and a cut about
    that axis must reach it: D = 2 d_max - d_unworn, and twice the score depth more. Exact
    when the wear is one-sided, on the safe side otherwise.

    References
    ----------
    Derived above from one-sided wear.

    Examples
    --------
    >>> cleaned = clean_up_diameter(
    ...     readings=((0.086138, 0.086083), (0.086031, 0.086024)), unworn=0.086024, score=0.00004
    ... )
    >>> round(cleaned * 1e3, 3)
    86.332
    """
    hold_not_negative("score depth", score, MILLIMETRES)
    hold_positive("unworn bore", unworn, MILLIMETRES)
    worn = largest_reading(readings=readings)
    remedy = "Take the unworn bore below ring travel, in the same bore with the same gauge."
    within("unworn bore", unworn, worn - 0.001, worn + 0.001, MILLIMETRES, remedy=remedy)
    return worn + max(worn - unworn, 0.0) + 2.0 * score


@physics(
    returns=_DIAMETER,
    citation="derived",
    validity="bar free to follow the worn bore",
    rises=("readings", "score"),
    readings=_READINGS,
    score=_LENGTH,
)
def clean_up_diameter_floated(*, readings: Grid, score: float) -> float:
    """Work out the least diameter that could clean a worn bore with its centre moved.

    Parameters
    ----------
    readings
        Bore diameters, a row for each depth, two-point gauge. [m]
    score
        Deepest score, from the surface; zero when there is none. [m]

    Returns
    -------
    float
        Least clean-up diameter, honing stock not counted. [m]

    Raises
    ------
    OutsideValidity
        When there is no reading, or the score is negative.

    Notes
    -----
    A circle through the worn wall and the score opposite: d_max + score. The bore then
    moves off the line of the crank, so the builder has to accept it.

    References
    ----------
    Derived above from the circle.

    Examples
    --------
    >>> round(clean_up_diameter_floated(readings=((0.086138, 0.086083),), score=4e-5) * 1e3, 3)
    86.178
    """
    hold_not_negative("score depth", score, MILLIMETRES)
    return largest_reading(readings=readings) + score


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="any bore",
    rises=("clean_up", "stock"),
    falls=("nominal",),
    clean_up=_DIAMETER,
    nominal=_DIAMETER,
    stock=_LENGTH,
)
def oversize_needed(*, clean_up: float, nominal: float, stock: float) -> float:
    """Work out the oversize on diameter that cleans a bore and leaves the honing stock.

    Parameters
    ----------
    clean_up
        Clean-up diameter of the worst bore. [m]
    nominal
        Standard bore. [m]
    stock
        Metal on diameter left for honing after boring. [m]

    Returns
    -------
    float
        Least oversize; a stocked piston must be no smaller. [m]

    Raises
    ------
    OutsideValidity
        When a diameter is not above zero or the stock is negative.

    Notes
    -----
    clean_up + stock - nominal.

    References
    ----------
    Derived above from the sizes.

    Examples
    --------
    >>> round(oversize_needed(clean_up=0.086332, nominal=0.086, stock=0.0001) * 1e3, 3)
    0.432
    """
    hold_positive("clean-up diameter", clean_up, MILLIMETRES)
    hold_positive("standard bore", nominal, MILLIMETRES)
    hold_not_negative("honing stock", stock, MILLIMETRES)
    return clean_up + stock - nominal


@physics(
    returns=_LENGTH,
    citation="derived",
    validity="wall measured across the cylinder, bore cut round",
    rises=("wall", "bore_when_measured"),
    falls=("finished_bore", "centre_shift"),
    wall=_LENGTH,
    bore_when_measured=_DIAMETER,
    finished_bore=_DIAMETER,
    centre_shift=_LENGTH,
)
def wall_after_boring(
    *, wall: float, bore_when_measured: float, finished_bore: float, centre_shift: float
) -> float:
    """Work out the wall left after a cylinder is bored out.

    Parameters
    ----------
    wall
        Least wall measured, ultrasonic. [m]
    bore_when_measured
        Diameter the wall was measured from; the standard bore is on the safe side. [m]
    finished_bore
        Bore after boring and honing. [m]
    centre_shift
        How far the centre is moved; zero when it is kept. [m]

    Returns
    -------
    float
        Wall left at the thin place. [m]

    Raises
    ------
    OutsideValidity
        When a size is not above zero, the shift is negative, or no wall would be left.

    Notes
    -----
    Half the growth of the diameter and the whole of the shift come off the wall.

    References
    ----------
    Derived above from the sizes.

    Examples
    --------
    >>> left = wall_after_boring(
    ...     wall=0.0056, bore_when_measured=0.086, finished_bore=0.0865, centre_shift=0.0
    ... )
    >>> round(left * 1e3, 3)
    5.35
    """
    hold_positive("bore when measured", bore_when_measured, MILLIMETRES)
    hold_positive("finished bore", finished_bore, MILLIMETRES)
    hold_not_negative("centre shift", centre_shift, MILLIMETRES)
    left = wall - (finished_bore - bore_when_measured) / 2.0 - centre_shift
    hold_positive("wall left", left, MILLIMETRES)
    return left


@physics(
    returns=Q(PRESSURE, "stress"),
    citation="thin-wall cylinder, Shigley's Mechanical Engineering Design",
    validity="free-standing parent-metal walls, 3 to 15 % of the bore thick",
    rises=("pressure", "bore"),
    falls=("wall",),
    pressure=Q(PRESSURE),
    bore=_DIAMETER,
    wall=_LENGTH,
    support=Q(NONE),
)
def hoop_stress_screen(*, pressure: float, bore: float, wall: float, support: float) -> float:
    """Work out the hoop stress of a free-standing cylinder wall, as a screening figure.

    Parameters
    ----------
    pressure
        Peak cylinder pressure above the air. [Pa]
    bore
        Finished bore. [m]
    wall
        Wall left. [m]
    support
        Zero for a wall with water behind it, one for a liner backed by the casting. [-]

    Returns
    -------
    float
        Mean hoop stress in the wall. [Pa]

    Raises
    ------
    OutsideValidity
        For any supported liner, and for walls under 3 % or over 15 % of the bore.

    Notes
    -----
    p B / (2 t), an open thin tube. The pull of the head bolts, the thermal stress and the
    stiffening of deck and crankcase are left out, so it ranks walls and proves none. A
    liner in a casting shares the load with it: the tube formula would be wrong by a
    factor, so it is refused.

    References
    ----------
    Shigley's Mechanical Engineering Design, chapter on stress, thin-walled vessels; from
    memory, not opened.

    Examples
    --------
    >>> stress = hoop_stress_screen(pressure=12e6, bore=0.086, wall=0.0053, support=0.0)
    >>> round(stress / 1e6, 1)
    97.4
    """
    hold_positive("pressure", pressure, BAR)
    hold_positive("bore", bore, MILLIMETRES)
    if support != 0.0:
        outside(
            "liner support",
            f"{support:g}",
            "0, a wall standing free",
            "Use the wall floor for supported liners, a rule of thumb, and map the wall.",
        )
    remedy = "Below it the wall is a liner or needs a sleeve; above it use thick-wall theory."
    within("wall over bore", wall / bore, 0.03, 0.15, remedy=remedy)
    return pressure * bore / (2.0 * wall)
