"""One cycle at its knock limit."""

from math import inf

from planner.physics.cycle.arguments import (
    ABSOLUTE,
    ANGLE,
    DOUAUD,
    GAUGE,
    MODEL,
    NUMBER,
    RANGE,
    READING,
    TURNING,
)
from planner.physics.cycle.limits import checked, operating_point
from planner.physics.cycle.registering import formula
from planner.physics.registry import Q, outside
from planner.units import PRESSURE

LESS = "Lower the ratio or the boost, cool the charge, or use a fuel of higher octane."
RESULTS = {
    "knock_limited_phasing": ANGLE,
    "cylinder_peak_pressure": ABSOLUTE,
    "peak_pressure_angle": ANGLE,
    "indicated_pressure": Q(PRESSURE),
    "closing_temperature": READING,
    "end_gas_temperature": READING,
    "exhaust_port_temperature": READING,
}


@formula(
    returns=RESULTS,
    citation=DOUAUD,
    validity=RANGE,
    rises={},
    falls={},
    takes={
        **MODEL,
        "ratio": NUMBER,
        "boost": GAUGE,
        "ambient_pressure": ABSOLUTE,
        "charge_temperature": READING,
        "speed": TURNING,
        "mixture": NUMBER,
        "best_phasing": ANGLE,
    },
)
def knock_limited_cycle(
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
    speed: float,
    mixture: float,
    best_phasing: float,
) -> dict[str, float]:
    """Work out the cycle at the earliest phasing that does not knock.

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
        Air pressure. [Pa]
    charge_temperature
        Charge in the manifold. [K]
    speed
        Crank speed. [rad/s]
    mixture
        Equivalence ratio. [-]
    best_phasing
        Phasing of best torque, never gone before. [rad]

    Returns
    -------
    dict[str, float]
        knock_limited_phasing, the crank angle after top centre with half the charge burned
        [rad]; cylinder_peak_pressure, absolute [Pa]; peak_pressure_angle after top centre
        [rad]; indicated_pressure, net mean effective [Pa]; closing_temperature of the charge
        at inlet closing [K]; end_gas_temperature, the highest [K]; exhaust_port_temperature
        after blow-down [K].

    Raises
    ------
    OutsideValidity
        When a figure is outside its limits, or it knocks even at 50 degrees.

    Notes
    -----
    For display: the pressure at the knock limit of one speed does not size metal, see
    `design_peak_pressure`. The exhaust figure is the end state of the blow-down, not what a
    probe in the pipe would read. The mean pressure is that of the gas; friction comes off.

    References
    ----------
    The knock delay is Douaud and Eyzat, SAE 780080 (1978), summed after Livengood and Wu
    (1955); wall heat and geometry are Heywood 1988, eq. 12.71 and 2.4-2.6; all from memory,
    not opened.

    Examples
    --------
    >>> from planner.physics.cycle.arguments import EXAMPLE
    >>> found = knock_limited_cycle(
    ...     **EXAMPLE,
    ...     ratio=8.5,
    ...     boost=0.9e5,
    ...     ambient_pressure=101325.0,
    ...     charge_temperature=323.6,
    ...     speed=314.16,
    ...     mixture=1.18,
    ...     best_phasing=0.1396263,
    ... )
    >>> round(found["knock_limited_phasing"], 2), round(found["cylinder_peak_pressure"] * 1e-5)
    (0.28, 69)
    """
    given = dict(locals())
    from planner.physics.cycle.model import cycles, phasings_at_limit

    point = operating_point(given)
    checked("ratio", ratio)
    (phasing,) = phasings_at_limit((point,), ratio, checked("phasing", best_phasing))
    if phasing == inf:
        outside("the phasing at the knock limit", "over 50 deg", "up to 50 deg", LESS)
    (cycle,) = cycles((point,), ratio, (phasing,))
    return {
        "knock_limited_phasing": phasing,
        "cylinder_peak_pressure": cycle.peak_pressure,
        "peak_pressure_angle": cycle.peak_angle,
        "indicated_pressure": cycle.net_pressure,
        "closing_temperature": cycle.closing_temperature,
        "end_gas_temperature": cycle.end_gas_temperature,
        "exhaust_port_temperature": cycle.exhaust_temperature,
    }
