"""How far the formulas of the cycle may be asked, and an operating point from arguments."""

from collections.abc import Mapping
from math import pi
from typing import TYPE_CHECKING

from planner.physics.bounds import KELVINS, MILLIMETRES, PLAIN, within

if TYPE_CHECKING:
    from planner.physics.cycle.setting import Point

Unit = tuple[str, float]
DEGREES = ("deg", 180.0 / pi)
BAR = ("bar", 1e-5)
REVOLUTIONS = ("rpm", 30.0 / pi)
MEGAJOULES = ("MJ/kg", 1e-6)
PER_CUBIC_METRE = ("kg/m**3", 1.0)
RPM = pi / 30.0
DEGREE = pi / 180.0
LATEST_OF_ALL = 50.0 * DEGREE  # no engine is run later than this on purpose [rad]

# Wide enough for any car engine; within them the march is known to settle (tests walk them).
LIMITS: dict[str, tuple[float, float, Unit]] = {
    "bore": (0.06, 0.12, MILLIMETRES),
    "stroke": (0.05, 0.12, MILLIMETRES),
    "rod_length": (0.09, 0.22, MILLIMETRES),
    "inlet_closing": (20 * DEGREE, 90 * DEGREE, DEGREES),
    "exhaust_opening": (20 * DEGREE, 90 * DEGREE, DEGREES),
    "boost": (0.0, 3.0e5, BAR),
    "ambient_pressure": (0.5e5, 1.1e5, BAR),
    "charge_temperature": (240.0, 460.0, KELVINS),
    "speed": (1000 * RPM, 12000 * RPM, REVOLUTIONS),
    "mixture": (0.8, 1.5, PLAIN),
    "ethanol_share": (0.0, 1.0, PLAIN),
    "methanol_share": (0.0, 1.0, PLAIN),
    "octane": (75.0, 125.0, PLAIN),
    "evaporated_share": (0.0, 1.0, PLAIN),
    "port_heating": (0.0, 1.0, PLAIN),
    "port_temperature": (300.0, 420.0, KELVINS),
    "residual_temperature": (800.0, 1300.0, KELVINS),
    "exhaust_restriction": (1.0, 1.5, PLAIN),
    "turbine_back_pressure": (0.0, 2.5, PLAIN),
    "burn_angle": (10 * DEGREE, 40 * DEGREE, DEGREES),
    "burn_speed_growth": (0.0, 0.6, PLAIN),
    "late_burn_growth": (0.0, 0.4, PLAIN),
    "knock_end": (0.7, 0.98, PLAIN),
    "delay_factor": (0.4, 2.5, PLAIN),
    "wall_temperature": (350.0, 600.0, KELVINS),
    "heat_loss_factor": (0.0, 2.0, PLAIN),
    "petrol_heating_value": (40e6, 46e6, MEGAJOULES),
    "petrol_density": (680.0, 800.0, PER_CUBIC_METRE),
    "ratio": (5.5, 17.5, PLAIN),
    "phasing": (0.0, LATEST_OF_ALL, DEGREES),
}
REMEDY = "Check the figure and its unit; for an engine beyond this, use the practice figures."


def operating_point(given: Mapping[str, float], **own: float) -> "Point":
    """Check the arguments of a formula and make the operating point of them.

    Parameters
    ----------
    given
        The arguments by name; those that are no part of a point are passed over.
    **own
        The rest of the point, where the formula calls it by another name.

    Returns
    -------
    Point
        The operating point.

    Raises
    ------
    OutsideValidity
        When a figure lies outside its limits.
    """
    from planner.physics.cycle.setting import NUMBERS, Point

    values = {**given, **own}
    for name in NUMBERS:
        checked(name, values[name])
    within("share of alcohol", values["ethanol_share"] + values["methanol_share"], 0.0, 1.0)
    return Point(**{name: values[name] for name in NUMBERS})


def checked(name: str, value: float, called: str = "") -> float:
    """Refuse a figure outside its limits.

    Parameters
    ----------
    name
        Whose limits hold.
    value
        The figure, SI.
    called
        What the formula calls it, when that is something else.

    Returns
    -------
    float
        The figure.

    Raises
    ------
    OutsideValidity
        When it lies outside.
    """
    low, high, unit = LIMITS[name]
    within((called or name).replace("_", " "), value, low, high, unit, remedy=REMEDY)
    return value
