"""The clearance of a skirt that cannot give way: a bound beside practice."""

from planner.physics.piston_clearance import (
    CLEARANCE,
    DIAMETER,
    EXPANSION,
    RISE,
    cold_clearance,
)
from planner.physics.piston_clearance_limits import STATE_VALIDITY, hold_growth, hold_heat
from planner.physics.registry import Q, physics
from planner.units.dimension import NONE


@physics(
    returns=CLEARANCE,
    citation="derived from linear expansion",
    validity=STATE_VALIDITY,
    rises=("heat_factor", "piston_expansion", "skirt_slope"),
    falls=("bore_expansion", "bore_slope"),
    bore=DIAMETER,
    heat_factor=Q(NONE),
    piston_expansion=EXPANSION,
    bore_expansion=EXPANSION,
    coolant_rise=RISE,
    bore_slope=RISE,
    skirt_slope=RISE,
)
def piston_clearance_rigid(
    *,
    bore: float,
    heat_factor: float,
    piston_expansion: float,
    bore_expansion: float,
    coolant_rise: float,
    bore_slope: float,
    skirt_slope: float,
) -> float:
    """Work out the clearance a piston would need if its skirt could not give way.

    Parameters
    ----------
    bore
        Finished bore at the reference temperature, plate on. [m]
    heat_factor
        How hard the piston is driven, from `piston_heat_factor`. [-]
    piston_expansion, bore_expansion
        Linear thermal expansion of piston and cylinder. [1/K]
    coolant_rise
        Rise of both without any heat from the piston: the coolant's. [K]
    bore_slope
        Further rise of the bore for each unit of heat factor. [K]
    skirt_slope
        Further rise of the top of the skirt for each unit of heat factor. [K]

    Returns
    -------
    float
        Cold clearance of a rigid piston at the real temperature of its top skirt. [m]

    Raises
    ------
    OutsideValidity
        As `piston_to_wall_expansion`.

    Notes
    -----
    An upper bound to set beside practice, never a target: the skirt is cam-shaped, the
    gauge point is its coolest part, and it runs hot with a little overlap.

    References
    ----------
    Derived above from linear expansion.

    Examples
    --------
    >>> bound = piston_clearance_rigid(
    ...     bore=0.086,
    ...     heat_factor=0.8,
    ...     piston_expansion=22.3e-6,
    ...     bore_expansion=11e-6,
    ...     coolant_rise=70.0,
    ...     bore_slope=12.0,
    ...     skirt_slope=45.0,
    ... )
    >>> round(bound * 1e3, 3)
    0.128
    """
    hold_heat(heat_factor, bore_slope, skirt_slope)
    hold_growth(
        bore_expansion * bore_slope * (1.0 + piston_expansion * coolant_rise),
        piston_expansion * skirt_slope * (1.0 + bore_expansion * coolant_rise),
    )
    return cold_clearance(
        bore=bore,
        hot_clearance=0.0,
        bore_expansion=bore_expansion,
        bore_rise=coolant_rise + bore_slope * heat_factor,
        piston_expansion=piston_expansion,
        piston_rise=coolant_rise + skirt_slope * heat_factor,
    )
