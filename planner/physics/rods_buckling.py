"""Will the rod buckle under peak pressure: two column formulas, two planes."""

import math

from planner.physics.bounds import MEGAPASCALS, within
from planner.physics.piston_pin import BORE, GAUGE, piston_gas_force
from planner.physics.registry import Q, physics
from planner.physics.rods_section import rod_h_section
from planner.units import LENGTH, NONE, PRESSURE

PLAIN_LENGTH = Q(LENGTH)
STRESS = Q(PRESSURE, "stress")
SECTION = ("depth", "flange_width", "flange_thickness", "web_thickness")
# In the plane of swing both eyes turn on their pins; along the crank they are held square.
IN_PLANE_FACTOR, IN_PLANE_FIXITY = 1.0, 1.0
ACROSS_FACTOR, ACROSS_FIXITY = 0.5, 4.0


@physics(
    returns=STRESS,
    citation="Rankine and Gordon column formula with Euler's constant",
    validity="slenderness up to 200",
    rises=("yield_strength", "elastic_modulus", "radius_of_gyration"),
    falls=("length", "length_factor"),
    yield_strength=STRESS,
    elastic_modulus=STRESS,
    length=PLAIN_LENGTH,
    radius_of_gyration=PLAIN_LENGTH,
    length_factor=Q(NONE),
)
def rankine_stress(
    *,
    yield_strength: float,
    elastic_modulus: float,
    length: float,
    radius_of_gyration: float,
    length_factor: float,
) -> float:
    r"""Work out the buckling stress of a column after Rankine.

    Parameters
    ----------
    yield_strength, elastic_modulus
        Of the column's material. [Pa]
    length
        Length of the column between its ends. [m]
    radius_of_gyration
        Root of second moment over area, for the plane looked at. [m]
    length_factor
        Effective over actual length: 1 for pinned ends, 0.5 for ends held square. [-]

    Returns
    -------
    float
        Mean stress at which the column gives way. [Pa]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    :math:`S_y / [1 + S_y (K l / k)^2 / (\pi^2 E)]`: the yield strength when short, Euler's
    stress when slender, and below both between. Valid for slenderness K l / k up to 200.

    References
    ----------
    The Rankine-Gordon column formula of the strength-of-materials textbooks, with Euler's
    constant; from memory, not opened. Both limit cases are derived above.

    Examples
    --------
    >>> stress = rankine_stress(
    ...     yield_strength=850e6,
    ...     elastic_modulus=206e9,
    ...     length=0.143,
    ...     radius_of_gyration=0.008194,
    ...     length_factor=1.0,
    ... )
    >>> round(stress / 1e6)
    754
    """
    slenderness = _slenderness(length * length_factor, radius_of_gyration, yield_strength)
    euler = math.pi**2 * elastic_modulus / slenderness**2
    return yield_strength / (1 + yield_strength / euler)


@physics(
    returns=STRESS,
    citation="Shigley's Mechanical Engineering Design, columns: Johnson and Euler",
    validity="slenderness up to 200",
    rises=("yield_strength", "elastic_modulus", "radius_of_gyration", "end_fixity"),
    falls=("length",),
    yield_strength=STRESS,
    elastic_modulus=STRESS,
    length=PLAIN_LENGTH,
    radius_of_gyration=PLAIN_LENGTH,
    end_fixity=Q(NONE),
)
def johnson_euler_stress(
    *,
    yield_strength: float,
    elastic_modulus: float,
    length: float,
    radius_of_gyration: float,
    end_fixity: float,
) -> float:
    r"""Work out the buckling stress of a column after Johnson, or Euler when slender.

    Parameters
    ----------
    yield_strength, elastic_modulus
        Of the column's material. [Pa]
    length
        Length of the column between its ends. [m]
    radius_of_gyration
        Root of second moment over area, for the plane looked at. [m]
    end_fixity
        End condition C: 1 for pinned ends, 4 for ends held square. [-]

    Returns
    -------
    float
        Mean stress at which the column gives way. [Pa]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Up to :math:`l/k = \sqrt{2 \pi^2 C E / S_y}` Johnson's parabola
    :math:`S_y - (S_y l / 2 \pi k)^2 / (C E)`, above it Euler's
    :math:`C \pi^2 E / (l/k)^2`; the two meet there with one slope. Valid for slenderness
    up to 200.

    References
    ----------
    Shigley's Mechanical Engineering Design, chapter on deflection and stiffness, columns;
    from memory, not opened.

    Examples
    --------
    >>> stress = johnson_euler_stress(
    ...     yield_strength=850e6,
    ...     elastic_modulus=205e9,
    ...     length=0.143,
    ...     radius_of_gyration=0.008194,
    ...     end_fixity=1.0,
    ... )
    >>> round(stress / 1e6)
    823
    """
    slenderness = _slenderness(length, radius_of_gyration, yield_strength)
    stiffness = end_fixity * elastic_modulus
    if slenderness > math.sqrt(2 * math.pi**2 * stiffness / yield_strength):
        return math.pi**2 * stiffness / slenderness**2
    return yield_strength - (yield_strength * slenderness / (2 * math.pi)) ** 2 / stiffness


_COLUMN_STRESSES = ("rankine_in_plane", "rankine_across", "johnson_in_plane", "johnson_across")


@physics(
    returns={
        "rod_buckling_safety": Q(NONE),
        "rod_johnson_safety": Q(NONE),
        "rod_compression_stress": STRESS,
        "rankine_in_plane": STRESS,
        "rankine_across": STRESS,
        "johnson_in_plane": STRESS,
        "johnson_across": STRESS,
    },
    citation="Rankine and Gordon; Shigley's Mechanical Engineering Design, columns",
    validity="H section, slenderness up to 200",
    rises={
        "rod_buckling_safety": ("yield_strength", "elastic_modulus"),
        "rod_johnson_safety": ("yield_strength", "elastic_modulus"),
        "rod_compression_stress": ("bore", "pressure"),
        **dict.fromkeys(
            _COLUMN_STRESSES, ("bore", "pressure", "yield_strength", "elastic_modulus")
        ),
    },
    falls={
        "rod_buckling_safety": ("bore", "pressure", "rod_length"),
        "rod_johnson_safety": ("bore", "pressure", "rod_length"),
        "rod_compression_stress": SECTION,
        **dict.fromkeys(_COLUMN_STRESSES, ("rod_length",)),
    },
    bore=BORE,
    pressure=GAUGE,
    rod_length=PLAIN_LENGTH,
    depth=PLAIN_LENGTH,
    flange_width=PLAIN_LENGTH,
    flange_thickness=PLAIN_LENGTH,
    web_thickness=PLAIN_LENGTH,
    yield_strength=STRESS,
    elastic_modulus=STRESS,
)
def rod_buckling(
    *,
    bore: float,
    pressure: float,
    rod_length: float,
    depth: float,
    flange_width: float,
    flange_thickness: float,
    web_thickness: float,
    yield_strength: float,
    elastic_modulus: float,
) -> dict[str, float]:
    """Check a rod's H section against buckling under peak pressure.

    Parameters
    ----------
    bore
        Finished bore. [m]
    pressure
        Highest cylinder pressure that the parts are to stand. [Pa]
    rod_length
        Rod length between centres. [m]
    depth, flange_width, flange_thickness, web_thickness
        The H section half way along the shank. [m]
    yield_strength, elastic_modulus
        Of the rod's steel as treated. [Pa]

    Returns
    -------
    dict
        rod_buckling_safety after Rankine and rod_johnson_safety after Johnson or Euler,
        each in its worse plane [-]; rod_compression_stress from gas alone, and the
        buckling stresses rankine_in_plane, rankine_across, johnson_in_plane and
        johnson_across [Pa].

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Pinned ends in the plane of swing, ends held square along the crank. The gas force is
    taken whole: at the low speed at which a boosted engine peaks, inertia hardly relieves
    it. The whip of the rod and holes in the shank are left out.

    References
    ----------
    Rankine and Gordon's column formula; Shigley's Mechanical Engineering Design, columns;
    both from memory, not opened. The combination is derived above.

    Examples
    --------
    >>> rod = rod_buckling(
    ...     bore=0.086,
    ...     pressure=12e6,
    ...     rod_length=0.143,
    ...     depth=0.022,
    ...     flange_width=0.016,
    ...     flange_thickness=0.0035,
    ...     web_thickness=0.003,
    ...     yield_strength=850e6,
    ...     elastic_modulus=206e9,
    ... )
    >>> round(rod["rod_buckling_safety"], 2), round(rod["rod_compression_stress"] / 1e6)
    (1.68, 444)
    """
    section = rod_h_section(
        depth=depth,
        flange_width=flange_width,
        flange_thickness=flange_thickness,
        web_thickness=web_thickness,
    )
    area = section["section_area"]
    stress = piston_gas_force(bore=bore, pressure=pressure) / area
    steel = {"yield_strength": yield_strength, "elastic_modulus": elastic_modulus}
    found = {}
    for plane, factor, fixity in (
        ("in_plane", IN_PLANE_FACTOR, IN_PLANE_FIXITY),
        ("across", ACROSS_FACTOR, ACROSS_FIXITY),
    ):
        gyration = math.sqrt(section[f"second_moment_{plane}"] / area)
        column = {**steel, "length": rod_length, "radius_of_gyration": gyration}
        found[f"rankine_{plane}"] = rankine_stress(**column, length_factor=factor)
        found[f"johnson_{plane}"] = johnson_euler_stress(**column, end_fixity=fixity)
    return {
        "rod_buckling_safety": min(found["rankine_in_plane"], found["rankine_across"]) / stress,
        "rod_johnson_safety": min(found["johnson_in_plane"], found["johnson_across"]) / stress,
        "rod_compression_stress": stress,
        **found,
    }


def _slenderness(length: float, gyration: float, yield_strength: float) -> float:
    """Give length over radius of gyration, refused where no rod is."""
    within("yield strength of the rod", yield_strength, 100e6, 3000e6, MEGAPASCALS)
    slenderness = length / gyration
    within("slenderness of the rod", slenderness, 1, 200)
    return slenderness
