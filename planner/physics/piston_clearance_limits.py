"""What the piston's hot states were fitted over; refused outside."""

from planner.physics.bounds import KELVINS, within
from planner.physics.registry import outside

STATE_VALIDITY = (
    "water-cooled, bores 75 to 105 mm, heat factor 0.5 to 3, piston outgrowing its bore"
)


def hold_heat(heat_factor: float, bore_slope: float, piston_slope: float) -> None:
    """Hold the heat factor and both slopes against the range they were fitted over.

    Raises
    ------
    OutsideValidity
        When one of them is outside.
    """
    remedy = "Check power, bore and use; outside it use the piston maker's sheet."
    within("piston heat factor", heat_factor, 0.5, 3.0, remedy=remedy)
    remedy = "Use the fitted temperatures."
    within("bore temperature slope", bore_slope, 0.0, 100.0, KELVINS, remedy=remedy)
    within("piston temperature slope", piston_slope, 0.0, 100.0, KELVINS, remedy=remedy)


def hold_growth(bore_growth: float, piston_growth: float) -> None:
    """Refuse a bore that outgrows its piston as heat rises.

    The sign of the clearance's slope is that of piston_growth - bore_growth: the slope of
    (1 + a_b T_b) / (1 + a_p T_p) by heat factor, in which the factor itself cancels.

    Raises
    ------
    OutsideValidity
        When more heat would ask for less room.
    """
    if not piston_growth >= bore_growth:
        outside(
            "growth of the piston over that of the bore",
            f"{piston_growth / bore_growth:.3g}",
            "1 and more",
            "Use the piston maker's sheet for this pair of metals.",
        )
