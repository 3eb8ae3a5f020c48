"""Full-boost speed at which a chosen ratio meets the limit."""

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

MIDDLE = 314.0  # any speed inside the limits: it is what is looked for [rad/s]
FASTER = "No speed makes this ratio hold: lower the ratio or the boost, or use a better fuel."
SLOWER = "Knock does not limit this ratio at any full-boost speed."


@formula(
    returns=TURNING,
    citation=DOUAUD,
    validity=RANGE,
    rises=("ratio", "charge_temperature"),
    falls=("octane",),
    takes={
        **MODEL,
        **LATEST,
        "ratio": NUMBER,
        "boost": GAUGE,
        "ambient_pressure": ABSOLUTE,
        "charge_temperature": READING,
        "mixture": NUMBER,
    },
)
def full_boost_speed_at_limit(
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
    charge_temperature: float,
    mixture: float,
) -> float:
    """Work out the lowest full-boost speed that the ratio goes with.

    Parameters
    ----------
    bore, stroke, rod_length
        Cylinder bore, crank stroke, and rod between its centres. [m]
    inlet_closing, exhaust_opening
        Crank angle after, and before, bottom centre, at about 1 mm lift. [rad]
    ethanol_share, methanol_share
        Shares of the fuel by volume; petrol is the rest. [-]
    octane
        Octane number that counts, as `octane_number` gives it, with its margin. [-]
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
    charge_temperature
        Charge in the manifold at full boost, margin included. [K]
    mixture
        Equivalence ratio. [-]

    Returns
    -------
    float
        Speed below which full boost must not come in. [rad/s]

    Raises
    ------
    OutsideValidity
        When a figure is outside its limits, or the speed would be outside 1000 to 12000 rpm.

    Notes
    -----
    For information only: the model's trust in speed is worse than in boost or fuel, some 1.2
    ratios for each 1000 rpm on petrol.

    References
    ----------
    The knock delay is Douaud and Eyzat, SAE 780080 (1978), summed after Livengood and Wu
    (1955); wall heat and geometry are Heywood 1988, eq. 12.71 and 2.4-2.6; all from memory,
    not opened.

    Examples
    --------
    >>> from planner.physics.cycle.arguments import EXAMPLE, EXAMPLE_LATEST
    >>> slowest = full_boost_speed_at_limit(
    ...     **{**EXAMPLE, "octane": 91.0},
    ...     **EXAMPLE_LATEST,
    ...     ratio=9.0,
    ...     boost=0.9e5,
    ...     ambient_pressure=101325.0,
    ...     charge_temperature=338.6,
    ...     mixture=1.18,
    ... )
    >>> round(slowest, -1)
    360.0
    """
    given = dict(locals())
    from planner.physics.cycle.crossings import speed_at_limit

    checked("ratio", ratio)
    point = operating_point(given, speed=MIDDLE)
    found = speed_at_limit(point, ratio, (latest_unboosted, latest_slope, latest_ever))
    if found == inf:
        outside("the full-boost speed", "over 12000 rpm", "1000 to 12000 rpm", FASTER)
    if found == -inf:
        outside("the full-boost speed", "under 1000 rpm", "1000 to 12000 rpm", SLOWER)
    return found
