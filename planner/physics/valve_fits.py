"""Valve fits: the stem in its guide and the seat in its counterbore, hot; the seat's load."""

import math

from planner.physics.bounds import KELVINS, MEGAPASCALS, MILLIMETRES, within
from planner.physics.registry import Q, physics
from planner.units import LENGTH, NONE, PER_KELVIN, PRESSURE, TEMPERATURE

CLEARANCE = Q(LENGTH, "clearance on diameter")
DIAMETER = Q(LENGTH, "diameter")
EXPANSION = Q(PER_KELVIN)
PLAIN_LENGTH = Q(LENGTH)
RISE = Q(TEMPERATURE, "rise")


@physics(
    returns=CLEARANCE,
    citation="derived",
    validity="guide rises 0 to 400 K, stem rises 0 to 800 K",
    rises=("clearance", "guide_expansion", "guide_rise"),
    falls=("stem_expansion", "stem_rise"),
    clearance=CLEARANCE,
    stem_diameter=DIAMETER,
    guide_expansion=EXPANSION,
    guide_rise=RISE,
    stem_expansion=EXPANSION,
    stem_rise=RISE,
)
def guide_hot_clearance(
    *,
    clearance: float,
    stem_diameter: float,
    guide_expansion: float,
    guide_rise: float,
    stem_expansion: float,
    stem_rise: float,
) -> float:
    """Work out the clearance of a hot valve stem in its guide.

    Parameters
    ----------
    clearance
        Clearance on diameter as measured cold. [m]
    stem_diameter
        Diameter of the stem. [m]
    guide_expansion, stem_expansion
        Linear thermal expansion of the guide and of the stem's own alloy. [1/K]
    guide_rise, stem_rise
        How far each is above the temperature at which the fit was measured, at the guide's
        lower end. [K]

    Returns
    -------
    float
        Clearance on diameter, hot; at zero the valve sticks open. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The bore of the guide grows as if solid, the stem likewise; the head round the guide,
    which holds it back a little, is left out. Valid for guide rises of 0 to 400 K and stem
    rises of 0 to 800 K.

    References
    ----------
    Derived above from linear expansion.

    Examples
    --------
    >>> hot = guide_hot_clearance(
    ...     clearance=0.035e-3,
    ...     stem_diameter=0.006,
    ...     guide_expansion=17.5e-6,
    ...     guide_rise=130.0,
    ...     stem_expansion=17e-6,
    ...     stem_rise=330.0,
    ... )
    >>> round(hot * 1e3, 3)
    0.015
    """
    within("stem diameter", stem_diameter, 0.004, 0.014, MILLIMETRES)
    within("guide clearance", clearance, 0, 0.4e-3, MILLIMETRES)
    within("temperature rise of the guide", guide_rise, 0, 400, KELVINS)
    within("temperature rise of the stem", stem_rise, 0, 800, KELVINS)
    return clearance + stem_diameter * (guide_expansion * guide_rise - stem_expansion * stem_rise)


@physics(
    returns=PLAIN_LENGTH,
    citation="derived",
    validity="one temperature for head and seat, rises 0 to 300 K",
    rises=("interference", "seat_expansion"),
    falls=("head_expansion",),
    interference=PLAIN_LENGTH,
    seat_diameter=DIAMETER,
    head_expansion=EXPANSION,
    seat_expansion=EXPANSION,
    rise=RISE,
)
def seat_hot_interference(
    *,
    interference: float,
    seat_diameter: float,
    head_expansion: float,
    seat_expansion: float,
    rise: float,
) -> float:
    """Work out the interference a valve seat keeps when head and seat are evenly hot.

    Parameters
    ----------
    interference
        Seat diameter less counterbore diameter, cold. [m]
    seat_diameter
        Outside diameter of the seat insert. [m]
    head_expansion, seat_expansion
        Linear thermal expansion of the head and of the insert. [1/K]
    rise
        Temperature of both above that at which they were measured. [K]

    Returns
    -------
    float
        Interference left; at zero the seat is loose and can drop. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    After shutting down hot, head and seat come to one temperature, and an aluminium head
    opens round a steel or iron seat by the difference of expansions. In running the seat is
    hotter than the head and holds better. Valid for rises of 0 to 300 K.

    References
    ----------
    Derived above from linear expansion.

    Examples
    --------
    >>> left = seat_hot_interference(
    ...     interference=0.10e-3,
    ...     seat_diameter=0.034,
    ...     head_expansion=21.5e-6,
    ...     seat_expansion=11.5e-6,
    ...     rise=180.0,
    ... )
    >>> round(left * 1e3, 3)
    0.039
    """
    within("seat interference", interference, -0.1e-3, 0.4e-3, MILLIMETRES)
    within("seat diameter", seat_diameter, 0.015, 0.07, MILLIMETRES)
    within("temperature rise of the head", rise, 0, 300, KELVINS)
    return interference - seat_diameter * (head_expansion - seat_expansion) * rise


@physics(
    returns=Q(PRESSURE, "stress"),
    citation="derived",
    validity="seat angles 15 to 60 degrees, widths 0.4 to 4 mm",
    rises=("pressure", "seal_diameter", "seat_angle"),
    falls=("contact_diameter", "seat_width"),
    pressure=Q(PRESSURE, "gauge"),
    seal_diameter=DIAMETER,
    contact_diameter=DIAMETER,
    seat_width=PLAIN_LENGTH,
    seat_angle=Q(NONE, "angle"),
)
def seat_contact_stress(
    *,
    pressure: float,
    seal_diameter: float,
    contact_diameter: float,
    seat_width: float,
    seat_angle: float,
) -> float:
    r"""Work out the pressure between valve and seat at peak cylinder pressure.

    Parameters
    ----------
    pressure
        Highest cylinder pressure. [Pa]
    seal_diameter
        Diameter inside which that pressure pushes on the valve. [m]
    contact_diameter
        Mean diameter of the contact band. [m]
    seat_width
        Width of the contact band, along the face. [m]
    seat_angle
        Angle of the face to the plane of the head; usually 45 degrees. [rad]

    Returns
    -------
    float
        Normal stress on the contact band. [Pa]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    :math:`F / (\cos\beta \, \pi d_m w)`. Friction, which would carry part of it, and the
    spring, which adds a little, are left out. Too wide runs cool but carbon packs under it;
    too narrow pounds in. Valid for 15 to 60 degrees and widths of 0.4 to 4 mm.

    References
    ----------
    Derived above from the equilibrium of the valve.

    Examples
    --------
    >>> stress = seat_contact_stress(
    ...     pressure=12e6,
    ...     seal_diameter=0.0336,
    ...     contact_diameter=0.033,
    ...     seat_width=0.0012,
    ...     seat_angle=0.785398,
    ... )
    >>> round(stress / 1e6)
    121
    """
    within("peak pressure", pressure, 1e5, 40e6, MEGAPASCALS)
    within("seat width", seat_width, 0.4e-3, 4e-3, MILLIMETRES)
    within(
        "seat angle",
        seat_angle,
        math.radians(15),
        math.radians(60),
        ("deg", 180 / math.pi),
        remedy="Give the angle of the face to the plane of the head, not to the stem.",
    )
    force = pressure * math.pi / 4 * seal_diameter**2
    return force / (math.cos(seat_angle) * math.pi * contact_diameter * seat_width)
