"""The least oil film of a big end where no pressure trace is at hand: one is assumed."""

import math

from planner.physics.bearing_clearance import CLEARANCE, DIAMETER, SPEED_OF_ROTATION
from planner.physics.bearing_orbit_big_end import (
    BOOKER,
    BORE,
    MASS_OF_PART,
    OIL,
    PLAIN_LENGTH,
    RESULTS,
    VALID,
    big_end_orbit,
)
from planner.physics.bearing_orbit_load import Drive, Trace, pressure_trace
from planner.physics.bounds import MEGAPASCALS, within
from planner.physics.registry import Q, outside, physics
from planner.units import NONE, PRESSURE

ANGLE = Q(NONE, "angle")
EXPONENT = Q(NONE)
GAUGE = Q(PRESSURE, "gauge")


@physics(
    slow=True,
    returns=RESULTS,
    citation=f"{BOOKER}; assumed pressure trace",
    validity=VALID,
    rises={"least_film": ("viscosity",)},
    falls={"peak_specific_load": ("width",)},
    bore=BORE,
    stroke=PLAIN_LENGTH,
    rod_length=PLAIN_LENGTH,
    reciprocating_mass=MASS_OF_PART,
    rotating_mass=MASS_OF_PART,
    compression_ratio=Q(NONE),
    pressure=GAUGE,
    peak_angle=ANGLE,
    boost=GAUGE,
    back_pressure=GAUGE,
    air_pressure=Q(PRESSURE, "absolute"),
    inlet_closing=ANGLE,
    burning_start=ANGLE,
    exhaust_opening=ANGLE,
    exhaust_settled=ANGLE,
    compression_exponent=EXPONENT,
    expansion_exponent=EXPONENT,
    speed=SPEED_OF_ROTATION,
    journal=DIAMETER,
    width=PLAIN_LENGTH,
    clearance=CLEARANCE,
    viscosity=OIL,
)
def big_end_film(
    *,
    bore: float,
    stroke: float,
    rod_length: float,
    reciprocating_mass: float,
    rotating_mass: float,
    compression_ratio: float,
    pressure: float,
    peak_angle: float,
    boost: float,
    back_pressure: float,
    air_pressure: float,
    inlet_closing: float,
    burning_start: float,
    exhaust_opening: float,
    exhaust_settled: float,
    compression_exponent: float,
    expansion_exponent: float,
    speed: float,
    journal: float,
    width: float,
    clearance: float,
    viscosity: float,
) -> dict[str, float]:
    """Work out the least oil film of a big end from a pressure trace of an assumed shape.

    Parameters
    ----------
    bore
        Finished bore. [m]
    stroke, rod_length
        Stroke and rod length between centres. [m]
    reciprocating_mass, rotating_mass
        Piston with pin, rings and the small-end share of the rod; big-end share. [kg]
    compression_ratio
        Static compression ratio. [-]
    pressure
        Highest cylinder pressure. [Pa]
    peak_angle
        Crank angle after top centre at which it stands. [rad]
    boost, back_pressure
        Pressure in the cylinder while it fills, and while it empties. [Pa]
    air_pressure
        Pressure of the air outside. [Pa]
    inlet_closing
        After bottom centre. [rad]
    burning_start
        Before top centre: where the pressure leaves the compression line. [rad]
    exhaust_opening, exhaust_settled
        After top centre: where the expansion line ends, and where the back pressure is
        reached. [rad]
    compression_exponent, expansion_exponent
        Of the two lines. [-]
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
    The trace is filled from boost at inlet closing along one compression line, rises by half
    a cosine to its peak, falls along one expansion line, then straight to the back pressure.
    It stands in where no worked-out trace is at hand. The rest is big_end_orbit, and so is
    its validity: widths of 0.25 to 1 diameters, films of at least 3 % of the clearance.

    References
    ----------
    J. F. Booker, Dynamically loaded journal bearings: mobility method of solution, Journal
    of Basic Engineering (1965); not opened. The trace is an assumption, stated above.

    Examples
    --------
    >>> film = big_end_film(
    ...     bore=0.086,
    ...     stroke=0.086,
    ...     rod_length=0.143,
    ...     reciprocating_mass=0.625,
    ...     rotating_mass=0.38,
    ...     compression_ratio=8.56,
    ...     pressure=12e6,
    ...     peak_angle=0.2443,
    ...     boost=1.4e5,
    ...     back_pressure=1.5e5,
    ...     air_pressure=1e5,
    ...     inlet_closing=0.8727,
    ...     burning_start=0.1745,
    ...     exhaust_opening=2.4435,
    ...     exhaust_settled=3.4907,
    ...     compression_exponent=1.32,
    ...     expansion_exponent=1.28,
    ...     speed=785.4,
    ...     journal=0.048,
    ...     width=0.019,
    ...     clearance=0.055e-3,
    ...     viscosity=5.8e-3,
    ... )
    >>> round(film["least_film"] * 1e6, 1), round(film["peak_specific_load"] / 1e6)
    (1.4, 44)
    """
    within("compression ratio", compression_ratio, 5, 20)
    within("peak pressure", pressure, 1e5, 40e6, MEGAPASCALS)
    _check_angles(burning_start, peak_angle, exhaust_opening, exhaust_settled)
    drive = Drive(bore, stroke, rod_length, reciprocating_mass, rotating_mass)
    trace = Trace(
        ratio=compression_ratio,
        peak=pressure + air_pressure,
        boost=boost + air_pressure,
        back=back_pressure + air_pressure,
        closing=inlet_closing - math.pi,
        burning=-burning_start,
        peak_angle=peak_angle,
        opening=exhaust_opening,
        settled=exhaust_settled,
        compression=compression_exponent,
        expansion=expansion_exponent,
    )
    row = tuple(each - air_pressure for each in pressure_trace(trace, drive))
    return big_end_orbit(
        pressures=(row,),
        bore=bore,
        stroke=stroke,
        rod_length=rod_length,
        reciprocating_mass=reciprocating_mass,
        rotating_mass=rotating_mass,
        speed=speed,
        journal=journal,
        width=width,
        clearance=clearance,
        viscosity=viscosity,
    )


def _check_angles(burning: float, peak: float, opening: float, settled: float) -> None:
    """Refuse angles out of their order."""
    degrees = [math.degrees(angle) for angle in (-burning, peak, opening, settled)]
    if not -90 < degrees[0] < degrees[1] < degrees[2] < degrees[3] < 360:
        outside(
            "order of events",
            ", ".join(f"{each:.6g}" for each in degrees) + " deg from firing top centre",
            "burning, peak, exhaust opening and settled one after another",
            "Give each angle from the centre its name says, in degrees of crank.",
        )
