"""The test engine, the grades and the knobs of rules/constants_cycle.yaml, in SI.

test_constants.py holds them equal to the file.
"""

from dataclasses import replace
from math import pi, radians

from planner.physics.cycle.cooler import cooled_charge_temperature
from planner.physics.cycle.setting import Point

RPM = pi / 30
BAR = 1e5
SEA_LEVEL = 101325.0

CONSTANTS = {
    "compressor_efficiency": 0.70,
    "cooler_effectiveness": 0.70,
    "normal_ambient": 298.15,
    "inlet_margin_street": 15.0,
    "inlet_margin_track": 25.0,
    "evaporated_port": 0.30,
    "evaporated_direct": 0.75,
    "port_heating": 0.15,
    "port_temperature": 363.0,
    "residual_temperature": 1050.0,
    "exhaust_restriction": 1.07,
    "turbine_back_pressure": 1.1,
    "no_turbine_back_pressure": 0.0,
    "exhaust_opening": radians(50),
    "petrol_heating_value": 43.4e6,
    "petrol_density": 745.0,
    "octane_weight": 0.5,
    "octane_margin_street": 2.0,
    "octane_margin_track": 1.0,
    "off_boost_mixture": 1.12,
    "full_boost_mixture": 1.18,
    "burn_angle": radians(22),
    "burn_speed_growth": 0.35,
    "late_burn_growth": 0.15,
    "knock_end": 0.90,
    "delay_factor": 1.0,
    "wall_temperature": 450.0,
    "heat_loss_factor": 1.0,
    "best_phasing": radians(8),
    "off_boost_speed": 2000 * RPM,
    "latest_unboosted": radians(10),
    "latest_slope_street": radians(10) / BAR,
    "latest_slope_track": radians(8) / BAR,
    "latest_ever_street": radians(26),
    "latest_ever_track": radians(22),
    "anchor_ratio_premium": 8.51,
    "anchor_ratio_regular": 7.52,
    "anchor_ratio_ethanol": 9.96,
    "greatest_move": 0.3,
    "lowest_trusted_boost": 0.5 * BAR,
    "highest_trusted_boost": 1.1 * BAR,
    "highest_petrol_boost": 1.2 * BAR,
    "highest_ethanol_boost": 1.5 * BAR,
    "much_ethanol": 0.3,
    "near_band_from": 0.7 * BAR,
    "near_band_to": 1.1 * BAR,
    "middle_band_from": 0.3 * BAR,
    "middle_band_to": 1.5 * BAR,
    "near_band": 0.3,
    "middle_band": 0.6,
    "far_band": 1.0,
    "pressure_spread": 1.20,
    "best_timing_share": 0.9,
    "breathing_low": 0.80,
    "breathing_high": 1.00,
    "friction_low": 2.0e5,
    "friction_high": 3.0e5,
}
BEST = CONSTANTS["best_phasing"]

# Ethanol share, methanol share, RON, MON: nominal grade values, common practice.
GRADES = {
    "regular": (0.0, 0.0, 91.0, 83.0),
    "mid": (0.0, 0.0, 95.0, 85.0),
    "premium": (0.0, 0.0, 98.0, 88.0),
    "e10": (0.1, 0.0, 95.0, 85.0),
    "e51": (0.51, 0.0, 103.0, 87.0),
    "e85": (0.85, 0.0, 107.0, 89.0),
    "race_unleaded": (0.0, 0.0, 105.0, 95.0),
    "methanol": (0.0, 1.0, 109.0, 89.0),
}
ENGINE = {
    "bore": 0.086,
    "stroke": 0.086,
    "rod_length": 0.143,
    "inlet_closing": radians(50),
}
KNOBS = {
    name: CONSTANTS[name]
    for name in (
        "exhaust_opening",
        "port_heating",
        "port_temperature",
        "residual_temperature",
        "exhaust_restriction",
        "turbine_back_pressure",
        "burn_angle",
        "burn_speed_growth",
        "late_burn_growth",
        "knock_end",
        "delay_factor",
        "wall_temperature",
        "heat_loss_factor",
        "petrol_heating_value",
        "petrol_density",
    )
} | {"evaporated_share": CONSTANTS["evaporated_port"]}


def cooled(boost):
    """Charge temperature on a normal day behind the usual cooler."""
    return cooled_charge_temperature(
        ambient_temperature=CONSTANTS["normal_ambient"],
        ambient_pressure=SEA_LEVEL,
        boost=boost,
        compressor_efficiency=CONSTANTS["compressor_efficiency"],
        cooler_effectiveness=CONSTANTS["cooler_effectiveness"],
    )


def latest(use="street"):
    """Unboosted, slope and ever of one use."""
    return (
        CONSTANTS["latest_unboosted"],
        CONSTANTS[f"latest_slope_{use}"],
        CONSTANTS[f"latest_ever_{use}"],
    )


def octane(fuel, margin=0.0):
    """Octane that counts, for a grade."""
    _, _, research, motor = GRADES[fuel]
    return research - CONSTANTS["octane_weight"] * (research - motor) - margin


def full_boost(fuel="premium", boost=0.9 * BAR, use="street", *, margins=True, **changed):
    """The test engine at full boost, 3000 rpm."""
    values = {
        **ENGINE,
        **KNOBS,
        "boost": boost,
        "ambient_pressure": SEA_LEVEL,
        "charge_temperature": cooled(boost) + margins * CONSTANTS[f"inlet_margin_{use}"],
        "speed": 3000 * RPM,
        "mixture": CONSTANTS["full_boost_mixture"],
        "ethanol_share": GRADES[fuel][0],
        "methanol_share": GRADES[fuel][1],
        "octane": octane(fuel, margins * CONSTANTS[f"octane_margin_{use}"]),
    }
    return Point(**{**values, **changed})


def off_boost(fuel="premium", use="street", *, margins=True, **changed):
    """The same engine at full load before boost comes, 2000 rpm."""
    point = full_boost(fuel, 0.0, use, margins=margins)
    return replace(
        point,
        **{
            "speed": CONSTANTS["off_boost_speed"],
            "mixture": CONSTANTS["off_boost_mixture"],
            **changed,
        },
    )
