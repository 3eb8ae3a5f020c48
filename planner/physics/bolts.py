"""Tightening a bolt: preload, and the stretch and torque that show it."""

import math

from planner.physics.bounds import MEGAPASCALS, MILLIMETRES, within
from planner.physics.registry import Q, physics
from planner.units import AREA, FORCE, LENGTH, NONE, PRESSURE, TORQUE

DIAMETER = Q(LENGTH, "diameter")
FRICTION = Q(NONE)
PLAIN_LENGTH = Q(LENGTH)
PRELOAD = Q(FORCE)
STRESS = Q(PRESSURE, "stress")
TWIST = Q(TORQUE, "torque")


@physics(
    returns=PRELOAD,
    citation="derived",
    validity="0.3 to 0.95 of yield",
    rises=("stress_area", "yield_strength", "yield_share"),
    stress_area=Q(AREA),
    yield_strength=STRESS,
    yield_share=Q(NONE),
)
def bolt_preload(*, stress_area: float, yield_strength: float, yield_share: float) -> float:
    """Work out the preload of a bolt tightened to a share of its yield.

    Parameters
    ----------
    stress_area
        Stress area of the thread, or of the shank where that is smaller. [m**2]
    yield_strength
        Yield strength of the bolt. [Pa]
    yield_share
        Share of the yield that tightening uses. [-]

    Returns
    -------
    float
        Clamping force. [N]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Area times yield times share. The twist of tightening takes a further part of the
    yield, which is why the share stays well under 1. Valid for shares of 0.3 to 0.95;
    torque-to-yield bolts are tightened by their maker's angle instead.

    References
    ----------
    Derived above from the definition of stress.

    Examples
    --------
    >>> force = bolt_preload(stress_area=51.0e-6, yield_strength=1100e6, yield_share=0.75)
    >>> round(force)
    42075
    """
    within("yield strength of the bolt", yield_strength, 200e6, 3000e6, MEGAPASCALS)
    within(
        "share of yield",
        yield_share,
        0.3,
        0.95,
        remedy="For bolts tightened into yield follow the maker's torque and angle.",
    )
    return stress_area * yield_strength * yield_share


@physics(
    returns=PLAIN_LENGTH,
    citation="derived",
    validity="elastic; shank and free thread in series",
    rises=("preload", "shank_length", "thread_length"),
    falls=("shank_diameter", "stress_area", "elastic_modulus"),
    preload=PRELOAD,
    shank_length=PLAIN_LENGTH,
    shank_diameter=DIAMETER,
    thread_length=PLAIN_LENGTH,
    stress_area=Q(AREA),
    elastic_modulus=STRESS,
)
def bolt_stretch(
    *,
    preload: float,
    shank_length: float,
    shank_diameter: float,
    thread_length: float,
    stress_area: float,
    elastic_modulus: float,
) -> float:
    """Work out how much a bolt grows when tightened.

    Parameters
    ----------
    preload
        Clamping force. [N]
    shank_length, shank_diameter
        Length and diameter of the plain shank between head and thread. [m]
    thread_length
        Free thread under load, with about half the engaged thread. [m]
    stress_area
        Stress area of the thread. [m**2]
    elastic_modulus
        Young's modulus of the bolt. [Pa]

    Returns
    -------
    float
        Growth in length. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Shank and thread are springs in series, each :math:`F l / (A E)`. The head gives a
    little more; the bolt maker's stretch figure, measured on the bolt, goes first.

    References
    ----------
    Derived above from Hooke's law.

    Examples
    --------
    >>> growth = bolt_stretch(
    ...     preload=42075.0,
    ...     shank_length=0.028,
    ...     shank_diameter=0.0076,
    ...     thread_length=0.006,
    ...     stress_area=51.0e-6,
    ...     elastic_modulus=205e9,
    ... )
    >>> round(growth * 1e3, 3)
    0.151
    """
    within("shank diameter", shank_diameter, 0.003, 0.04, MILLIMETRES)
    within("stress area", stress_area, 4e-6, 1200e-6, ("mm2", 1e6))
    shank_area = math.pi / 4 * shank_diameter**2
    return preload / elastic_modulus * (shank_length / shank_area + thread_length / stress_area)


@physics(
    returns=TWIST,
    citation="common practice",
    validity="nut factor 0.05 to 0.4",
    rises=("preload", "nominal", "nut_factor"),
    preload=PRELOAD,
    nominal=DIAMETER,
    nut_factor=FRICTION,
)
def bolt_torque(*, preload: float, nominal: float, nut_factor: float) -> float:
    """Work out the tightening torque of a bolt from a nut factor.

    Parameters
    ----------
    preload
        Clamping force wanted. [N]
    nominal
        Nominal diameter of the thread. [m]
    nut_factor
        Torque over force and diameter, by lubricant. [-]

    Returns
    -------
    float
        Torque at the wrench. [N*m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    K F d. The factor changes with lubricant, finish and the number of times the bolt was
    turned, so the force scatters by a quarter or more: measured stretch goes before torque
    wherever both ends of the bolt can be reached.

    References
    ----------
    Common practice, no source for the factor; the form is in Shigley's Mechanical
    Engineering Design, bolt torque.

    Examples
    --------
    >>> round(bolt_torque(preload=42075.0, nominal=0.009, nut_factor=0.15), 1)
    56.8
    """
    within("nut factor", nut_factor, 0.05, 0.4)
    within("thread diameter", nominal, 0.003, 0.04, MILLIMETRES)
    return nut_factor * preload * nominal


@physics(
    returns=TWIST,
    citation="VDI 2230, tightening torque; from memory, not opened",
    validity="60 degree threads; friction 0.03 to 0.4",
    rises=(
        "preload",
        "pitch",
        "pitch_diameter",
        "thread_friction",
        "head_diameter",
        "head_friction",
    ),
    preload=PRELOAD,
    pitch=PLAIN_LENGTH,
    pitch_diameter=DIAMETER,
    thread_friction=FRICTION,
    head_diameter=DIAMETER,
    head_friction=FRICTION,
)
def bolt_torque_from_friction(
    *,
    preload: float,
    pitch: float,
    pitch_diameter: float,
    thread_friction: float,
    head_diameter: float,
    head_friction: float,
) -> float:
    r"""Work out the tightening torque of a bolt from the friction of thread and head.

    Parameters
    ----------
    preload
        Clamping force wanted. [N]
    pitch, pitch_diameter
        Pitch and pitch diameter of the thread. [m]
    thread_friction, head_friction
        Coefficients of friction in the thread and under the head. [-]
    head_diameter
        Mean diameter of the ring on which head or nut rubs. [m]

    Returns
    -------
    float
        Torque at the wrench. [N*m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    :math:`F [P / 2\pi + \mu_t d_2 / (2 \cos 30°) + \mu_h D_b / 2]`: the first part lifts
    the load, the other two are lost to friction. Valid for 60 degree threads, whose flank
    is 30 degrees from square, and small helix angles.

    References
    ----------
    VDI 2230, Systematic calculation of highly stressed bolted joints, tightening torque
    (0.159 P + 0.577 d2 mu + 0.5 D mu); from memory, not opened.

    Examples
    --------
    >>> torque = bolt_torque_from_friction(
    ...     preload=42100.0,
    ...     pitch=0.001,
    ...     pitch_diameter=0.00835,
    ...     thread_friction=0.10,
    ...     head_diameter=0.012,
    ...     head_friction=0.10,
    ... )
    >>> round(torque, 1)
    52.3
    """
    within("friction in the thread", thread_friction, 0.03, 0.4)
    within("friction under the head", head_friction, 0.03, 0.4)
    lift = pitch / (2 * math.pi)
    thread = thread_friction * pitch_diameter / (2 * math.cos(math.pi / 6))
    return preload * (lift + thread + head_friction * head_diameter / 2)
