"""Highest cylinder pressure that the parts are to stand."""

from planner.physics.bounds import within
from planner.physics.cycle.arguments import (
    ABSOLUTE,
    ANGLE,
    DOUAUD,
    GAUGE,
    MODEL,
    NUMBER,
    READING,
    TURNING,
)
from planner.physics.cycle.limits import LATEST_OF_ALL, checked, operating_point
from planner.physics.cycle.registering import formula

RISES = ("ratio", "boost", "ambient_pressure")
FALLS = ("charge_temperature",)


@formula(
    returns={
        "design_peak_pressure": GAUGE,
        "best_timing_pressure": ABSOLUTE,
        "knock_limited_pressure": ABSOLUTE,
    },
    citation=DOUAUD,
    validity="ratio 5.5 to 17.5 and boost to 3 bar; wherever the cycle settles",
    rises={"best_timing_pressure": RISES},
    falls={"design_peak_pressure": FALLS, "best_timing_pressure": FALLS},
    takes={
        **MODEL,
        "ratio": NUMBER,
        "boost": GAUGE,
        "ambient_pressure": ABSOLUTE,
        "charge_temperature": READING,
        "rev_ceiling": TURNING,
        "full_boost_speed": TURNING,
        "mixture": NUMBER,
        "best_phasing": ANGLE,
        "speed_share": NUMBER,
        "pressure_spread": NUMBER,
    },
)
def design_peak_pressure(
    *,
    bore: float,
    stroke: float,
    rod_length: float,
    inlet_closing: float,
    ethanol_share: float,
    methanol_share: float,
    octane: float,
    exhaust_opening: float,
    evaporated_share: float,
    port_heating: float,
    port_temperature: float,
    residual_temperature: float,
    exhaust_restriction: float,
    turbine_back_pressure: float,
    burn_angle: float,
    burn_speed_growth: float,
    late_burn_growth: float,
    knock_end: float,
    delay_factor: float,
    wall_temperature: float,
    heat_loss_factor: float,
    petrol_heating_value: float,
    petrol_density: float,
    ratio: float,
    boost: float,
    ambient_pressure: float,
    charge_temperature: float,
    rev_ceiling: float,
    full_boost_speed: float,
    mixture: float,
    best_phasing: float,
    speed_share: float,
    pressure_spread: float,
) -> dict[str, float]:
    """Work out the pressure that sizes pin, rod, bolts and clamp.

    Parameters
    ----------
    bore, stroke, rod_length
        Cylinder bore, crank stroke, and rod between its centres. [m]
    inlet_closing, exhaust_opening
        Crank angle after, and before, bottom centre, at about 1 mm lift. [rad]
    ethanol_share, methanol_share
        Shares of the fuel by volume; petrol is the rest. [-]
    octane
        Octane number that counts, as `octane_number` gives it, without margin. [-]
    evaporated_share, port_heating
        Share of the fuel that turns to vapour before the inlet closes, and share of the way
        to the port temperature that the charge is heated. [-]
    port_temperature, residual_temperature, wall_temperature
        Of the hot port, of the burned gas left in the cylinder, and of its walls. [K]
    exhaust_restriction, turbine_back_pressure
        Exhaust over ambient pressure without boost, and exhaust pressure gained for each
        unit of boost (0 without a turbine). [-]
    burn_angle
        From 10 to 90 % burned at best timing and 2500 rpm. [rad]
    burn_speed_growth, late_burn_growth
        Exponent of speed on the burn angle, and share by which ten degrees of delay
        lengthen it. [-]
    knock_end, delay_factor, heat_loss_factor
        Burned share after which knock does no harm, and factors on the ignition delay and
        on the wall heat. [-]
    petrol_heating_value
        Lower heating value of the petrol. [J/kg]
    petrol_density
        Density of the petrol. [kg/m**3]
    ratio
        Static compression ratio. [-]
    boost
        Above the air around. [Pa]
    ambient_pressure
        Air pressure at the lowest place it is driven hard. [Pa]
    charge_temperature
        Charge in the manifold at full boost; the coolest that counts is the hardest. [K]
    rev_ceiling, full_boost_speed
        Highest speed planned for, and where full boost is reached. [rad/s]
    mixture
        Equivalence ratio. [-]
    best_phasing
        Phasing of best torque. [rad]
    speed_share
        Share of the rev ceiling at which the best timing is run. [-]
    pressure_spread
        Factor for the hardest of many cycles over the mean one. [-]

    Returns
    -------
    dict[str, float]
        design_peak_pressure, gauge [Pa]; best_timing_pressure, absolute [Pa];
        knock_limited_pressure, absolute [Pa].

    Raises
    ------
    OutsideValidity
        When a figure is outside its limits.

    Notes
    -----
    Design pressure = spread x the larger of the peak at best timing and `speed_share` of the
    ceiling, where knock no longer holds the timing back, and the peak at the knock limit at
    full-boost speed, less the air pressure, which stands under the piston. Where it knocks
    even at 50 degrees the pressure there is taken, which is more than any later burn gives. A
    higher ratio or boost can lower the knock-limited pressure, because the burn has to come
    later.

    References
    ----------
    The knock delay is Douaud and Eyzat, SAE 780080 (1978), summed after Livengood and Wu
    (1955); wall heat and geometry are Heywood 1988, eq. 12.71 and 2.4-2.6; all from memory,
    not opened.

    Examples
    --------
    >>> from planner.physics.cycle.arguments import EXAMPLE
    >>> found = design_peak_pressure(
    ...     **EXAMPLE,
    ...     ratio=8.5,
    ...     boost=1.1e5,
    ...     ambient_pressure=101325.0,
    ...     charge_temperature=328.15,
    ...     rev_ceiling=753.98,
    ...     full_boost_speed=314.16,
    ...     mixture=1.18,
    ...     best_phasing=0.1396263,
    ...     speed_share=0.9,
    ...     pressure_spread=1.2,
    ... )
    >>> round(found["design_peak_pressure"] * 1e-5), round(found["best_timing_pressure"] * 1e-5)
    (106, 89)
    """
    given = dict(locals())
    from planner.physics.cycle.model import cycles, phasings_at_limit

    checked("ratio", ratio)
    checked("phasing", best_phasing)
    within("share of the rev ceiling", speed_share, 0.5, 1.0)
    within("spread of peak pressures", pressure_spread, 1.0, 1.6)
    high = operating_point(given, speed=speed_share * rev_ceiling)
    low = operating_point(given, speed=full_boost_speed)
    (limited,) = phasings_at_limit((low,), ratio, best_phasing)
    phasings = (best_phasing, min(limited, LATEST_OF_ALL))
    best, knocking = (each.peak_pressure for each in cycles((high, low), ratio, phasings))
    return {
        "design_peak_pressure": pressure_spread * max(best, knocking) - ambient_pressure,
        "best_timing_pressure": best,
        "knock_limited_pressure": knocking,
    }
