"""The H-shaped section of a connecting rod."""

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.registry import Q, outside, physics
from planner.units import AREA, LENGTH, SECOND_MOMENT

PLAIN_LENGTH = Q(LENGTH)
ALL = ("depth", "flange_width", "flange_thickness", "web_thickness")


@physics(
    returns={
        "section_area": Q(AREA),
        "second_moment_in_plane": Q(SECOND_MOMENT),
        "second_moment_across": Q(SECOND_MOMENT),
    },
    citation="derived",
    validity="two flanges and a web; corner radii left out",
    rises={
        "section_area": ALL,
        "second_moment_in_plane": ALL,
        "second_moment_across": ALL,
    },
    depth=PLAIN_LENGTH,
    flange_width=PLAIN_LENGTH,
    flange_thickness=PLAIN_LENGTH,
    web_thickness=PLAIN_LENGTH,
)
def rod_h_section(
    *, depth: float, flange_width: float, flange_thickness: float, web_thickness: float
) -> dict[str, float]:
    r"""Work out area and second moments of a rod's H section.

    Parameters
    ----------
    depth
        Overall depth, measured in the plane in which the rod swings. [m]
    flange_width, flange_thickness
        Width along the crank and thickness of each flange. [m]
    web_thickness
        Thickness of the web that joins the flanges. [m]

    Returns
    -------
    dict
        section_area [m**2]; second_moment_in_plane, for buckling in the plane in which the
        rod swings, and second_moment_across, for buckling along the crank [m**4].

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The web is :math:`H - 2 t_f` long. In plane, the outer rectangle less what is missing
    beside the web: :math:`[B H^3 - (B - t_w)(H - 2 t_f)^3] / 12`; across, the sum
    :math:`[2 t_f B^3 + (H - 2 t_f) t_w^3] / 12`. For a rod whose flanges face the crank's
    ends (the other way round), exchange the two. Corner radii add a little and are left out.

    References
    ----------
    Derived above from second moments of rectangles.

    Examples
    --------
    >>> section = rod_h_section(
    ...     depth=0.022, flange_width=0.016, flange_thickness=0.0035, web_thickness=0.003
    ... )
    >>> round(section["section_area"] * 1e6), round(section["second_moment_across"] * 1e12)
    (157, 2423)
    """
    within("depth of the rod section", depth, 0.008, 0.06, MILLIMETRES)
    within("flange thickness", flange_thickness, 0.001, depth / 2, MILLIMETRES)
    if not 0 < web_thickness <= flange_width:
        outside(
            "web thickness",
            f"{web_thickness * 1e3:.6g} mm",
            f"0 to the flange width, {flange_width * 1e3:.6g} mm",
            "Measure the shank half way along: flanges outside, web between them.",
        )
    web = depth - 2 * flange_thickness
    gap = flange_width - web_thickness
    return {
        "section_area": 2 * flange_width * flange_thickness + web * web_thickness,
        "second_moment_in_plane": (flange_width * depth**3 - gap * web**3) / 12,
        "second_moment_across": (2 * flange_thickness * flange_width**3 + web * web_thickness**3)
        / 12,
    }
