"""The charge when the inlet valve closes."""

from dataclasses import dataclass
from math import pi

import numpy as np

from planner.physics.cycle.gas import Array
from planner.physics.cycle.kernel import chamber, unburned_heat
from planner.physics.cycle.setting import Setting

MIXING_PASSES = 6
FRESH_AT = 330.0  # where the specific heat of the fresh charge is taken for mixing [K]
RESIDUAL_AT = 700.0  # and that of the residual [K]


@dataclass(frozen=True, eq=False)
class Charge:
    """State at inlet closing, for each case."""

    pressure: Array  # absolute [Pa]
    temperature: Array  # [K]
    mass: Array  # in one cylinder [kg]
    residual: Array  # share by mass [-]
    exhaust_pressure: Array  # absolute [Pa]
    gas: tuple[Array, ...]  # r, c0..c4, datum of the mixed charge
    swept: Array  # of one cylinder [m**3]
    volume: Array  # at inlet closing [m**3]


def charge_at_closing(setting: Setting, ratio: Array) -> Charge:
    """Work out the charge that the valve traps.

    The manifold pressure reaches into the cylinder unchanged; overlap back-flow, ram and
    filter loss are left out.

    Parameters
    ----------
    setting
        The operating points.
    ratio
        Static compression ratio of each. [-]

    Returns
    -------
    Charge
        Pressure, temperature, mass and mixture.
    """
    value = setting.value
    swept = pi / 4 * value["bore"] ** 2 * value["stroke"]
    rod_ratio = 2 * value["rod_length"] / value["stroke"]
    volume = chamber(value["inlet_closing"] - pi, ratio, swept, rod_ratio)
    pressure = value["ambient_pressure"] + value["boost"]
    exhaust = (
        value["exhaust_restriction"] * value["ambient_pressure"]
        + value["turbine_back_pressure"] * value["boost"]
    )
    cool = _fresh_temperature(setting)
    left = exhaust * swept / (ratio - 1.0) / value["residual_temperature"] / setting.residual[0]
    share, temperature, gas = _mix(setting, cool, left / (pressure * volume))
    mass = pressure * volume / (gas[0] * temperature)
    return Charge(pressure, temperature, mass, share, exhaust, gas, swept, volume)


def _fresh_temperature(setting: Setting) -> Array:
    """Fresh charge past the hot port, cooled by the fuel that turns to vapour [K]."""
    value = setting.value
    manifold = value["charge_temperature"]
    port = manifold + value["port_heating"] * (value["port_temperature"] - manifold)
    latent = value["evaporated_share"] * setting.fuel_share * setting.vaporising
    return np.asarray(port - latent / unburned_heat(setting.fresh, FRESH_AT))


def _mix(setting: Setting, cool: Array, left: Array) -> tuple[Array, Array, tuple[Array, ...]]:
    """Mix fresh charge and residual; `left` is residual mass over p V at closing [kg/J]."""
    heat_fresh = unburned_heat(setting.fresh, FRESH_AT)
    heat_left = unburned_heat(setting.residual, RESIDUAL_AT)
    hot = setting.value["residual_temperature"]
    share = np.zeros_like(cool)
    temperature = cool
    gas = setting.fresh
    for _ in range(MIXING_PASSES):
        share = left * gas[0] * temperature
        gas = tuple(
            (1.0 - share) * a + share * b
            for a, b in zip(setting.fresh, setting.residual, strict=True)
        )
        weight = share * heat_left / ((1.0 - share) * heat_fresh + share * heat_left)
        temperature = cool + weight * (hot - cool)
    return share, temperature, gas
