"""Power, air and fuel at full load."""

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
from planner.physics.cycle.limits import BAR, checked, operating_point
from planner.physics.cycle.registering import formula
from planner.physics.registry import Q
from planner.units import FLOW, MASS_FLOW, POWER, PRESSURE

SHARES = (0.5, 0.6, 0.7, 0.8, 0.9, 1.0)
RESULTS = {
    "power_low": Q(POWER),
    "power_high": Q(POWER),
    "power_speed": TURNING,
    "air_flow": Q(MASS_FLOW),
    "fuel_mass_flow": Q(MASS_FLOW),
    "fuel_volume_flow": Q(FLOW),
}


@formula(
    returns=RESULTS,
    citation=DOUAUD,
    validity="an engine that breathes and rubs like others of its kind; no promise",
    rises={},
    falls={},
    takes={
        **MODEL,
        "cylinders": NUMBER,
        "ratio": NUMBER,
        "boost": GAUGE,
        "ambient_pressure": ABSOLUTE,
        "charge_temperature": READING,
        "mixture": NUMBER,
        "rev_ceiling": TURNING,
        "best_phasing": ANGLE,
        "breathing_low": NUMBER,
        "breathing_high": NUMBER,
        "friction_low": Q(PRESSURE),
        "friction_high": Q(PRESSURE),
    },
)
def full_load_power(
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
    cylinders: float,
    ratio: float,
    boost: float,
    ambient_pressure: float,
    charge_temperature: float,
    mixture: float,
    rev_ceiling: float,
    best_phasing: float,
    breathing_low: float,
    breathing_high: float,
    friction_low: float,
    friction_high: float,
) -> dict[str, float]:
    """Work out the power to expect at the crank, as a range, and what it drinks.

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
    cylinders
        Their number. [-]
    ratio
        Static compression ratio. [-]
    boost
        Above the air around. [Pa]
    ambient_pressure
        Air pressure. [Pa]
    charge_temperature
        Charge in the manifold. [K]
    mixture
        Equivalence ratio. [-]
    rev_ceiling
        Highest speed planned for. [rad/s]
    best_phasing
        Phasing of best torque. [rad]
    breathing_low, breathing_high
        Share of the manifold's charge that reaches the cylinder at power speed. [-]
    friction_low, friction_high
        Mean effective pressure lost to friction and drives at 20 m/s mean piston speed. [Pa]

    Returns
    -------
    dict[str, float]
        power_low [W]; power_high [W]; power_speed, where the higher of them stands [rad/s];
        air_flow [kg/s]; fuel_mass_flow [kg/s]; fuel_volume_flow [m**3/s], the flows for
        power_high.

    Raises
    ------
    OutsideValidity
        When a figure is outside its limits.

    Notes
    -----
    The net indicated pressure at the knock limit, from half the rev ceiling to the ceiling,
    times the breathing, less friction that grows with the mean piston speed. Breathing and
    friction are not worked out, so the range is wide on purpose; what the turbocharger can
    deliver is not looked at. A speed that knocks even at 50 degrees is passed over.

    References
    ----------
    The knock delay is Douaud and Eyzat, SAE 780080 (1978), summed after Livengood and Wu
    (1955); wall heat and geometry are Heywood 1988, eq. 12.71 and 2.4-2.6; all from memory,
    not opened.

    Examples
    --------
    >>> from planner.physics.cycle.arguments import EXAMPLE
    >>> found = full_load_power(
    ...     **EXAMPLE,
    ...     cylinders=4,
    ...     ratio=8.5,
    ...     boost=1.1e5,
    ...     ambient_pressure=101325.0,
    ...     charge_temperature=328.15,
    ...     mixture=1.18,
    ...     rev_ceiling=753.98,
    ...     best_phasing=0.1396263,
    ...     breathing_low=0.8,
    ...     breathing_high=1.0,
    ...     friction_low=2.0e5,
    ...     friction_high=3.0e5,
    ... )
    >>> round(found["power_low"] * 1e-3, -1), round(found["power_high"] * 1e-3, -1)
    (170.0, 240.0)
    """
    given = dict(locals())
    from planner.physics.cycle.full_load import full_load

    checked("ratio", ratio)
    checked("phasing", best_phasing)
    within("cylinders", cylinders, 1, 16)
    within("breathing", breathing_low, 0.5, breathing_high)
    within("breathing", breathing_high, breathing_low, 1.3)
    within("friction", friction_low, 0.0, friction_high, BAR)
    within("friction", friction_high, friction_low, 6e5, BAR)
    points = tuple(operating_point(given, speed=share * rev_ceiling) for share in SHARES)
    return full_load(
        points,
        ratio,
        best_phasing,
        cylinders,
        ((breathing_low, friction_high), (breathing_high, friction_low)),
    )
