"""March batches of cycles from inlet closing to exhaust opening."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from planner.physics.cycle import kernel
from planner.physics.cycle.gas import Array
from planner.physics.cycle.lines import Lined, along, burn_span, cold_state


@dataclass(frozen=True, eq=False)
class Outcome:
    """What a batch of cycles came to, for each case."""

    knock: Array  # knock integral; 1 is the limit [-]
    peak_pressure: Array  # absolute [Pa]
    peak_angle: Array  # [rad]
    hottest_end_gas: Array  # before the knock end [K]
    work: Array  # from inlet closing to exhaust opening, one cylinder [J]
    heat: Array  # taken up by the gas, one cylinder [J]
    last_pressure: Array  # at exhaust opening [Pa]
    last_temperature: Array  # [K]
    closure: Array  # energy not accounted for, over the energy of the fuel [-]


@dataclass(frozen=True, eq=False)
class Burn:
    """When each case burns, and the stations to march between."""

    start: Array  # [rad]
    span: Array  # [rad]
    over: Array  # where knock can do no more harm [rad]
    first: int  # station from which something may burn
    last: int


@dataclass(frozen=True, eq=False)
class Ran:
    """State and tallies at the last station."""

    state: tuple[Array, ...]  # as in kernel.burn
    burned: Array
    knock: Array
    work: Array  # for each kilogram [J/kg]
    heat: Array  # for each kilogram [J/kg]
    peak: Array
    peak_angle: Array
    hottest: Array


def march(lined: Lined, phasing: Array, *, whole: bool = True) -> Outcome:
    """Run the cycles at a phasing, to exhaust opening or only until knock is over."""
    burn = burn_between(lined, phasing, whole=whole)
    return outcome(lined, burn, runner[0](lined, burn))


def burn_between(lined: Lined, phasing: Array, *, whole: bool = True) -> Burn:
    """Lay the burn of each case along the crank."""
    span = burn_span(lined.setting.value, phasing)
    start = phasing - along(0.5) * span
    over = start + along(lined.setting.value["knock_end"]) * span
    first = max(0, int(np.argmax((lined.angle > start).any(axis=1))) - 1)
    last = len(lined.angle) - 1
    done = np.atleast_1d((lined.angle >= over).all(axis=1))
    if not whole and done[-1]:
        last = int(np.argmax(done))
    return Burn(start, span, over, first, last)


class Run:
    """A batch on its way along the crank, with NumPy."""

    def __init__(self, lined: Lined, burn: Burn) -> None:
        cold = cold_state(lined, burn.first)
        none = np.zeros_like(burn.start)
        hot = np.full_like(burn.start, kernel.FIRST_BURNED)
        self.lined = lined
        self.burn = burn
        stations = lined.angle[burn.first : burn.last + 1]
        self.burned = kernel.burned_share(stations, burn.start, burn.span)
        self.state = (cold.pressure, cold.before, cold.temperature, hot, none, none)
        self.rate, self.knock = cold.rate, cold.knock
        self.work, self.heat = cold.work, cold.heat
        self.peak, self.peak_angle = cold.pressure, lined.angle[burn.first]
        self.hottest = cold.temperature

    def advance(self, index: int) -> None:
        """Take the step that begins at a station."""
        lined, near = self.lined, index - self.burn.first
        v, v1 = lined.volume[index], lined.volume[index + 1]
        halfway = 0.5 * (lined.angle[index] + lined.angle[index + 1])
        wall = (
            lined.wall[0],
            lined.wall[1],
            np.where(halfway > self.burn.start, lined.wall[2], 0.0),
            lined.motoring[index],
            lined.area[index],
            lined.setting.value["wall_temperature"],
        )
        before = self.state[0]
        self.state, heat = kernel.burn(
            lined.charge.gas,
            lined.setting.table,
            lined.setting.offset,
            self.state,
            (v, v1, self.burned[near], self.burned[near + 1]),
            wall,
        )
        self.heat = self.heat + heat
        self.work = self.work + 0.5 * (before + self.state[0]) * (v1 - v)
        self._follow(lined.angle[index], lined.angle[index + 1])

    def _follow(self, angle: Array, angle1: Array) -> None:
        """Keep the knock integral and the highest figures."""
        pressure, _, temperature = self.state[:3]
        rate = kernel.knock_rate(self.lined.scale, pressure, temperature)
        part = kernel.part_before(self.burn.over, angle, angle1)
        self.knock = self.knock + kernel.knock_gain(self.rate, rate, part) * self.lined.time
        self.rate = rate
        self.peak_angle = np.where(pressure > self.peak, angle1, self.peak_angle)
        self.peak = np.maximum(self.peak, pressure)
        hottest = np.maximum(self.hottest, temperature)
        self.hottest = np.where(part > 0.0, hottest, self.hottest)


def run_with_numpy(lined: Lined, burn: Burn) -> Ran:
    """March the whole batch, station by station."""
    run = Run(lined, burn)
    for index in range(burn.first, burn.last):
        run.advance(index)
    return Ran(
        state=run.state,
        burned=run.burned[-1],
        knock=run.knock,
        work=run.work,
        heat=run.heat,
        peak=run.peak,
        peak_angle=run.peak_angle,
        hottest=run.hottest,
    )


# One place to put another way of running, such as planner.physics.cycle.compiled.
runner: list[Callable[[Lined, Burn], Ran]] = [run_with_numpy]


def outcome(lined: Lined, burn: Burn, ran: Ran) -> Outcome:
    """Gather the figures of a batch and close its energy balance."""
    charge = lined.charge
    pressure, _, cold, hot, enthalpy, _ = ran.state
    held = (1.0 - ran.burned) * kernel.unburned_enthalpy(charge.gas, cold) + ran.burned * enthalpy
    end = held - pressure * lined.volume[burn.last]
    begin = kernel.unburned_enthalpy(charge.gas, charge.temperature)
    begin = begin - charge.pressure * lined.volume[0]
    fuel = (1.0 - charge.residual) * lined.setting.fuel_share * lined.setting.heating_value
    return Outcome(
        knock=ran.knock,
        peak_pressure=ran.peak,
        peak_angle=ran.peak_angle,
        hottest_end_gas=ran.hottest,
        work=ran.work * charge.mass,
        heat=ran.heat * charge.mass,
        last_pressure=pressure,
        last_temperature=np.where(ran.burned > 0.5, hot, cold),
        closure=(end - begin - ran.heat + ran.work) / fuel,
    )
