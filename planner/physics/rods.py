"""The forces that pull at a connecting rod, and how far it stretches."""

from planner.physics.bounds import within
from planner.physics.registry import Q, outside, physics
from planner.units import AREA, FORCE, LENGTH, MASS, NONE, PRESSURE, ROTATION

MASS_OF_PART = Q(MASS)
PLAIN_LENGTH = Q(LENGTH)
SPEED_OF_ROTATION = Q(ROTATION, "speed of rotation")
STRESS = Q(PRESSURE, "stress")
HEYWOOD = "derived; slider-crank as in Heywood, Internal Combustion Engine Fundamentals, ch. 2"


@physics(
    returns=Q(FORCE),
    citation=HEYWOOD,
    validity="rod length 1.1 to 3 strokes; no pin offset",
    rises=("reciprocating_mass", "stroke", "speed"),
    falls=("rod_length",),
    reciprocating_mass=MASS_OF_PART,
    stroke=PLAIN_LENGTH,
    rod_length=PLAIN_LENGTH,
    speed=SPEED_OF_ROTATION,
)
def reciprocating_force(
    *, reciprocating_mass: float, stroke: float, rod_length: float, speed: float
) -> float:
    r"""Work out the inertia force of the reciprocating parts at top centre.

    Parameters
    ----------
    reciprocating_mass
        Piston, pin, rings and the small-end share of the rod. [kg]
    stroke, rod_length
        Stroke and rod length between centres. [m]
    speed
        Crank speed; for strength, the overspeed the parts are to stand. [rad/s]

    Returns
    -------
    float
        Force pulling the rod upward. [N]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    :math:`m r \omega^2 (1 + \lambda)`, with :math:`\lambda = r/l`. At the overlap top
    centre no gas pressure opposes it. Valid for rods of 1.1 to 3 strokes, no pin offset.

    References
    ----------
    Derived above from the slider-crank, whose motion is in J. B. Heywood, Internal
    Combustion Engine Fundamentals, chapter 2.

    Examples
    --------
    >>> force = reciprocating_force(
    ...     reciprocating_mass=0.625, stroke=0.086, rod_length=0.143, speed=785.398
    ... )
    >>> round(force)
    21563
    """
    ratio = crank_ratio(stroke, rod_length)
    return reciprocating_mass * stroke / 2 * speed**2 * (1 + ratio)


@physics(
    returns=Q(FORCE),
    citation=HEYWOOD,
    validity="rod length 1.1 to 3 strokes; cap lighter than the rotating mass",
    rises=("reciprocating_mass", "rotating_mass", "stroke", "speed"),
    falls=("cap_mass", "rod_length", "bolts"),
    reciprocating_mass=MASS_OF_PART,
    rotating_mass=MASS_OF_PART,
    cap_mass=MASS_OF_PART,
    stroke=PLAIN_LENGTH,
    rod_length=PLAIN_LENGTH,
    speed=SPEED_OF_ROTATION,
    bolts=Q(NONE),
)
def rod_joint_load(
    *,
    reciprocating_mass: float,
    rotating_mass: float,
    cap_mass: float,
    stroke: float,
    rod_length: float,
    speed: float,
    bolts: float,
) -> float:
    r"""Work out the pull on each rod bolt at the overlap top centre.

    Parameters
    ----------
    reciprocating_mass
        Piston, pin, rings and the small-end share of the rod. [kg]
    rotating_mass
        Big-end share of the rod, cap and shells included. [kg]
    cap_mass
        Cap with its shell and bolts. [kg]
    stroke, rod_length
        Stroke and rod length between centres. [m]
    speed
        Crank speed; for strength, the overspeed the parts are to stand. [rad/s]
    bolts
        Bolts of one rod. [-]

    Returns
    -------
    float
        Load of each bolt that tries to open the joint. [N]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The journal pulls the cap with :math:`m_o r \omega^2 (1+\lambda) + m_r r \omega^2`; the
    cap's own share of that turns the cap itself and does not pass the joint. Valid for
    rods of 1.1 to 3 strokes. Bending of the cap is counted by the prying factor elsewhere.

    References
    ----------
    Derived above from the slider-crank, whose motion is in J. B. Heywood, Internal
    Combustion Engine Fundamentals, chapter 2.

    Examples
    --------
    >>> load = rod_joint_load(
    ...     reciprocating_mass=0.625,
    ...     rotating_mass=0.38,
    ...     cap_mass=0.15,
    ...     stroke=0.086,
    ...     rod_length=0.143,
    ...     speed=863.938,
    ...     bolts=2.0,
    ... )
    >>> round(load)
    16736
    """
    within("bolts of one rod", bolts, 1, 4)
    if not 0 <= cap_mass < rotating_mass:
        outside(
            "cap mass",
            f"{cap_mass * 1e3:.6g} g",
            f"0 to the rotating mass, {rotating_mass * 1e3:.6g} g",
            "Weigh the cap with its bolts and shell; the rotating mass includes it.",
        )
    reciprocating = reciprocating_force(
        reciprocating_mass=reciprocating_mass, stroke=stroke, rod_length=rod_length, speed=speed
    )
    return (reciprocating + (rotating_mass - cap_mass) * stroke / 2 * speed**2) / bolts


@physics(
    returns=PLAIN_LENGTH,
    citation="derived",
    validity="elastic, one section from centre to centre",
    rises=("force", "rod_length"),
    falls=("section_area", "elastic_modulus"),
    force=Q(FORCE),
    rod_length=PLAIN_LENGTH,
    section_area=Q(AREA),
    elastic_modulus=STRESS,
)
def rod_stretch(
    *, force: float, rod_length: float, section_area: float, elastic_modulus: float
) -> float:
    """Work out how much a rod stretches under a pull.

    Parameters
    ----------
    force
        Pull on the rod. [N]
    rod_length
        Rod length between centres. [m]
    section_area
        Area of the shank's section. [m**2]
    elastic_modulus
        Young's modulus of the rod. [Pa]

    Returns
    -------
    float
        Stretch. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Hooke's law over the centre distance with the shank's section all along; the eyes are
    stiffer lengthways and softer round, which about cancels.

    References
    ----------
    Derived above from Hooke's law.

    Examples
    --------
    >>> stretch = rod_stretch(
    ...     force=26090.0, rod_length=0.143, section_area=157e-6, elastic_modulus=205e9
    ... )
    >>> round(stretch * 1e3, 3)
    0.116
    """
    within("area of the rod section", section_area, 20e-6, 2000e-6, ("mm2", 1e6))
    return force * rod_length / (section_area * elastic_modulus)


def crank_ratio(stroke: float, rod_length: float) -> float:
    """Give crank radius over rod length, refused for a rod no engine has."""
    if not 1.1 * stroke <= rod_length <= 3 * stroke:
        outside(
            "rod length",
            f"{rod_length * 1e3:.6g} mm",
            f"1.1 to 3 strokes of {stroke * 1e3:.6g} mm",
            "Give the rod's centre distance and the full stroke, both in one unit.",
        )
    return stroke / 2 / rod_length
