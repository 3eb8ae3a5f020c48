"""What the formulas of the cycle take: dimensions, limits, and an engine for the examples."""

from planner.physics.registry import Q
from planner.units import (
    DENSITY,
    LENGTH,
    NONE,
    PRESSURE,
    ROTATION,
    SPECIFIC_ENERGY,
    TEMPERATURE,
    over,
)

NUMBER = Q(NONE)
ANGLE = Q(NONE, "angle")
READING = Q(TEMPERATURE, "reading")
GAUGE = Q(PRESSURE, "gauge")
ABSOLUTE = Q(PRESSURE, "absolute")
TURNING = Q(ROTATION, "speed of rotation")

ENGINE = {
    "bore": Q(LENGTH, "diameter"),
    "stroke": Q(LENGTH),
    "rod_length": Q(LENGTH),
    "inlet_closing": ANGLE,
}
FUEL = {"ethanol_share": NUMBER, "methanol_share": NUMBER, "octane": NUMBER}
KNOBS = {
    "exhaust_opening": ANGLE,
    "evaporated_share": NUMBER,
    "port_heating": NUMBER,
    "port_temperature": READING,
    "residual_temperature": READING,
    "exhaust_restriction": NUMBER,
    "turbine_back_pressure": NUMBER,
    "burn_angle": ANGLE,
    "burn_speed_growth": NUMBER,
    "late_burn_growth": NUMBER,
    "knock_end": NUMBER,
    "delay_factor": NUMBER,
    "wall_temperature": READING,
    "heat_loss_factor": NUMBER,
    "petrol_heating_value": Q(SPECIFIC_ENERGY),
    "petrol_density": Q(DENSITY),
}
LATEST = {
    "latest_unboosted": ANGLE,
    "latest_slope": Q(over(NONE, PRESSURE)),
    "latest_ever": ANGLE,
}
MODEL = ENGINE | FUEL | KNOBS

DOUAUD = (
    "knock delay: Douaud and Eyzat, SAE 780080 (1978); summing: Livengood and Wu (1955); "
    "wall heat and geometry: Heywood 1988, eq. 12.71 and 2.4-2.6; from memory, not opened"
)
RANGE = (
    "petrol to 1.2 bar and ethanol to 1.5 bar of boost, port injection; elsewhere a figure to "
    "show, not to build on; no hot spots, preignition, squish, deposits or cycle spread"
)

# The test engine on premium petrol at 0.9 bar, in SI, as the examples use it.
EXAMPLE = {
    "bore": 0.086,
    "stroke": 0.086,
    "rod_length": 0.143,
    "inlet_closing": 0.8726646,
    "ethanol_share": 0.0,
    "methanol_share": 0.0,
    "octane": 93.0,
    "exhaust_opening": 0.8726646,
    "evaporated_share": 0.30,
    "port_heating": 0.15,
    "port_temperature": 363.0,
    "residual_temperature": 1050.0,
    "exhaust_restriction": 1.07,
    "turbine_back_pressure": 1.1,
    "burn_angle": 0.3839724,
    "burn_speed_growth": 0.35,
    "late_burn_growth": 0.15,
    "knock_end": 0.90,
    "delay_factor": 1.0,
    "wall_temperature": 450.0,
    "heat_loss_factor": 1.0,
    "petrol_heating_value": 43.4e6,
    "petrol_density": 745.0,
}
EXAMPLE_LATEST = {
    "latest_unboosted": 0.1745329,
    "latest_slope": 1.745329e-6,
    "latest_ever": 0.4537856,
}
