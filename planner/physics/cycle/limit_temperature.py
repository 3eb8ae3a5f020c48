"""Charge temperature at which a chosen ratio meets the limit."""

from math import inf

from planner.physics.cycle.arguments import (
    ABSOLUTE,
    DOUAUD,
    GAUGE,
    LATEST,
    MODEL,
    NUMBER,
    RANGE,
    READING,
    TURNING,
)
from planner.physics.cycle.limits import checked, operating_point
from planner.physics.cycle.registering import formula
from planner.physics.registry import outside

MIDDLE = 330.0  # any temperature inside the limits: it is what is looked for [K]
COOLER = "No charge is cool enough: lower the ratio or the boost, or use a better fuel."
HOTTER = "Knock does not limit this ratio at any charge temperature."


@formula(
    returns=READING,
    citation=DOUAUD,
    validity=RANGE,
    rises=("octane", "speed"),
    falls=("ratio",),
    takes={
        **MODEL,
        **LATEST,
        "ratio": NUMBER,
        "boost": GAUGE,
        "ambient_pressure": ABSOLUTE,
        "speed": TURNING,
        "mixture": NUMBER,
    },
)
def charge_temperature_at_limit(
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
    latest_unboosted: float,
    latest_slope: float,
    latest_ever: float,
    ratio: float,
    boost: float,
    ambient_pressure: float,
    speed: float,
    mixture: float,
) -> float:
    """Work out the hottest charge at which the ratio stays inside the limit.

    Parameters
    ----------
    bore, stroke, rod_length
        Cylinder bore, crank stroke, and rod between its centres. [m]
    inlet_closing, exhaust_opening
        Crank angle after, and before, bottom centre, at about 1 mm lift. [rad]
    ethanol_share, methanol_share
        Shares of the fuel by volume; petrol is the rest. [-]
    octane
        Octane number that counts, as `octane_number` gives it. [-]
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
    latest_unboosted, latest_ever
        Latest phasing allowed without boost, and at any boost. [rad]
    latest_slope
        How much later it may be for each unit of boost. [rad/Pa]
    ratio
        Static compression ratio. [-]
    boost
        Above the air around. [Pa]
    ambient_pressure
        Air pressure at the lowest place it is driven hard. [Pa]
    speed
        Speed at which full boost is reached. [rad/s]
    mixture
        Equivalence ratio. [-]

    Returns
    -------
    float
        Charge temperature in the manifold. [K]

    Raises
    ------
    OutsideValidity
        When a figure is outside its limits, or the temperature would be outside 240 to 460 K.

    Notes
    -----
    Above it, boost or timing has to come back. Read it beside the practice figure, not in
    its place: the model alone is good to about one ratio, which is some 80 K.

    References
    ----------
    The knock delay is Douaud and Eyzat, SAE 780080 (1978), summed after Livengood and Wu
    (1955); wall heat and geometry are Heywood 1988, eq. 12.71 and 2.4-2.6; all from memory,
    not opened.

    Examples
    --------
    >>> from planner.physics.cycle.arguments import EXAMPLE, EXAMPLE_LATEST
    >>> hottest = charge_temperature_at_limit(
    ...     **EXAMPLE,
    ...     **EXAMPLE_LATEST,
    ...     ratio=8.5,
    ...     boost=0.9e5,
    ...     ambient_pressure=101325.0,
    ...     speed=314.16,
    ...     mixture=1.18,
    ... )
    >>> round(hottest, -1)
    350.0
    """
    given = dict(locals())
    from planner.physics.cycle.crossings import temperature_at_limit

    checked("ratio", ratio)
    point = operating_point(given, charge_temperature=MIDDLE)
    found = temperature_at_limit(point, ratio, (latest_unboosted, latest_slope, latest_ever))
    if found == -inf:
        outside("the charge temperature", "under 240 K", "240 to 460 K", COOLER)
    if found == inf:
        outside("the charge temperature", "over 460 K", "240 to 460 K", HOTTER)
    return found
