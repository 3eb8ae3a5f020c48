"""The piston pin as a ring: how far it goes oval, and the hoop stress that goes with it."""

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.piston_pin import (
    BORE,
    GAUGE,
    KOLCHIN,
    OUTSIDE,
    PLAIN_LENGTH,
    STRESS,
    inside_ratio,
    piston_gas_force,
)
from planner.physics.registry import Q, physics
from planner.units import LENGTH


@physics(
    returns=Q(LENGTH),
    citation=KOLCHIN,
    validity="inside over outside diameter 0.35 to 0.75",
    rises=("bore", "pressure", "outside"),
    falls=("wall", "length", "elastic_modulus"),
    bore=BORE,
    pressure=GAUGE,
    outside=OUTSIDE,
    wall=PLAIN_LENGTH,
    length=PLAIN_LENGTH,
    elastic_modulus=STRESS,
)
def pin_ovalisation(
    *,
    bore: float,
    pressure: float,
    outside: float,
    wall: float,
    length: float,
    elastic_modulus: float,
) -> float:
    r"""Work out how much the piston pin grows sideways as it goes oval.

    Parameters
    ----------
    bore
        Finished bore. [m]
    pressure
        Highest cylinder pressure. [Pa]
    outside, wall, length
        Outside diameter, wall at the middle and overall length of the pin. [m]
    elastic_modulus
        Young's modulus of the pin; about the same for every steel. [Pa]

    Returns
    -------
    float
        Growth of the diameter across the load, in the middle of the pin. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    :math:`\Delta d = \frac{1.35 P}{E L} \left(\frac{1+\alpha}{1-\alpha}\right)^3 c`,
    :math:`c = 0.1 - (\alpha - 0.4)^3`, alpha the inside over the outside diameter. A thin
    ring under a cosine load gives 0.09 in place of 1.35 c; the factor 15 c (1.5 at alpha
    0.4) is empirical and stands for the load being gathered in the middle of the pin.
    A thick-ring solution gives 6 % less sideways growth at alpha 0.6, and 42 % more loss
    of height, which does not touch the bush. Valid for alpha 0.35 to 0.75.

    References
    ----------
    A. Kolchin and V. Demidov, Design of Automotive Engines (Mir, 1984), piston pin; from
    memory, not opened.

    Examples
    --------
    >>> growth = pin_ovalisation(
    ...     bore=0.086,
    ...     pressure=12e6,
    ...     outside=0.022,
    ...     wall=0.0055,
    ...     length=0.058,
    ...     elastic_modulus=206e9,
    ... )
    >>> round(growth * 1e3, 3)
    0.021
    """
    ratio = inside_ratio(outside, wall)
    _check(length, elastic_modulus)
    force = piston_gas_force(bore=bore, pressure=pressure)
    thin_ring = ((1 + ratio) / (1 - ratio)) ** 3
    return 1.35 * force / (elastic_modulus * length) * thin_ring * _middle_factor(ratio)


@physics(
    returns={
        "outer_side": STRESS,
        "inner_side": STRESS,
        "outer_crown": STRESS,
        "inner_crown": STRESS,
    },
    citation=KOLCHIN,
    validity="inside over outside diameter 0.35 to 0.75",
    bore=BORE,
    pressure=GAUGE,
    outside=OUTSIDE,
    wall=PLAIN_LENGTH,
    length=PLAIN_LENGTH,
)
def pin_hoop_stress(
    *, bore: float, pressure: float, outside: float, wall: float, length: float
) -> dict[str, float]:
    r"""Work out the hoop stress of the oval pin at its four points; tension is positive.

    Parameters
    ----------
    bore
        Finished bore. [m]
    pressure
        Highest cylinder pressure. [Pa]
    outside, wall, length
        Outside diameter, wall at the middle and overall length of the pin. [m]

    Returns
    -------
    dict
        outer_side and inner_side, across the load, and outer_crown and inner_crown, in
        line with it, where outer and inner are the two faces of the wall. [Pa]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    A curved bar of radius :math:`r = d (1 + \alpha) / 4` under a cosine load, with the
    side moment 0.19/2 and the crown moment 0.174/2 of P r, and the direct force in the
    wall, all times the same factor 15 c as the ovalisation. The thick-ring solution puts
    the inner side 6 % higher at alpha 0.6. Valid for alpha 0.35 to 0.75.

    References
    ----------
    A. Kolchin and V. Demidov, Design of Automotive Engines (Mir, 1984), piston pin; from
    memory, not opened.

    Examples
    --------
    >>> stress = pin_hoop_stress(
    ...     bore=0.086, pressure=12e6, outside=0.022, wall=0.005, length=0.058
    ... )
    >>> [round(stress[point] / 1e6) for point in ("outer_side", "inner_side")]
    [113, -607]
    """
    ratio = inside_ratio(outside, wall)
    _check(length, 200e9)
    force = piston_gas_force(bore=bore, pressure=pressure)
    unit = 15 * force * _middle_factor(ratio) / (length * outside)
    gap = 1 - ratio
    outer = (2 + ratio) * (1 + ratio) / gap**2
    inner = (1 + 2 * ratio) * (1 + ratio) / (gap**2 * ratio)
    return {
        "outer_side": unit * (0.19 * outer - 1 / gap),
        "inner_side": -unit * (0.19 * inner + 1 / gap),
        "outer_crown": -unit * (0.174 * outer + 0.636 / gap),
        "inner_crown": unit * (0.174 * inner - 0.636 / gap),
    }


def _middle_factor(ratio: float) -> float:
    """Give the empirical c of the ring formulas, from the inside over outside diameter."""
    return 0.1 - (ratio - 0.4) ** 3


def _check(length: float, elastic_modulus: float) -> None:
    """Refuse a length or a modulus no piston pin has."""
    within("pin length", length, 0.02, 0.15, MILLIMETRES)
    within("Young's modulus of the pin", elastic_modulus, 50e9, 700e9, ("GPa", 1e-9))
