"""How expansion opens and closes the room between skirt and bore."""

from planner.physics.bounds import KELVINS, MILLIMETRES, within
from planner.physics.geometry_limits import PER_MILLION
from planner.physics.registry import Q, physics
from planner.units.dimension import LENGTH, PER_KELVIN, TEMPERATURE

DIAMETER = Q(LENGTH, "diameter")
CLEARANCE = Q(LENGTH, "clearance on diameter")
EXPANSION = Q(PER_KELVIN)
RISE = Q(TEMPERATURE, "rise")

_SMALLEST_BORE, _LARGEST_BORE = 0.075, 0.105
_CITATION = "derived from linear expansion"
_VALIDITY = "bores 75 to 105 mm; expansions 8 to 30 per million; rises 0 to 400 K"


@physics(
    returns=CLEARANCE,
    citation=_CITATION,
    validity=_VALIDITY,
    rises=("hot_clearance", "piston_expansion", "piston_rise"),
    falls=("bore_expansion", "bore_rise"),
    bore=DIAMETER,
    hot_clearance=CLEARANCE,
    bore_expansion=EXPANSION,
    bore_rise=RISE,
    piston_expansion=EXPANSION,
    piston_rise=RISE,
)
def cold_clearance(
    *,
    bore: float,
    hot_clearance: float,
    bore_expansion: float,
    bore_rise: float,
    piston_expansion: float,
    piston_rise: float,
) -> float:
    """Work out the cold clearance that leaves a wanted clearance when hot.

    Parameters
    ----------
    bore
        Finished bore at the reference temperature, plate on. [m]
    hot_clearance
        Wanted clearance at the gauge point when hot; zero for a skirt that just fills it,
        negative for one that is squeezed. [m]
    bore_expansion, piston_expansion
        Linear thermal expansion of cylinder and piston. [1/K]
    bore_rise, piston_rise
        Rise of bore and gauge point above the reference temperature. [K]

    Returns
    -------
    float
        Cold piston-to-wall clearance at the gauge point. [m]

    Raises
    ------
    OutsideValidity
        When the bore, an expansion or a rise is outside the validity.

    Notes
    -----
    C = B - [B (1 + a_b T_b) - C_hot] / (1 + a_p T_p), exact for linear expansion of round
    parts. Valid for bores 75 to 105 mm, expansions 8 to 30 per million, rises 0 to 400 K.
    Ovality and barrel of the skirt, and a wall that is pulled out of round, are left out.

    References
    ----------
    Derived above from linear expansion.

    Examples
    --------
    >>> room = cold_clearance(
    ...     bore=0.086,
    ...     hot_clearance=0.0,
    ...     bore_expansion=11e-6,
    ...     bore_rise=79.6,
    ...     piston_expansion=22.3e-6,
    ...     piston_rise=106.0,
    ... )
    >>> round(room * 1e3, 4)
    0.1277
    """
    hold_expansion(bore, bore_expansion, bore_rise, piston_expansion, piston_rise)
    hot_piston = bore * (1.0 + bore_expansion * bore_rise) - hot_clearance
    return bore - hot_piston / (1.0 + piston_expansion * piston_rise)


@physics(
    returns=CLEARANCE,
    citation=_CITATION,
    validity=_VALIDITY,
    rises=("cold_clearance", "bore_expansion", "bore_rise"),
    falls=("piston_expansion", "piston_rise"),
    bore=DIAMETER,
    cold_clearance=CLEARANCE,
    bore_expansion=EXPANSION,
    bore_rise=RISE,
    piston_expansion=EXPANSION,
    piston_rise=RISE,
)
def hot_clearance(
    *,
    bore: float,
    cold_clearance: float,
    bore_expansion: float,
    bore_rise: float,
    piston_expansion: float,
    piston_rise: float,
) -> float:
    """Work out the clearance a cold clearance leaves when piston and bore are hot.

    Parameters
    ----------
    bore
        Finished bore at the reference temperature, plate on. [m]
    cold_clearance
        Piston-to-wall clearance at the gauge point, cold. [m]
    bore_expansion, piston_expansion
        Linear thermal expansion of cylinder and piston. [1/K]
    bore_rise, piston_rise
        Rise of bore and gauge point above the reference temperature. [K]

    Returns
    -------
    float
        Clearance when hot; negative is an overlap that the skirt must take up. [m]

    Raises
    ------
    OutsideValidity
        When the bore, an expansion or a rise is outside the validity.

    Notes
    -----
    B (1 + a_b T_b) - (B - C) (1 + a_p T_p): `cold_clearance` turned round.

    References
    ----------
    Derived above from linear expansion.

    Examples
    --------
    >>> room = hot_clearance(
    ...     bore=0.086,
    ...     cold_clearance=0.00009,
    ...     bore_expansion=11e-6,
    ...     bore_rise=80.0,
    ...     piston_expansion=22.3e-6,
    ...     piston_rise=90.0,
    ... )
    >>> round(room * 1e3, 4)
    -0.0067
    """
    hold_expansion(bore, bore_expansion, bore_rise, piston_expansion, piston_rise)
    hot_piston = (bore - cold_clearance) * (1.0 + piston_expansion * piston_rise)
    return bore * (1.0 + bore_expansion * bore_rise) - hot_piston


@physics(
    returns=RISE,
    citation=_CITATION,
    validity=_VALIDITY,
    rises=("cold_clearance", "bore_expansion", "bore_rise"),
    falls=("piston_expansion",),
    bore=DIAMETER,
    cold_clearance=CLEARANCE,
    bore_expansion=EXPANSION,
    bore_rise=RISE,
    piston_expansion=EXPANSION,
)
def piston_rise_at_zero_clearance(
    *,
    bore: float,
    cold_clearance: float,
    bore_expansion: float,
    bore_rise: float,
    piston_expansion: float,
) -> float:
    """Work out how hot the gauge point may get before the skirt just fills the bore.

    Parameters
    ----------
    bore
        Finished bore at the reference temperature, plate on. [m]
    cold_clearance
        Piston-to-wall clearance at the gauge point, cold. [m]
    bore_expansion, piston_expansion
        Linear thermal expansion of cylinder and piston. [1/K]
    bore_rise
        Rise of the bore above the reference temperature. [K]

    Returns
    -------
    float
        Rise of the gauge point above the reference temperature at zero clearance. [K]

    Raises
    ------
    OutsideValidity
        When the bore, an expansion or the rise is outside the validity, or the clearance is
        negative or over 1 mm.

    Notes
    -----
    [B (1 + a_b T_b) / (B - C) - 1] / a_p: `hot_clearance` set to zero. It lets two alloys
    be compared by the temperature that their practice figures imply.

    References
    ----------
    Derived above from linear expansion.

    Examples
    --------
    >>> rise = piston_rise_at_zero_clearance(
    ...     bore=0.086,
    ...     cold_clearance=0.000089,
    ...     bore_expansion=11e-6,
    ...     bore_rise=85.0,
    ...     piston_expansion=22.3e-6,
    ... )
    >>> round(rise, 1)
    88.4
    """
    hold_expansion(bore, bore_expansion, bore_rise, piston_expansion, 0.0)
    remedy = "Give the clearance on diameter at the gauge point, cold."
    within("cold clearance", cold_clearance, 0.0, 0.001, MILLIMETRES, remedy=remedy)
    stretch = bore * (1.0 + bore_expansion * bore_rise) / (bore - cold_clearance)
    return (stretch - 1.0) / piston_expansion


def hold_expansion(
    bore: float,
    bore_expansion: float,
    bore_rise: float,
    piston_expansion: float,
    piston_rise: float,
) -> None:
    """Hold bore, expansions and temperature rises against the validity.

    Raises
    ------
    OutsideValidity
        When one of them is outside.
    """
    remedy = "Outside it use the piston maker's sheet."
    within("bore", bore, _SMALLEST_BORE, _LARGEST_BORE, MILLIMETRES, remedy=remedy)
    remedy = "Give the expansion for each kelvin, for example 22e-6 1/K."
    within("expansion of the bore", bore_expansion, 8e-6, 30e-6, PER_MILLION, remedy=remedy)
    within("expansion of the piston", piston_expansion, 8e-6, 30e-6, PER_MILLION, remedy=remedy)
    remedy = "Give the rise over the 20 degC the parts are measured at."
    within("temperature rise of the bore", bore_rise, 0.0, 400.0, KELVINS, remedy=remedy)
    within("temperature rise of the piston", piston_rise, 0.0, 400.0, KELVINS, remedy=remedy)
