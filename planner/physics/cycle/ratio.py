"""Compression ratio that the knock model allows."""

from collections.abc import Mapping
from math import inf
from typing import TYPE_CHECKING

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

if TYPE_CHECKING:
    from planner.physics.cycle.setting import Point

LOWER = "Ask for less boost, a fuel of higher octane, or a cooler charge."
HIGHER = "Knock does not limit it: let valves, quench and starting decide the ratio."
FULL_RISES = ("octane", "full_boost_speed", "inlet_closing", "delay_factor")
FULL_FALLS = ("boost", "ambient_pressure", "full_boost_temperature", "turbine_back_pressure")
OFF_RISES = ("octane", "off_boost_speed", "inlet_closing", "delay_factor")
OFF_FALLS = ("ambient_pressure", "off_boost_temperature")
RISES = (*FULL_RISES, "off_boost_speed")
FALLS = (*FULL_FALLS, "off_boost_temperature")


@formula(
    returns={"knock_limited_ratio": NUMBER, "off_boost_ratio": NUMBER, "full_boost_ratio": NUMBER},
    citation=DOUAUD,
    validity=RANGE,
    rises={
        "knock_limited_ratio": RISES,
        "full_boost_ratio": FULL_RISES,
        "off_boost_ratio": OFF_RISES,
    },
    falls={
        "knock_limited_ratio": FALLS,
        "full_boost_ratio": FULL_FALLS,
        "off_boost_ratio": OFF_FALLS,
    },
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
    },
)
def knock_limited_ratio(
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
) -> dict[str, float]:
    """Work out the highest ratio that keeps knock inside the phasing allowed.

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

    Returns
    -------
    dict[str, float]
        knock_limited_ratio, the smaller of the two that follow [-]; off_boost_ratio [-];
        full_boost_ratio [-]. One that does not govern reads 17.5 when it is 17.5 or more.

    Raises
    ------
    OutsideValidity
        When a figure is outside its limits, or the ratio would be below 5.5 or above 17.5.

    Notes
    -----
    The full-boost ratio holds at every lower boost too, since boost passes them on its way up:
    the smallest on the way counts, worked out every 0.1 bar and taken straight between.
    The burn, the wall heat and the knock law are correlations: alone the figure is good to
    about one ratio. What counts is its difference from the same model's figure for an engine
    whose practice is known. Left out: preignition, hot spots, squish, deposits,
    cycle-to-cycle spread, the two-stage ignition of paraffins, and mixture in the knock law.

    References
    ----------
    The knock delay is Douaud and Eyzat, SAE 780080 (1978), summed after Livengood and Wu
    (1955); wall heat and geometry are Heywood 1988, eq. 12.71 and 2.4-2.6; all from memory,
    not opened.

    Examples
    --------
    >>> from planner.physics.cycle.arguments import EXAMPLE, EXAMPLE_LATEST
    >>> found = knock_limited_ratio(
    ...     **{**EXAMPLE, "octane": 91.0},
    ...     **EXAMPLE_LATEST,
    ...     boost=0.9e5,
    ...     ambient_pressure=101325.0,
    ...     off_boost_temperature=313.15,
    ...     full_boost_temperature=338.6,
    ...     off_boost_speed=209.44,
    ...     full_boost_speed=314.16,
    ...     off_boost_mixture=1.12,
    ...     full_boost_mixture=1.18,
    ... )
    >>> round(found["knock_limited_ratio"], 1), round(found["off_boost_ratio"], 1)
    (8.5, 10.7)
    """
    given = dict(locals())
    from planner.physics.cycle.ratio_limit import ratio_limits

    found = ratio_limits(*points_of(given))
    least = min(found)
    if least == -inf:
        outside("the ratio", "below 5.5", "5.5 to 17.5", LOWER)
    if least == inf:
        outside("the ratio", "above 17.5", "5.5 to 17.5", HIGHER)
    return {
        "knock_limited_ratio": least,
        "off_boost_ratio": min(found[0], 17.5),
        "full_boost_ratio": min(found[1], 17.5),
    }


def points_of(given: Mapping[str, float]) -> "tuple[Point, Point, tuple[float, float, float]]":
    """Make the two operating points and the limit of phasing out of a formula's arguments.

    Parameters
    ----------
    given
        The arguments by name, SI.

    Returns
    -------
    tuple
        Full load before boost comes, full boost, and the latest phasing: unboosted [rad],
        slope [rad/Pa], ever [rad].

    Raises
    ------
    OutsideValidity
        When a figure lies outside its limits.
    """
    full = operating_point(
        given,
        charge_temperature=given["full_boost_temperature"],
        speed=given["full_boost_speed"],
        mixture=given["full_boost_mixture"],
    )
    off = operating_point(
        given,
        boost=0.0,
        charge_temperature=given["off_boost_temperature"],
        speed=given["off_boost_speed"],
        mixture=given["off_boost_mixture"],
    )
    latest = (given["latest_unboosted"], given["latest_slope"], given["latest_ever"])
    checked("phasing", min(latest[2], latest[0]), "latest phasing")
    return off, full, latest
