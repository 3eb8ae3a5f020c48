"""What a ring's own tension does: its pressure on the wall, and the waves it follows."""

from planner.physics.bounds import MEGAPASCALS, MILLIMETRES, within
from planner.physics.geometry_limits import NEWTONS, hold_positive
from planner.physics.registry import Q, outside, physics
from planner.units.dimension import FORCE, LENGTH, NONE, PRESSURE

_DIAMETER = Q(LENGTH, "diameter")
_LENGTH = Q(LENGTH)


@physics(
    returns=Q(PRESSURE),
    citation="ISO 6621-1 terms; not opened",
    validity="single-piece rings with an even pressure round the bore",
    rises=("tangential_force",),
    falls=("bore", "height"),
    tangential_force=Q(FORCE),
    bore=_DIAMETER,
    height=_LENGTH,
)
def ring_wall_pressure(*, tangential_force: float, bore: float, height: float) -> float:
    """Work out the mean pressure of a ring's own tension on the wall.

    Parameters
    ----------
    tangential_force
        Pull at the ends that closes the ring to its gap. [N]
    bore
        Finished bore. [m]
    height
        Height of the ring's running face. [m]

    Returns
    -------
    float
        Mean pressure on the wall, gas pressure not counted. [Pa]

    Raises
    ------
    OutsideValidity
        When a size or the force is not above zero.

    Notes
    -----
    2 F / (B h): half the ring, cut across, is held by the pull at each cut against the
    pressure on its projected area B h.

    References
    ----------
    Derived above from the balance of half a ring; the definition is that of ISO 6621-1,
    from memory, not opened.

    Examples
    --------
    >>> round(ring_wall_pressure(tangential_force=12.0, bore=0.086, height=0.0012) / 1e6, 3)
    0.233
    """
    hold_positive("tangential force", tangential_force, NEWTONS)
    hold_positive("bore", bore, MILLIMETRES)
    hold_positive("ring height", height, MILLIMETRES)
    return 2.0 * tangential_force / (bore * height)


@physics(
    returns=_LENGTH,
    citation="derived from the bending of a thin ring",
    validity="thin rings, thickness up to 0.15 of the radius, wall waves of order 2 to 12",
    rises=("tangential_force", "neutral_radius"),
    falls=("modulus", "height", "thickness", "order"),
    tangential_force=Q(FORCE),
    neutral_radius=Q(LENGTH, "radius"),
    modulus=Q(PRESSURE),
    height=_LENGTH,
    thickness=_LENGTH,
    order=Q(NONE),
)
def ring_follows(
    *,
    tangential_force: float,
    neutral_radius: float,
    modulus: float,
    height: float,
    thickness: float,
    order: float,
) -> float:
    """Work out the largest wave of the wall that a ring's own tension still follows.

    Parameters
    ----------
    tangential_force
        Pull at the ends that closes the ring to its gap. [N]
    neutral_radius
        Radius to the middle of the ring's section, closed. [m]
    modulus
        Elastic modulus of the ring. [Pa]
    height
        Height of the ring, along the bore. [m]
    thickness
        Thickness of the ring, across the bore. [m]
    order
        Waves round the bore: 2 for an oval, 4 for four head bolts. [-]

    Returns
    -------
    float
        Radial amplitude of the wave, from the mean circle, above which the ring lifts off. [m]

    Raises
    ------
    OutsideValidity
        When the order is no whole number from 2 to 12, the ring is thicker than 0.15 of
        its radius, or a size is not above zero.

    Notes
    -----
    A thin ring bent to a cos(i t) needs the load E I (i^2 - 1)^2 a / R^4 for each length of
    circle; its own tension gives F / R. They are equal at
    a = F R^3 / (E I (i^2 - 1)^2), I = h t^3 / 12. Gas pressure behind the ring, which helps
    it under load, is left out, and so is the gap.

    References
    ----------
    Derived above from the bending of a thin ring, as in Timoshenko and Goodier, Theory of
    Elasticity; from memory.

    Examples
    --------
    >>> wave = ring_follows(
    ...     tangential_force=12.0,
    ...     neutral_radius=0.0415,
    ...     modulus=206e9,
    ...     height=0.0012,
    ...     thickness=0.003,
    ...     order=4.0,
    ... )
    >>> round(wave * 1e6, 1)
    6.9
    """
    _hold_order(order)
    hold_positive("tangential force", tangential_force, NEWTONS)
    hold_positive("neutral radius", neutral_radius, MILLIMETRES)
    hold_positive("elastic modulus", modulus, MEGAPASCALS)
    hold_positive("ring height", height, MILLIMETRES)
    remedy = "A thicker ring is no thin ring; ask its maker."
    within("ring thickness over radius", thickness / neutral_radius, 0.02, 0.15, remedy=remedy)
    stiffness = modulus * height * thickness**3 / 12.0
    return tangential_force * neutral_radius**3 / (stiffness * (order * order - 1.0) ** 2)


def _hold_order(order: float) -> None:
    """Refuse an order that is no whole number of waves from 2 to 12."""
    remedy = "Give whole waves round the bore: 2 for an oval, 4 for four head bolts."
    within("order of the wall wave", order, 2.0, 12.0, remedy=remedy)
    if order != int(order):
        outside("order of the wall wave", f"{order:g}", "whole numbers", remedy)
