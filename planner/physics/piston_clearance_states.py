"""The cold piston-to-wall clearance that the hot states of an engine ask for."""

from planner.physics.bounds import within
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
    returns={
        "piston_clearance_low": CLEARANCE,
        "piston_clearance_target": CLEARANCE,
        "piston_clearance_high": CLEARANCE,
        "piston_clearance_steady": CLEARANCE,
        "piston_clearance_warm_up": CLEARANCE,
    },
    citation="derived from linear expansion, temperatures fitted to practice",
    validity=STATE_VALIDITY,
    rises={
        "piston_clearance_low": (
            "heat_factor",
            "piston_expansion",
            "gauge_slope",
            "warm_gauge_rise",
            "floor_share",
        ),
        "piston_clearance_target": (
            "heat_factor",
            "piston_expansion",
            "gauge_slope",
            "warm_gauge_rise",
            "floor_share",
        ),
        "piston_clearance_high": (
            "heat_factor",
            "piston_expansion",
            "gauge_slope",
            "warm_gauge_rise",
            "floor_share",
            "cap_share",
        ),
        "piston_clearance_steady": ("heat_factor", "piston_expansion", "gauge_slope"),
        "piston_clearance_warm_up": ("piston_expansion", "warm_gauge_rise"),
    },
    falls={
        "piston_clearance_low": ("bore_expansion", "bore_slope", "warm_bore_rise"),
        "piston_clearance_target": ("bore_expansion", "bore_slope", "warm_bore_rise"),
        "piston_clearance_high": ("bore_expansion", "bore_slope", "warm_bore_rise"),
        "piston_clearance_steady": ("bore_expansion", "bore_slope"),
        "piston_clearance_warm_up": ("bore_expansion", "warm_bore_rise"),
    },
    bore=DIAMETER,
    heat_factor=Q(NONE),
    piston_expansion=EXPANSION,
    bore_expansion=EXPANSION,
    coolant_rise=RISE,
    bore_slope=RISE,
    gauge_slope=RISE,
    jet_factor=Q(NONE),
    warm_bore_rise=RISE,
    warm_gauge_rise=RISE,
    floor_share=Q(NONE),
    cap_share=Q(NONE),
    low_share=Q(NONE),
    high_share=Q(NONE),
)
def piston_to_wall_expansion(
    *,
    bore: float,
    heat_factor: float,
    piston_expansion: float,
    bore_expansion: float,
    coolant_rise: float,
    bore_slope: float,
    gauge_slope: float,
    jet_factor: float,
    warm_bore_rise: float,
    warm_gauge_rise: float,
    floor_share: float,
    cap_share: float,
    low_share: float,
    high_share: float,
) -> dict[str, float]:
    """Work out the cold clearance that steady running and warm-up ask for.

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
    bore_slope, gauge_slope
        Further rise of bore and gauge point for each unit of heat factor; effective
        figures fitted to practice, not the skirt's real temperature. [K]
    jet_factor
        Share of the gauge point's further rise left with oil jets; 1 without. [-]
    warm_bore_rise, warm_gauge_rise
        Rise of bore and gauge point in warm-up, when the piston leads. [K]
    floor_share, cap_share
        Least and most clearance over bore that the alloy is ever given. [-]
    low_share, high_share
        Ends of the band over its target. [-]

    Returns
    -------
    piston_clearance_low
        Least clearance: the larger of floor and low share of the target. [m]
    piston_clearance_target
        The larger of the two states, held between floor and cap. [m]
    piston_clearance_high
        The smaller of cap and high share of the target. [m]
    piston_clearance_steady
        What full load asks for, before floor and cap. [m]
    piston_clearance_warm_up
        What warm-up asks for, before floor and cap. [m]

    Raises
    ------
    OutsideValidity
        When an argument is outside the validity, or the bore outgrows the piston as heat
        rises, so that more heat would ask for less room.

    Notes
    -----
    Each state is `cold_clearance` with nothing left when hot. The real skirt is hotter than
    these temperatures say; it is oval and barrelled and gives way, which is why the
    temperatures are fitted at the gauge point. `piston_clearance_rigid` is the bound that
    does not rest on the fit.

    References
    ----------
    Derived above from linear expansion. The temperatures are arguments, fitted to common
    practice, and marked where they are given.

    Examples
    --------
    >>> room = piston_to_wall_expansion(
    ...     bore=0.086,
    ...     heat_factor=0.8,
    ...     piston_expansion=22.3e-6,
    ...     bore_expansion=11e-6,
    ...     coolant_rise=70.0,
    ...     bore_slope=12.0,
    ...     gauge_slope=16.5,
    ...     jet_factor=1.0,
    ...     warm_bore_rise=40.0,
    ...     warm_gauge_rise=65.0,
    ...     floor_share=0.0007,
    ...     cap_share=0.0016,
    ...     low_share=0.85,
    ...     high_share=1.25,
    ... )
    >>> round(room["piston_clearance_low"] * 1e3, 3), round(room["piston_clearance_high"] * 1e3, 3)
    (0.074, 0.108)
    """
    gauge_growth = gauge_slope * jet_factor
    hold_heat(heat_factor, bore_slope, gauge_growth)
    _hold_shares(floor_share, cap_share, low_share, high_share)
    hold_growth(
        bore_expansion * bore_slope * (1.0 + piston_expansion * coolant_rise),
        piston_expansion * gauge_growth * (1.0 + bore_expansion * coolant_rise),
    )
    steady = cold_clearance(
        bore=bore,
        hot_clearance=0.0,
        bore_expansion=bore_expansion,
        bore_rise=coolant_rise + bore_slope * heat_factor,
        piston_expansion=piston_expansion,
        piston_rise=coolant_rise + gauge_growth * heat_factor,
    )
    warm_up = cold_clearance(
        bore=bore,
        hot_clearance=0.0,
        bore_expansion=bore_expansion,
        bore_rise=warm_bore_rise,
        piston_expansion=piston_expansion,
        piston_rise=warm_gauge_rise,
    )
    floor, cap = floor_share * bore, cap_share * bore
    target = min(max(steady, warm_up, floor), cap)
    return {
        "piston_clearance_low": max(floor, low_share * target),
        "piston_clearance_target": target,
        "piston_clearance_high": min(high_share * target, cap),
        "piston_clearance_steady": steady,
        "piston_clearance_warm_up": warm_up,
    }


def _hold_shares(floor: float, cap: float, low: float, high: float) -> None:
    """Hold the floor under the cap and the band's ends either side of its target."""
    remedy = "Give shares of the bore, such as 0.0007."
    within("clearance cap over bore", cap, 0.0, 0.005, remedy=remedy)
    within("clearance floor over bore", floor, 0.0, cap, remedy=remedy)
    within("low end over target", low, 0.0, 1.0, remedy="Give a share of the target below 1.")
    within("high end over target", high, 1.0, 2.0, remedy="Give a share of the target above 1.")
