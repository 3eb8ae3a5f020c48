"""The march compiled by numba, when numba is there; the same kernel, case by case.

Nothing turns it on by itself: compiling takes some seconds, which pays for a server that
answers many questions, not for one plan. It is not kept on disk, so it can never lag behind
its source. Large batches stay with NumPy, which is the faster of the two there.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import lru_cache
from importlib import import_module
from importlib.util import find_spec

import numpy as np

from planner.physics.cycle import kernel
from planner.physics.cycle.kernel import Pack
from planner.physics.cycle.lines import Lined
from planner.physics.cycle.march import Burn, Ran, run_with_numpy, runner

FUNCTIONS = (
    kernel.burned_share,
    kernel.unburned_heat,
    kernel.unburned_enthalpy,
    kernel.burned_gas,
    kernel.wall_conductance,
    kernel.knock_rate,
    kernel.knock_gain,
    kernel.part_before,
    kernel.squeeze,
    kernel.passing_heat,
    kernel.compress,
    kernel.burn,
)
TALLIES = 13
LARGE = 400


def can_compile() -> bool:
    """Say whether numba is installed."""
    return find_spec("numba") is not None


@contextmanager
def compiled_runs() -> Iterator[None]:
    """Run every march inside the block with the compiled kernel."""
    before = runner[0]
    runner[0] = run_compiled
    try:
        yield
    finally:
        runner[0] = before


def run_compiled(lined: Lined, burn: Burn) -> Ran:
    """March a batch with the compiled kernel, the compression included."""
    if burn.start.size > LARGE:
        return run_with_numpy(lined, burn)
    charge = lined.charge
    out = np.empty((burn.start.size, TALLIES))
    held = (
        *lined.wall,
        lined.setting.value["wall_temperature"],
        *charge.gas,
        charge.pressure,
        charge.temperature,
        burn.start,
        burn.span,
        burn.over,
        lined.time,
        lined.scale,
    )
    stations = np.stack([lined.angle, lined.volume]).transpose(2, 0, 1)
    steps = np.stack([lined.area, lined.motoring]).transpose(2, 0, 1)
    _program()(
        (burn.first, burn.last),
        np.stack(held, axis=1),
        np.ascontiguousarray(stations),
        np.ascontiguousarray(steps),
        (np.stack(lined.setting.table), lined.setting.offset),
        out,
    )
    return Ran(tuple(out.T[:6]), *out.T[6:])


@lru_cache(maxsize=1)
def _program() -> Callable[..., None]:
    """Compile the march of one case and the loop over cases."""
    numba = import_module("numba")
    for each in (*FUNCTIONS, _cold):
        import_module("numba.extending").register_jitable(each)

    def every(
        marks: Pack, held: Pack, stations: Pack, steps: Pack, table: Pack, out: Pack
    ) -> None:
        for case in range(out.shape[0]):
            burned = (table[0], table[1][case])
            one(marks, held[case], stations[case], steps[case], burned, out[case])

    one = numba.njit(error_model="numpy")(_one)
    program: Callable[..., None] = numba.njit(error_model="numpy")(every)
    return program


def _one(marks: Pack, held: Pack, stations: Pack, steps: Pack, table: Pack, out: Pack) -> None:
    """March one case; the order of every sum is that of the NumPy run.

    `marks` is (first, last) station; `held` three wall figures and the wall temperature, the
    gas, pressure and temperature at closing, start, span and over of the burn, step time and
    knock scale; `stations` angle and volume; `steps` area and motored pressure; `table` the
    coefficients and where they begin.
    """
    first, last = marks
    state, rate, sums = _cold(first, held, stations, steps)
    start, span, over, time, scale = held[13], held[14], held[15], held[16], held[17]
    knock, work, heat = sums
    peak, peak_angle, hottest = state[0], stations[0, first], state[2]
    x = kernel.burned_share(stations[0, first], start, span)
    for index in range(first, last):
        angle, angle1 = stations[0, index], stations[0, index + 1]
        v, v1 = stations[1, index], stations[1, index + 1]
        x1 = kernel.burned_share(angle1, start, span)
        flow = held[2] if 0.5 * (angle + angle1) > start else 0.0
        wall = (held[0], held[1], flow, steps[1, index], steps[0, index], held[3])
        before, ends = state[0], (v, v1, x, x1)
        state, taken = kernel.burn(held[4:11], table[0], table[1], state, ends, wall)
        heat, work = heat + taken, work + 0.5 * (before + state[0]) * (v1 - v)
        rate1 = kernel.knock_rate(scale, state[0], state[2])
        part = kernel.part_before(over, angle, angle1)
        knock = knock + kernel.knock_gain(rate, rate1, part) * time
        rate, x = rate1, x1
        peak_angle = angle1 if state[0] > peak else peak_angle
        peak = max(peak, state[0])
        hottest = max(hottest, state[2]) if part > 0.0 else hottest
    out[0], out[1], out[2], out[3], out[4], out[5] = state
    out[6], out[7], out[8], out[9] = x, knock, work, heat
    out[10], out[11], out[12] = peak, peak_angle, hottest


def _cold(first: int, held: Pack, stations: Pack, steps: Pack) -> Pack:
    """Squeeze one case up to the first station where something may burn."""
    pressure, before, temperature = held[11], held[11], held[12]
    time, scale = held[16], held[17]
    rate = kernel.knock_rate(scale, pressure, temperature)
    knock, work, heat = 0.0, 0.0, 0.0
    for index in range(first):
        v, v1 = stations[1, index], stations[1, index + 1]
        wall = (held[0], held[1], 0.0, steps[1, index], steps[0, index], held[3])
        state = (pressure, before, temperature)
        pressure1, temperature, taken = kernel.compress(held[4:11], state, (v, v1), wall)
        before, pressure = pressure, pressure1
        rate1 = kernel.knock_rate(scale, pressure, temperature)
        knock = knock + 0.5 * (rate + rate1) * time
        work = work + 0.5 * (before + pressure) * (v1 - v)
        heat, rate = heat + taken, rate1
    cold = (pressure, before, temperature, kernel.FIRST_BURNED, 0.0, 0.0)
    return cold, rate, (knock, work, heat)
