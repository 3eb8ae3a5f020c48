"""Cases set out along the crank: stations, volumes, wall areas, and the cold compression."""

from dataclasses import dataclass, field
from math import pi

import numpy as np

from planner.physics.cycle import kernel
from planner.physics.cycle.charge import Charge, charge_at_closing
from planner.physics.cycle.gas import Array
from planner.physics.cycle.setting import Setting

STEP = float(np.deg2rad(2.0))  # fine enough for a recommendation: halving it moves a ratio < 0.01
BURN_SPEED = 2500.0 * pi / 30.0  # where the burn angle is told [rad/s]
BEST = float(np.deg2rad(8.0))  # phasing from which lateness is counted [rad]
LATENESS = float(np.deg2rad(10.0))
PISTON_FLOW = 2.28  # gas speed over mean piston speed: Heywood 1988 eq. 12.71
BURN_FLOW = 3.24e-3  # [m/(s K)], the same
WOSCHNI = 3.26  # the same, with p in kPa
MOTORING = 1.33  # polytropic exponent of the motored pressure


@dataclass(eq=False)
class Lined:
    """Cases set out along the crank, before a phasing is chosen."""

    setting: Setting
    charge: Charge
    angle: Array  # crank angle at each station, after firing top centre [station, case]
    volume: Array  # for each kilogram of charge [station, case]
    area: Array  # wall area x time of each step, for each kilogram [step, case]
    motoring: Array  # motored pressure halfway each step [step, case]
    time: Array  # of a step [case]
    scale: Array  # of the knock rate [case]
    wall: tuple[Array, ...]  # conductance factor, piston flow, burn flow [case]
    cold: "list[Cold]" = field(default_factory=list)


@dataclass(frozen=True, eq=False)
class Cold:
    """State at one station with nothing burned yet."""

    pressure: Array
    before: Array
    temperature: Array
    rate: Array
    knock: Array
    work: Array
    heat: Array


def line_up(setting: Setting, ratio: Array, step: float = STEP) -> Lined:
    """Set cases out along the crank: volumes, wall areas and charge."""
    value = setting.value
    charge = charge_at_closing(setting, ratio)
    first = value["inlet_closing"] - pi
    last = pi - value["exhaust_opening"]
    steps = int(np.ceil(np.max(last - first) / step - 1e-9))
    along = np.arange(steps + 1)[:, None] / steps
    angle = first + (last - first) * along
    volume = kernel.chamber(angle, ratio, charge.swept, 2 * value["rod_length"] / value["stroke"])
    halfway = 0.5 * (volume[1:] + volume[:-1])
    time = (last - first) / steps / value["speed"]
    piston = value["stroke"] * value["speed"] / pi
    burning = BURN_FLOW * charge.swept * charge.temperature / (charge.pressure * charge.volume)
    return Lined(
        setting=setting,
        charge=charge,
        angle=angle,
        volume=volume / charge.mass,
        area=kernel.wall_area(halfway, value["bore"]) * time / charge.mass,
        motoring=charge.pressure * np.exp(MOTORING * np.log(charge.volume / halfway)),
        time=time,
        scale=(100.0 / value["octane"]) ** kernel.DELAY_OCTANE
        / (kernel.DELAY * value["delay_factor"]),
        wall=(
            value["heat_loss_factor"] * WOSCHNI * value["bore"] ** -0.2,
            PISTON_FLOW * piston,
            burning,
        ),
    )


def burn_span(value: dict[str, Array], phasing: Array) -> Array:
    """Length of the whole Wiebe burn [rad]."""
    best = value["burn_angle"] * (value["speed"] / BURN_SPEED) ** value["burn_speed_growth"]
    late = np.maximum(0.0, phasing - BEST) / LATENESS
    return np.asarray(best * (1.0 + value["late_burn_growth"] * late) / (along(0.9) - along(0.1)))


def along(share: Array | float) -> Array:
    """Say how far along its span the Wiebe burn has burned a share [-]."""
    return np.asarray(np.cbrt(-np.log1p(-np.asarray(share)) / kernel.WIEBE))


def cold_state(lined: Lined, station: int) -> Cold:
    """State at a station before ignition; what was marched before is kept."""
    if not lined.cold:
        pressure, temperature = lined.charge.pressure, lined.charge.temperature
        rate = kernel.knock_rate(lined.scale, pressure, temperature)
        none = np.zeros_like(pressure)
        lined.cold.append(Cold(pressure, pressure, temperature, rate, none, none, none))
    while len(lined.cold) <= station:
        lined.cold.append(_squeezed(lined, len(lined.cold) - 1))
    return lined.cold[station]


def _squeezed(lined: Lined, index: int) -> Cold:
    """Take one step of compression."""
    state = lined.cold[index]
    wall = (
        lined.wall[0],
        lined.wall[1],
        0.0,
        lined.motoring[index],
        lined.area[index],
        lined.setting.value["wall_temperature"],
    )
    v, v1 = lined.volume[index], lined.volume[index + 1]
    pressure, temperature, heat = kernel.compress(
        lined.charge.gas, (state.pressure, state.before, state.temperature), (v, v1), wall
    )
    rate = kernel.knock_rate(lined.scale, pressure, temperature)
    return Cold(
        pressure,
        state.pressure,
        temperature,
        rate,
        state.knock + 0.5 * (state.rate + rate) * lined.time,
        state.work + 0.5 * (state.pressure + pressure) * (v1 - v),
        state.heat + heat,
    )
