"""The least oil film of a big end over a cycle, from a pressure trace."""

import math
from collections.abc import Sequence

from planner.physics.bearing_clearance import CLEARANCE, DIAMETER, SPEED_OF_ROTATION, check_journal
from planner.physics.bearing_film_axes import LONGEST, SHORTEST
from planner.physics.bearing_orbit import TOUCHING, Bearing, orbit
from planner.physics.bearing_orbit_load import Drive, big_end_loads, big_end_turning
from planner.physics.bounds import MILLIMETRES, PLAIN, within
from planner.physics.registry import Q, outside, physics
from planner.units import FORCE, LENGTH, MASS, PRESSURE, VISCOSITY

BORE = Q(LENGTH, "diameter")
MASS_OF_PART = Q(MASS)
OIL = Q(VISCOSITY)
PLAIN_LENGTH = Q(LENGTH)
RESULTS = {
    "least_film": Q(LENGTH),
    "peak_load": Q(FORCE),
    "mean_load": Q(FORCE),
    "peak_specific_load": Q(PRESSURE, "stress"),
}
BOOKER = "J. F. Booker, Dynamically loaded journal bearings, J. Basic Engineering (1965)"
VALID = "width over diameter 0.25 to 1, film at least 3 % of the radial clearance"
FEWEST = 24


@physics(
    slow=True,
    returns=RESULTS,
    citation=BOOKER,
    validity=VALID,
    rises={"least_film": ("viscosity",)},
    falls={"peak_specific_load": ("width",)},
    pressures=Q(PRESSURE, "gauge", grid=True),
    bore=BORE,
    stroke=PLAIN_LENGTH,
    rod_length=PLAIN_LENGTH,
    reciprocating_mass=MASS_OF_PART,
    rotating_mass=MASS_OF_PART,
    speed=SPEED_OF_ROTATION,
    journal=DIAMETER,
    width=PLAIN_LENGTH,
    clearance=CLEARANCE,
    viscosity=OIL,
)
def big_end_orbit(
    *,
    pressures: Sequence[Sequence[float]],
    bore: float,
    stroke: float,
    rod_length: float,
    reciprocating_mass: float,
    rotating_mass: float,
    speed: float,
    journal: float,
    width: float,
    clearance: float,
    viscosity: float,
) -> dict[str, float]:
    r"""Work out the least oil film of a big end from a pressure trace.

    Parameters
    ----------
    pressures
        One row of cylinder pressures at evenly spaced crank angles over two turns, the
        first at firing top centre; half a degree apart is fine enough. [Pa]
    bore
        Finished bore. [m]
    stroke, rod_length
        Stroke and rod length between centres. [m]
    reciprocating_mass, rotating_mass
        Piston with pin, rings and the small-end share of the rod; big-end share. [kg]
    speed
        Crank speed. [rad/s]
    journal, width
        Journal diameter and width of the shell that carries. [m]
    clearance
        Clearance on diameter, hot. [m]
    viscosity
        Dynamic viscosity of the oil in the film, at high shear. [Pa*s]

    Returns
    -------
    dict
        least_film, the thinnest the film gets in the cycle [m]; peak_load and mean_load of
        the journal [N]; peak_specific_load, over diameter times width [Pa].

    Raises
    ------
    OutsideValidity
        When the film is thinner than the map can tell, or an argument is no engine's.

    Notes
    -----
    Booker's mobility method with the short-bearing map, in the frame of the rod:
    :math:`\dot e = (F / l D)(c/R)^2 / \mu \; M + \tfrac12 \omega_{rel} \times e`, with
    :math:`\omega_{rel} = \omega (1 + \lambda \cos\theta / \cos\phi)`, followed until it
    repeats. The load of the big end's own mass turns with the journal. Round, rigid, well
    fed and in line: a real shell bends and its film is thinner in places and wider in
    others. Compare builds with it, and heed the limits as screening. The short-bearing map
    is a little hopeful for widths over half the diameter. Valid for widths of 0.25 to 1
    diameters and films of at least 3 % of the radial clearance.

    References
    ----------
    J. F. Booker, Dynamically loaded journal bearings: mobility method of solution, Journal
    of Basic Engineering (1965); not opened.

    Examples
    --------
    >>> film = big_end_orbit(
    ...     pressures=(
    ...         (
    ...             9e6,
    ...             6e6,
    ...             2e6,
    ...             1e6,
    ...             6e5,
    ...             3e5,
    ...             1.5e5,
    ...             1.5e5,
    ...             1.5e5,
    ...             1.5e5,
    ...             1.5e5,
    ...             1.5e5,
    ...             1.4e5,
    ...             1.4e5,
    ...             1.4e5,
    ...             1.4e5,
    ...             1.4e5,
    ...             1.4e5,
    ...             1.4e5,
    ...             1.4e5,
    ...             2e5,
    ...             5e5,
    ...             1e6,
    ...             4e6,
    ...         ),
    ...     ),
    ...     bore=0.086,
    ...     stroke=0.086,
    ...     rod_length=0.143,
    ...     reciprocating_mass=0.625,
    ...     rotating_mass=0.38,
    ...     speed=628.0,
    ...     journal=0.048,
    ...     width=0.019,
    ...     clearance=0.055e-3,
    ...     viscosity=8e-3,
    ... )
    >>> round(film["least_film"] * 1e6, 1), round(film["peak_specific_load"] / 1e6)
    (2.1, 35)
    """
    (row,) = pressures
    if len(row) < FEWEST:
        outside(
            "pressure trace",
            f"{len(row)} pressures long",
            f"{FEWEST} and more over two turns",
            "Give evenly spaced pressures, half a degree apart, from firing top centre.",
        )
    _check(journal, width, clearance, viscosity)
    drive = Drive(bore, stroke, rod_length, reciprocating_mass, rotating_mass)
    loads = big_end_loads(row, drive, speed)
    ease = (clearance / journal) ** 2 / (viscosity * width * journal * speed)
    path = orbit(loads, big_end_turning(drive, len(row)), Bearing(ease, width / journal))
    most = max(abs(place) for place in path)
    within(
        "eccentricity of the journal",
        most,
        0,
        TOUCHING,
        PLAIN,
        remedy="The film is thinner than 3 % of the clearance: treat it as a stop. Less load "
        "at low revs, thicker oil or a wider shell.",
    )
    sizes = [abs(load) for load in loads]
    return {
        "least_film": clearance / 2 * (1 - most),
        "peak_load": max(sizes),
        "mean_load": math.fsum(sizes) / len(sizes),
        "peak_specific_load": max(sizes) / (journal * width),
    }


def _check(journal: float, width: float, clearance: float, viscosity: float) -> None:
    """Refuse a bearing the short-bearing map was not made for."""
    check_journal(journal)
    within("bearing width over journal diameter", width / journal, SHORTEST, LONGEST)
    within("oil clearance", clearance, 0.005e-3, 0.5e-3, MILLIMETRES)
    within("viscosity of the oil", viscosity, 0.5e-3, 1.0, ("mPa s", 1e3))
