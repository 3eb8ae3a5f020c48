"""The piston pin's clearance in boss and bush: running hot, at the coldest start, oval."""

from planner.physics.bounds import KELVINS, MILLIMETRES, within
from planner.physics.registry import Q, physics
from planner.units import LENGTH, PER_KELVIN, TEMPERATURE

CLEARANCE = Q(LENGTH, "clearance on diameter")
EXPANSION = Q(PER_KELVIN)
OUTSIDE = Q(LENGTH, "diameter")
RISE = Q(TEMPERATURE, "rise")


@physics(
    returns=CLEARANCE,
    citation="derived",
    validity="rises 0 to 400 K",
    rises=("clearance", "housing_expansion", "housing_rise"),
    falls=("pin_expansion", "pin_rise"),
    clearance=CLEARANCE,
    outside=OUTSIDE,
    pin_expansion=EXPANSION,
    pin_rise=RISE,
    housing_expansion=EXPANSION,
    housing_rise=RISE,
)
def pin_hot_clearance(
    *,
    clearance: float,
    outside: float,
    pin_expansion: float,
    pin_rise: float,
    housing_expansion: float,
    housing_rise: float,
) -> float:
    """Work out the clearance of a hot piston pin in its boss or bush.

    Parameters
    ----------
    clearance
        Clearance on diameter as measured cold. [m]
    outside
        Outside diameter of the pin. [m]
    pin_expansion, housing_expansion
        Linear thermal expansion of the pin and of what it runs in. [1/K]
    pin_rise, housing_rise
        How far each is above the temperature at which the fit was measured. [K]

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
    The hole gains its expansion times its rise times the diameter, the pin likewise, and
    the clearance takes the difference. Valid for rises of 0 to 400 K; the expansion of a
    bush pressed into a rod is nearer the rod's than its own.

    References
    ----------
    Derived above from linear expansion.

    Examples
    --------
    >>> hot = pin_hot_clearance(
    ...     clearance=0.010e-3,
    ...     outside=0.022,
    ...     pin_expansion=11.5e-6,
    ...     pin_rise=140.0,
    ...     housing_expansion=22.3e-6,
    ...     housing_rise=160.0,
    ... )
    >>> round(hot * 1e3, 3)
    0.053
    """
    within("temperature rise of the pin", pin_rise, 0, 400, KELVINS)
    within("temperature rise of the boss or bush", housing_rise, 0, 400, KELVINS)
    _check(clearance, outside)
    return clearance + outside * (housing_expansion * housing_rise - pin_expansion * pin_rise)


@physics(
    returns=CLEARANCE,
    citation="derived",
    validity="a coldest start less than 80 K below the measuring temperature",
    rises=("clearance", "pin_expansion"),
    falls=("housing_expansion",),
    clearance=CLEARANCE,
    outside=OUTSIDE,
    pin_expansion=EXPANSION,
    housing_expansion=EXPANSION,
    cold_drop=RISE,
)
def pin_coldest_clearance(
    *,
    clearance: float,
    outside: float,
    pin_expansion: float,
    housing_expansion: float,
    cold_drop: float,
) -> float:
    """Work out the clearance of a piston pin at the coldest start.

    Parameters
    ----------
    clearance
        Clearance on diameter as measured. [m]
    outside
        Outside diameter of the pin. [m]
    pin_expansion, housing_expansion
        Linear thermal expansion of the pin and of what it runs in. [1/K]
    cold_drop
        How far the coldest start lies below the measuring temperature; below zero, a
        start in the warm, counts as none. [K]

    Returns
    -------
    float
        Clearance on diameter when everything has that temperature; below zero the pin
        has seized. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    An aluminium boss shrinks more than the steel pin, so the fit closes by the diameter
    times the difference of expansions times the drop. Valid for drops up to 80 K.

    References
    ----------
    Derived above from linear expansion.

    Examples
    --------
    >>> cold = pin_coldest_clearance(
    ...     clearance=0.012e-3,
    ...     outside=0.022,
    ...     pin_expansion=11.5e-6,
    ...     housing_expansion=22.3e-6,
    ...     cold_drop=40.0,
    ... )
    >>> round(cold * 1e3, 4)
    0.0025
    """
    within("drop to the coldest start", cold_drop, -60, 80, KELVINS)
    _check(clearance, outside)
    return clearance - outside * (housing_expansion - pin_expansion) * max(cold_drop, 0.0)


@physics(
    returns=CLEARANCE,
    citation="derived",
    validity="any",
    rises=("hot_clearance",),
    falls=("ovalisation",),
    hot_clearance=CLEARANCE,
    ovalisation=Q(LENGTH),
)
def pin_bush_clearance_left(*, hot_clearance: float, ovalisation: float) -> float:
    """Work out what clearance the oval pin leaves in the small-end bush.

    Parameters
    ----------
    hot_clearance
        Clearance on diameter of the round pin, hot. [m]
    ovalisation
        Growth of the pin sideways under peak pressure. [m]

    Returns
    -------
    float
        Clearance left across the load; below zero the pin pinches the bush and can turn
        it in the rod. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The pin grows across the load by the ovalisation while the bush keeps its shape. The
    bush gives a little, so a small negative figure is a warning, not yet a seizure.

    References
    ----------
    Derived above as a difference.

    Examples
    --------
    >>> left = pin_bush_clearance_left(hot_clearance=0.020e-3, ovalisation=0.0300e-3)
    >>> round(left * 1e3, 3)
    -0.01
    """
    within("growth of the pin", ovalisation, 0, 1e-3, MILLIMETRES)
    return hot_clearance - ovalisation


def _check(clearance: float, outside: float) -> None:
    """Refuse a fit that is no pin fit: most likely a slipped decimal point."""
    within("pin clearance", clearance, -0.2e-3, 0.2e-3, MILLIMETRES)
    within("pin outside diameter", outside, 0.008, 0.06, MILLIMETRES)
