"""How near a chosen ratio stands to the knock limit."""

from planner.physics.cycle.arguments import (
    ABSOLUTE,
    ANGLE,
    DOUAUD,
    GAUGE,
    LATEST,
    MODEL,
    NUMBER,
    RANGE,
    READING,
    TURNING,
)
from planner.physics.cycle.limits import LATEST_OF_ALL, checked, operating_point
from planner.physics.cycle.phasing_limit import latest_phasing
from planner.physics.cycle.registering import formula

LATER = ("ratio", "boost")
RESULTS = {
    "normal_phasing": ANGLE,
    "hot_phasing": ANGLE,
    "phasing_limit": ANGLE,
    "normal_knock_margin": ANGLE,
    "hot_knock_margin": ANGLE,
    "boost_at_limit": GAUGE,
}


@formula(
    returns=RESULTS,
    citation=DOUAUD,
    validity=RANGE,
    rises={"normal_phasing": LATER, "hot_phasing": LATER},
    falls={"normal_knock_margin": ("ratio",), "hot_knock_margin": ("ratio",)},
    takes={
        **MODEL,
        **LATEST,
        "ratio": NUMBER,
        "boost": GAUGE,
        "ambient_pressure": ABSOLUTE,
        "normal_temperature": READING,
        "hot_temperature": READING,
        "speed": TURNING,
        "mixture": NUMBER,
        "best_phasing": ANGLE,
    },
)
def knock_margin_of_ratio(
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
    normal_temperature: float,
    hot_temperature: float,
    speed: float,
    mixture: float,
    best_phasing: float,
) -> dict[str, float]:
    """Work out how far knock pushes the phasing, and how far it may.

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
    normal_temperature, hot_temperature
        Charge in the manifold on a normal and on the hottest day. [K]
    speed
        Speed at which full boost is reached. [rad/s]
    mixture
        Equivalence ratio. [-]
    best_phasing
        Phasing of best torque. [rad]

    Returns
    -------
    dict[str, float]
        normal_phasing and hot_phasing, where knock allows the burn: [rad] for normal_phasing,
        [rad] for hot_phasing; phasing_limit, the latest allowed [rad]; normal_knock_margin
        [rad] and hot_knock_margin [rad], limit less phasing, negative when knock asks for
        more than is allowed; boost_at_limit, where the hottest day meets the limit [Pa].

    Raises
    ------
    OutsideValidity
        When a figure is outside its limits.

    Notes
    -----
    The boost at the limit is found with the hot charge temperature held. It reads 0 when the
    limit is passed without boost, and 3 bar when it is not met by then. A phasing of
    50 degrees means 50 or later.

    References
    ----------
    The knock delay is Douaud and Eyzat, SAE 780080 (1978), summed after Livengood and Wu
    (1955); wall heat and geometry are Heywood 1988, eq. 12.71 and 2.4-2.6; all from memory,
    not opened.

    Examples
    --------
    >>> from planner.physics.cycle.arguments import EXAMPLE, EXAMPLE_LATEST
    >>> found = knock_margin_of_ratio(
    ...     **EXAMPLE,
    ...     **EXAMPLE_LATEST,
    ...     ratio=8.5,
    ...     boost=0.9e5,
    ...     ambient_pressure=101325.0,
    ...     normal_temperature=323.6,
    ...     hot_temperature=338.6,
    ...     speed=314.16,
    ...     mixture=1.18,
    ...     best_phasing=0.1396263,
    ... )
    >>> round(found["normal_knock_margin"], 2), round(found["boost_at_limit"] * 1e-5, 1)
    (0.05, 1.1)
    """
    given = dict(locals())
    from planner.physics.cycle.crossings import boost_at_limit
    from planner.physics.cycle.model import phasings_at_limit

    checked("ratio", ratio)
    checked("phasing", best_phasing)
    latest = {name: given[name] for name in LATEST}
    limit = latest_phasing(boost=boost, **latest)
    normal = operating_point(given, charge_temperature=normal_temperature)
    hot = operating_point(given, charge_temperature=hot_temperature)
    found = phasings_at_limit((normal, hot), ratio, best_phasing)
    at_normal, at_hot = (min(each, LATEST_OF_ALL) for each in found)
    return {
        "normal_phasing": at_normal,
        "hot_phasing": at_hot,
        "phasing_limit": limit,
        "normal_knock_margin": limit - at_normal,
        "hot_knock_margin": limit - at_hot,
        "boost_at_limit": boost_at_limit(hot, ratio, tuple(latest.values())),
    }
