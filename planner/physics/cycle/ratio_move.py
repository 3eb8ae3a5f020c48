"""How far the knock model moves a practice ratio."""

from planner.physics.bounds import within
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
from planner.physics.cycle.ratio import FALLS, RISES, points_of
from planner.physics.cycle.registering import formula


@formula(
    returns=NUMBER,
    citation=DOUAUD,
    validity=RANGE,
    rises=RISES,
    falls=(*FALLS, "anchor"),
    takes={
        **MODEL,
        **LATEST,
        "boost": GAUGE,
        "ambient_pressure": ABSOLUTE,
        "off_boost_temperature": READING,
        "full_boost_temperature": READING,
        "off_boost_speed": TURNING,
        "full_boost_speed": TURNING,
        "off_boost_mixture": NUMBER,
        "full_boost_mixture": NUMBER,
        "anchor": NUMBER,
        "greatest_move": NUMBER,
        "step": NUMBER,
    },
)
def ratio_move(
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
    boost: float,
    ambient_pressure: float,
    off_boost_temperature: float,
    full_boost_temperature: float,
    off_boost_speed: float,
    full_boost_speed: float,
    off_boost_mixture: float,
    full_boost_mixture: float,
    anchor: float,
    greatest_move: float,
    step: float,
) -> float:
    """Work out how far the model's ratio lies from its anchor, held to the greatest move.

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
    boost
        Full boost above the air around. [Pa]
    ambient_pressure
        Air pressure at the lowest place it is driven hard. [Pa]
    off_boost_temperature, full_boost_temperature
        Charge temperature in the manifold, margin included. [K]
    off_boost_speed, full_boost_speed
        Speed at full load before boost comes, and where full boost is reached. [rad/s]
    off_boost_mixture, full_boost_mixture
        Equivalence ratios. [-]
    anchor
        The model's own ratio for the engine, fuel and boost that practice speaks of. [-]
    greatest_move
        How far it may move the practice ratio, either way. [-]
    step
        Step that the move is rounded to. [-]

    Returns
    -------
    float
        Ratio less anchor, within the greatest move, rounded. [-]

    Raises
    ------
    OutsideValidity
        When a figure is outside its limits.

    Notes
    -----
    A ratio below 5.5 or above 17.5 is not known, but lies further from any anchor than the
    greatest move, which is then taken whole. So the move never rises with boost and never falls
    with octane. The difference is worth more than the ratio: what is wrong with burn, wall heat
    and knock law alike at both places drops out.

    References
    ----------
    The knock delay is Douaud and Eyzat, SAE 780080 (1978), summed after Livengood and Wu
    (1955); wall heat and geometry are Heywood 1988, eq. 12.71 and 2.4-2.6; all from memory,
    not opened.

    Examples
    --------
    >>> from planner.physics.cycle.arguments import EXAMPLE, EXAMPLE_LATEST
    >>> found = ratio_move(
    ...     **{**EXAMPLE, "octane": 91.0},
    ...     **EXAMPLE_LATEST,
    ...     boost=1.0e5,
    ...     ambient_pressure=101325.0,
    ...     off_boost_temperature=313.15,
    ...     full_boost_temperature=342.0,
    ...     off_boost_speed=209.44,
    ...     full_boost_speed=314.16,
    ...     off_boost_mixture=1.12,
    ...     full_boost_mixture=1.18,
    ...     anchor=8.51,
    ...     greatest_move=0.3,
    ...     step=0.1,
    ... )
    >>> found
    -0.2
    """
    given = dict(locals())
    from planner.physics.cycle.ratio_limit import ratio_limits

    within("anchor", anchor, 5.5, 17.5)
    within("greatest move", greatest_move, 0.0, 3.0)
    within("step of the move", step, 0.001, 1.0)
    least = min(ratio_limits(*points_of(given)))
    held = min(max(least - anchor, -greatest_move), greatest_move)
    return round(round(held / step) * step, 9)
