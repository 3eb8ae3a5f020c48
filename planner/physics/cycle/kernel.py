"""One step of the cycle, written once for numbers and for arrays.

Every function here works on plain floats and on NumPy arrays alike: the NumPy driver calls
them on whole batches, the numba driver compiles the same source for one case at a time, so
the two cannot drift apart. All quantities are for one kilogram of charge.

Names in the formulas: t temperature [K], p pressure [Pa], v volume [m**3/kg], x burned mass
share [-], r gas constant [J/(kg K)], h enthalpy [J/kg]; `_u` unburned, `_b` burned, `1` at
the end of the step.
"""

from math import pi
from typing import Any

import numpy as np

from planner.physics.cycle.burned import (
    COLDEST,
    LOG_STEP,
    LOWEST_LOG,
    PRESSURES,
    TEMPERATURE_STEP,
    TEMPERATURES,
)

Real = Any  # a float or an array of them: the same source serves both
Pack = Any  # a tuple of such, or a row of an array

PER_TEMPERATURE_STEP = 1.0 / TEMPERATURE_STEP
PER_LOG_STEP = 1.0 / LOG_STEP
LAST_ROW = TEMPERATURES - 2.0
LAST_COLUMN = PRESSURES - 2.0
COLUMNS = PRESSURES - 1.0
FIRST_BURNED = 2500.0  # start value of the burned temperature [K]
LEAST_BURNED = 1e-7
MOST_BURNED = 1.0 - 1e-9
WIEBE = 6.908  # 99.9 % burned at the end: -ln 0.001
STEPS_UP = (1.33, 1.28, 1.28)  # near 1/(1 - kappa), so three passes settle the pressure
ATMOSPHERE = 101325.0
DELAY = 17.68e-3  # [s]: Douaud and Eyzat, SAE 780080 (1978)
DELAY_OCTANE = 3.402
DELAY_PRESSURE = 1.7
DELAY_TEMPERATURE = 3800.0  # [K]


def chamber(angle: Real, ratio: Real, swept: Real, rod_ratio: Real) -> Real:
    """Cylinder volume at a crank angle after top centre (Heywood 1988, eq. 2.4-2.6) [m**3]."""
    drop = rod_ratio + 1.0 - np.cos(angle) - np.sqrt(rod_ratio * rod_ratio - np.sin(angle) ** 2)
    return swept / (ratio - 1.0) * (1.0 + 0.5 * (ratio - 1.0) * drop)


def wall_area(volume: Real, bore: Real) -> Real:
    """Wall area of a flat chamber: head, crown and cylinder [m**2]."""
    return 0.5 * pi * bore * bore + 4.0 * volume / bore


def burned_share(angle: Real, start: Real, span: Real) -> Real:
    """Burned mass share by a Wiebe function of exponent 3; none below a trace [-]."""
    along = np.maximum(0.0, (angle - start) / span)
    share = 1.0 - np.exp(-WIEBE * along * along * along)
    return np.minimum(share, MOST_BURNED) * (share >= LEAST_BURNED)


def unburned_heat(gas: Pack, t: Real) -> Real:
    """Specific heat of the unburned gas; gas is (r, c0..c4, datum) [J/(kg K)]."""
    s = t * 1e-3
    return (((gas[5] * s + gas[4]) * s + gas[3]) * s + gas[2]) * s + gas[1]


def unburned_enthalpy(gas: Pack, t: Real) -> Real:
    """Enthalpy of the unburned gas [J/kg]."""
    s = t * 1e-3
    series = (((gas[5] * 0.2 * s + gas[4] * 0.25) * s + gas[3] / 3.0) * s + gas[2] * 0.5) * s
    return gas[6] + t * (series + gas[1])


def burned_gas(table: Pack, offset: Real, t: Real, log_p: Real) -> Pack:
    """Enthalpy, its rise with temperature, gas constant and its rise, from the table."""
    along = (t - COLDEST) * PER_TEMPERATURE_STEP
    i = np.minimum(np.maximum(np.floor(along), 0.0), LAST_ROW)
    up = (log_p - LOWEST_LOG) * PER_LOG_STEP
    j = np.minimum(np.maximum(np.floor(up), 0.0), LAST_COLUMN)
    x = along - i
    y = up - j
    cell = np.int64(i * COLUMNS + j) + offset
    slope_h = np.take(table[1], cell) + np.take(table[3], cell) * y
    slope_r = np.take(table[5], cell) + np.take(table[7], cell) * y
    h = np.take(table[0], cell) + np.take(table[2], cell) * y + slope_h * x
    r = np.take(table[4], cell) + np.take(table[6], cell) * y + slope_r * x
    return h, slope_h * PER_TEMPERATURE_STEP, r, slope_r * PER_TEMPERATURE_STEP


def wall_conductance(factor: Real, p: Real, t: Real, flow: Real) -> Real:
    """Woschni's heat transfer coefficient, as Heywood 1988 eq. 12.71 [W/(m**2 K)].

    3.26 B**-0.2 p**0.8 T**-0.55 w**0.8 with p in kPa (from memory, not opened); `factor`
    holds 3.26 B**-0.2.
    """
    return factor * np.exp(0.8 * np.log(p * 1e-3 * flow) - 0.55 * np.log(t))


def knock_rate(scale: Real, p: Real, t: Real) -> Real:
    """One over the ignition delay, by Douaud and Eyzat; `scale` holds the octane [1/s]."""
    return scale * np.exp(DELAY_PRESSURE * np.log(p / ATMOSPHERE) - DELAY_TEMPERATURE / t)


def knock_gain(rate: Real, rate1: Real, part: Real) -> Real:
    """Mean knock rate over the part of a step that counts, times that part [1/s]."""
    return (rate + 0.5 * part * (rate1 - rate)) * part


def part_before(over: Real, angle: Real, angle1: Real) -> Real:
    """Part of a step that lies before an angle [-]."""
    return np.minimum(1.0, np.maximum(0.0, (over - angle) / (angle1 - angle)))


def squeeze(gas: Pack, p: Real, p1: Real, t: Real, t1: Real, wall: Pack) -> Real:
    """Unburned temperature at the end of a step: cp dT = v dp + heat, by trapezoid [K].

    `wall` is (heat for each kilogram unburned and kelvin [J/(kg K)], wall temperature).
    """
    mean = 0.5 * (t + t1)
    heat = wall[0] * (wall[1] - mean)
    capacity = unburned_heat(gas, mean)
    half = 0.5 * gas[0] * (p1 - p)
    return (t * (capacity + half / p) + heat) / (capacity - half / p1)


def passing_heat(gas: Pack, p: Real, p_before: Real, v_mid: Real, wall: Pack) -> Real:
    """Heat through the wall for each kelvin during a step, from the state halfway [J/(kg K)].

    `wall` is (conductance factor, gas speed from the piston [m/s], gas speed for each pascal
    above motoring, motoring pressure, wall area x time for each kilogram, wall temperature).
    """
    p_mid = p + 0.5 * (p - p_before)
    t_mid = p_mid * v_mid / gas[0]
    flow = wall[1] + wall[2] * np.maximum(0.0, p_mid - wall[3])
    return wall_conductance(wall[0], p_mid, t_mid, flow) * wall[4]


def compress(gas: Pack, state: Pack, ends: Pack, wall: Pack) -> tuple[Real, Real, Real]:
    """Pressure, temperature and heat taken up in a step with nothing burned.

    `state` is (p, p before, t); `ends` is (v, v1).
    """
    p, p_before, t = state
    v, v1 = ends
    near = (passing_heat(gas, p, p_before, 0.5 * (v + v1), wall), wall[5])
    p1 = p + (p - p_before)
    t1 = mean = t
    for gain in STEPS_UP:
        mean = 0.5 * (t + t1)
        t1 = squeeze(gas, p, p1, t, t1, near)
        p1 = p1 + gain * (gas[0] * t1 / v1 - p1)
    return p1, t1, near[0] * (near[1] - mean)


def burn(gas: Pack, table: Pack, offset: Real, state: Pack, ends: Pack, wall: Pack) -> Pack:
    """State after a step with part of the charge burned.

    `state` is (p, p before, t_u, t_b, h_b, v_b); `ends` is (v, v1, x, x1). Returns the state
    at the end of the step and the heat taken up. With nothing burned at either end it gives
    exactly what `compress` gives.
    """
    p, p_before, t_u, t_b, h_b, v_b = state
    v, v1, x, x1 = ends
    v_mid = 0.5 * (v + v1)
    passing = passing_heat(gas, p, p_before, v_mid, wall)
    # shared by volume; the part for each kilogram unburned stays finite to the end
    lit = x > 0.0
    near = (passing * (gas[0] * t_u / (p * v) * lit + (1 - lit)), wall[5])
    p1 = p + (p - p_before)
    t_u1, t_b1, h_b1, v_b1 = t_u, t_b, h_b, v_b
    mean, heat_b = t_u, 0.0
    safe = np.maximum(x1, LEAST_BURNED)
    for gain in STEPS_UP:
        mean = 0.5 * (t_u + t_u1)
        t_u1 = squeeze(gas, p, p1, t_u, t_u1, near)
        v_between = 0.5 * (v_b + v_b1)
        heat_b = passing * v_between / v_mid * (wall[5] - 0.5 * (t_b + t_b1))
        joined = (x1 - x) * unburned_enthalpy(gas, 0.5 * (t_u + t_u1))
        h_b1 = (x * h_b + joined + v_between * (p1 - p) + heat_b) / safe
        h, slope_h, r, slope_r = burned_gas(table, offset, t_b1, np.log(p1))
        shift = (h_b1 - h) / slope_h * (x1 > 0.0)
        t_b1 = t_b1 + shift
        filled = x1 * (r + slope_r * shift) * t_b1
        v_b1 = filled / p1
        p1 = p1 + gain * (((1.0 - x1) * gas[0] * t_u1 + filled) / v1 - p1)
    heat_u = near[0] * (near[1] - mean)
    return (p1, p, t_u1, t_b1, h_b1, v_b1), (1.0 - 0.5 * (x + x1)) * heat_u + heat_b
