"""The steady oil film of a plain bearing: thickness, friction, flow, heat."""

import math

from planner.physics.bearing_clearance import CLEARANCE, DIAMETER, SPEED_OF_ROTATION, check_journal
from planner.physics.bearing_film_table import film_under
from planner.physics.bounds import MILLIMETRES, within
from planner.physics.registry import Q, physics
from planner.units import (
    DENSITY,
    FLOW,
    FORCE,
    LENGTH,
    NONE,
    POWER,
    PRESSURE,
    SPECIFIC_HEAT,
    TEMPERATURE,
    VISCOSITY,
)

LOAD = Q(FORCE)
OIL = Q(VISCOSITY)
RATIO = Q(NONE)
WIDTH = Q(LENGTH)
RAIMONDI = (
    "A. A. Raimondi and J. Boyd, A solution for the finite journal bearing, ASLE Trans. 1 "
    "(1958); table generated here from the Reynolds equation"
)


@physics(
    slow=True,
    returns=RATIO,
    citation=RAIMONDI,
    validity="full bearing, steady load",
    rises=("speed", "viscosity", "width"),
    falls=("force", "clearance"),
    force=LOAD,
    journal=DIAMETER,
    width=WIDTH,
    clearance=CLEARANCE,
    speed=SPEED_OF_ROTATION,
    viscosity=OIL,
)
def sommerfeld_number(
    *,
    force: float,
    journal: float,
    width: float,
    clearance: float,
    speed: float,
    viscosity: float,
) -> float:
    r"""Work out the Sommerfeld number of a bearing.

    Parameters
    ----------
    force
        Steady load on the journal. [N]
    journal, width
        Journal diameter and width of the shell that carries. [m]
    clearance
        Clearance on diameter, hot. [m]
    speed
        Speed of the journal in the bearing. [rad/s]
    viscosity
        Dynamic viscosity of the oil in the film. [Pa*s]

    Returns
    -------
    float
        Sommerfeld number; small is heavily loaded. [-]

    Raises
    ------
    OutsideValidity
        When an argument is no bearing's.

    Notes
    -----
    :math:`S = (R/c)^2 \mu N / P` with c the radial clearance, N turns per second and
    :math:`P = W / (2 R l)`. Valid for full bearings under steady load.

    References
    ----------
    A. A. Raimondi and J. Boyd, A solution for the finite journal bearing and its
    application to analysis and design, ASLE Transactions 1 (1958); not opened.

    Examples
    --------
    >>> number = sommerfeld_number(
    ...     force=19800.0,
    ...     journal=0.048,
    ...     width=0.019,
    ...     clearance=0.055e-3,
    ...     speed=785.4,
    ...     viscosity=4.5e-3,
    ... )
    >>> round(number, 4)
    0.0197
    """
    check_journal(journal)
    within("bearing load", force, 1, 1e6, ("kN", 1e-3))
    within("oil clearance", clearance, 0.005e-3, 0.5e-3, MILLIMETRES)
    pressure = force / (journal * width)
    return (journal / clearance) ** 2 * viscosity * speed / (2 * math.pi) / pressure


@physics(
    slow=True,
    returns=RATIO,
    citation=RAIMONDI,
    validity="eccentricity 0.05 to 0.97, width over diameter 0.25 to 1",
    falls=("sommerfeld", "length_to_diameter"),
    sommerfeld=RATIO,
    length_to_diameter=RATIO,
)
def film_eccentricity(*, sommerfeld: float, length_to_diameter: float) -> float:
    """Look up how far a loaded journal moves out of the middle of its bearing.

    Parameters
    ----------
    sommerfeld
        Sommerfeld number. [-]
    length_to_diameter
        Bearing width over journal diameter. [-]

    Returns
    -------
    float
        Displacement over radial clearance: 0 in the middle, 1 touching. [-]

    Raises
    ------
    OutsideValidity
        When the load or the width is outside the table.

    Notes
    -----
    Interpolated in a table made from the Reynolds equation by finite volumes, with the film
    starting at its thickest and breaking where pressure would fall below zero. Valid for
    eccentricities of 0.05 to 0.97 and widths of 0.25 to 1 diameters; never extrapolated.

    References
    ----------
    A. A. Raimondi and J. Boyd, A solution for the finite journal bearing and its
    application to analysis and design, ASLE Transactions 1 (1958); not opened.

    Examples
    --------
    >>> round(film_eccentricity(sommerfeld=0.121, length_to_diameter=0.99), 2)
    0.6
    """
    return film_under(sommerfeld, length_to_diameter).eccentricity


@physics(
    slow=True,
    returns={
        "eccentricity": RATIO,
        "least_film": Q(LENGTH),
        "friction_power": Q(POWER),
        "oil_flow": Q(FLOW),
        "side_flow": Q(FLOW),
        "temperature_rise": Q(TEMPERATURE, "rise"),
        "peak_film_pressure": Q(PRESSURE, "stress"),
    },
    citation=RAIMONDI,
    validity="eccentricity 0.05 to 0.97, width over diameter 0.25 to 1, steady load",
    rises={
        "eccentricity": ("force", "clearance"),
        "least_film": ("speed", "viscosity", "width"),
        "peak_film_pressure": ("force",),
    },
    falls={
        "eccentricity": ("speed", "viscosity", "width"),
        "least_film": ("force",),
        "temperature_rise": ("oil_density", "specific_heat"),
    },
    force=LOAD,
    journal=DIAMETER,
    width=WIDTH,
    clearance=CLEARANCE,
    speed=SPEED_OF_ROTATION,
    viscosity=OIL,
    oil_density=Q(DENSITY),
    specific_heat=Q(SPECIFIC_HEAT),
)
def bearing_film(
    *,
    force: float,
    journal: float,
    width: float,
    clearance: float,
    speed: float,
    viscosity: float,
    oil_density: float,
    specific_heat: float,
) -> dict[str, float]:
    r"""Work out the steady oil film of a plain bearing.

    Parameters
    ----------
    force
        Steady load on the journal; of an engine bearing, the mean over a cycle. [N]
    journal, width
        Journal diameter and width of the shell that carries. [m]
    clearance
        Clearance on diameter, hot. [m]
    speed
        Speed of the journal in the bearing. [rad/s]
    viscosity
        Dynamic viscosity of the oil in the film. [Pa*s]
    oil_density
        Density of the warm oil. [kg/m**3]
    specific_heat
        Specific heat of the oil. [J/kg/K]

    Returns
    -------
    dict
        eccentricity [-]; least_film, the thinnest place [m]; friction_power lost [W];
        oil_flow into the film and side_flow out at the edges [m**3/s]; temperature_rise of
        the oil, no heat leaving by the metal [K]; peak_film_pressure [Pa].

    Raises
    ------
    OutsideValidity
        When the load or the width is outside the table.

    Notes
    -----
    From the table of the Reynolds equation. The rise is
    :math:`4 \pi P (R f / c) / [\rho c_p (Q / R c N l)(1 - Q_s / 2 Q)]`, oil leaving at the
    edges half warmed. Its size is overstated, since metal carries heat off; how it changes
    with clearance is what it is for. Engine bearings are loaded unsteadily: their least
    film comes from the orbit. Valid for eccentricities of 0.05 to 0.97 and widths of 0.25
    to 1 diameters; never extrapolated.

    References
    ----------
    A. A. Raimondi and J. Boyd, A solution for the finite journal bearing and its
    application to analysis and design, ASLE Transactions 1 (1958); not opened. The heat
    balance is that of Shigley's Mechanical Engineering Design, journal bearings.

    Examples
    --------
    >>> film = bearing_film(
    ...     force=5000.0,
    ...     journal=0.048,
    ...     width=0.019,
    ...     clearance=0.055e-3,
    ...     speed=785.4,
    ...     viscosity=4.5e-3,
    ...     oil_density=850.0,
    ...     specific_heat=2000.0,
    ... )
    >>> round(film["least_film"] * 1e6, 1), round(film["temperature_rise"])
    (4.1, 41)
    """
    within("oil density", oil_density, 500, 1200, ("kg/m3", 1.0))
    within("specific heat of the oil", specific_heat, 1000, 4000, ("J/kg/K", 1.0))
    number = sommerfeld_number(
        force=force,
        journal=journal,
        width=width,
        clearance=clearance,
        speed=speed,
        viscosity=viscosity,
    )
    film = film_under(number, width / journal)
    radius, gap, turns = journal / 2, clearance / 2, speed / (2 * math.pi)
    pressure = force / (journal * width)
    flow = film.flow * radius * gap * turns * width
    carried = film.flow * (1 - film.side_share / 2)
    rise = 4 * math.pi * pressure * film.friction / (oil_density * specific_heat * carried)
    return {
        "eccentricity": film.eccentricity,
        "least_film": gap * (1 - film.eccentricity),
        "friction_power": film.friction * gap / radius * force * radius * speed,
        "oil_flow": flow,
        "side_flow": flow * film.side_share,
        "temperature_rise": rise,
        "peak_film_pressure": pressure / film.pressure_share,
    }
