"""A bolted joint at work: what the bolt feels, and when the faces part."""

from planner.physics.bounds import within
from planner.physics.registry import Q, outside, physics
from planner.units import AREA, FORCE, NONE, PRESSURE

LOAD = Q(FORCE)
SHARE = Q(NONE)
SHIGLEY = "Shigley's Mechanical Engineering Design, bolted joints in tension"


@physics(
    returns=LOAD,
    citation=SHIGLEY,
    validity="load share 0.02 to 0.6; joint not yet parted",
    rises=("preload", "load_per_bolt", "load_share"),
    preload=LOAD,
    load_per_bolt=LOAD,
    load_share=SHARE,
)
def bolt_working_load(*, preload: float, load_per_bolt: float, load_share: float) -> float:
    """Work out the tension of a bolt while the joint is loaded.

    Parameters
    ----------
    preload
        Clamping force. [N]
    load_per_bolt
        Pull on the joint for each bolt. [N]
    load_share
        Share of the pull that the bolt takes; the clamped parts take the rest. [-]

    Returns
    -------
    float
        Tension in the bolt. [N]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Preload plus the bolt's share of the pull, as long as the faces hold together: once
    they part, the bolt takes all of it. Valid for shares of 0.02 to 0.6.

    References
    ----------
    Shigley's Mechanical Engineering Design, chapter on screws and fasteners, joints in
    tension; from memory, not opened.

    Examples
    --------
    >>> round(bolt_working_load(preload=42075.0, load_per_bolt=16736.0, load_share=0.2))
    45422
    """
    _check(load_per_bolt, load_share)
    if preload <= (1 - load_share) * load_per_bolt:
        outside(
            "preload",
            f"{preload / 1e3:.6g} kN",
            f"what holds the faces together, over {(1 - load_share) * load_per_bolt / 1e3:.6g} kN",
            "Choose a stronger or larger bolt: this joint opens at every turn.",
        )
    return preload + load_share * load_per_bolt


@physics(
    returns=SHARE,
    citation=SHIGLEY,
    validity="load share 0.02 to 0.6; joint not yet parted",
    rises=("preload", "load_per_bolt", "load_share"),
    falls=("stress_area", "yield_strength"),
    preload=LOAD,
    load_per_bolt=LOAD,
    load_share=SHARE,
    stress_area=Q(AREA),
    yield_strength=Q(PRESSURE, "stress"),
)
def bolt_yield_share(
    *,
    preload: float,
    load_per_bolt: float,
    load_share: float,
    stress_area: float,
    yield_strength: float,
) -> float:
    """Work out how much of its yield a bolt uses at work.

    Parameters
    ----------
    preload
        Clamping force. [N]
    load_per_bolt
        Pull on the joint for each bolt. [N]
    load_share
        Share of the pull that the bolt takes. [-]
    stress_area
        Stress area of the thread. [m**2]
    yield_strength
        Yield strength of the bolt. [Pa]

    Returns
    -------
    float
        Tension over what makes the bolt yield; 1 is the limit. [-]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Working load over area times yield. Twist left from tightening and bending of the bolt
    are not counted.

    References
    ----------
    Shigley's Mechanical Engineering Design, chapter on screws and fasteners, joints in
    tension; from memory, not opened.

    Examples
    --------
    >>> share = bolt_yield_share(
    ...     preload=42075.0,
    ...     load_per_bolt=16736.0,
    ...     load_share=0.2,
    ...     stress_area=51.0e-6,
    ...     yield_strength=1100e6,
    ... )
    >>> round(share, 2)
    0.81
    """
    within("stress area", stress_area, 4e-6, 1200e-6, ("mm2", 1e6))
    tension = bolt_working_load(
        preload=preload, load_per_bolt=load_per_bolt, load_share=load_share
    )
    return tension / (stress_area * yield_strength)


@physics(
    returns=SHARE,
    citation=SHIGLEY,
    validity="load share 0.02 to 0.6; prying factor 1 to 3",
    rises=("preload", "load_share"),
    falls=("load_per_bolt", "prying_factor"),
    preload=LOAD,
    load_per_bolt=LOAD,
    load_share=SHARE,
    prying_factor=SHARE,
)
def joint_separation(
    *, preload: float, load_per_bolt: float, load_share: float, prying_factor: float
) -> float:
    """Work out the margin before the faces of a bolted joint part.

    Parameters
    ----------
    preload
        Clamping force. [N]
    load_per_bolt
        Pull on the joint for each bolt. [N]
    load_share
        Share of the pull that the bolt takes. [-]
    prying_factor
        How much more the inner edge of the joint feels because the pull is off the bolt's
        line; 1 when it is not. [-]

    Returns
    -------
    float
        Factor by which the load could grow before the faces part. [-]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Preload over (1 - share) times load times prying factor. A parted big-end joint frets,
    and its bolts then feel the whole load and break.

    References
    ----------
    Shigley's Mechanical Engineering Design, bolted joints in tension, joint separation;
    from memory, not opened. The prying factor is common practice.

    Examples
    --------
    >>> margin = joint_separation(
    ...     preload=42075.0, load_per_bolt=16736.0, load_share=0.2, prying_factor=1.0
    ... )
    >>> round(margin, 2)
    3.14
    """
    _check(load_per_bolt, load_share)
    within("prying factor", prying_factor, 1, 3)
    return preload / ((1 - load_share) * load_per_bolt * prying_factor)


def _check(load_per_bolt: float, load_share: float) -> None:
    """Refuse a load that does not pull and a share no steel joint has."""
    within("pull on each bolt", load_per_bolt, 1.0, 1e6, ("kN", 1e-3))
    within("bolt's share of the load", load_share, 0.02, 0.6)
