"""Cylinder pressure over the whole working cycle, for loads on pin, rod and bearings."""

from dataclasses import dataclass
from math import pi

import numpy as np

from planner.physics.cycle import kernel
from planner.physics.cycle.gas import Array
from planner.physics.cycle.lines import MOTORING, STEP, Lined, line_up
from planner.physics.cycle.march import Run, burn_between
from planner.physics.cycle.setting import Point, setting


@dataclass(frozen=True, eq=False)
class Trace:
    """One cycle, station by station, from bottom centre before compression on."""

    angle: Array  # after firing top centre, -180 to 540 degrees [rad]
    pressure: Array  # absolute [Pa]
    volume: Array  # of the cylinder [m**3]
    unburned: Array  # temperature of the unburned gas; nan outside the march [K]
    burned: Array  # temperature of the burned gas; nan where there is none [K]
    burned_share: Array  # by mass [-]


def pressure_trace(
    point: Point, ratio: float, phasing: float, *, scale: float = 1.0, step: float = STEP
) -> Trace:
    """Work out the pressure over two turns of the crank.

    Parameters
    ----------
    point
        The operating point.
    ratio
        Static compression ratio. [-]
    phasing
        Crank angle after firing top centre with half the charge burned. [rad]
    scale
        Factor on the pressure above that without combustion, so that the peak meets a design
        pressure; see `scale_to_peak`. [-]
    step
        Crank angle step. [rad]

    Returns
    -------
    Trace
        Compression and expansion from the model; manifold pressure before inlet closing; a
        fall to exhaust pressure between exhaust opening and bottom centre; exhaust and
        manifold pressure during the two gas exchange strokes.
    """
    lined = line_up(setting([point]), np.array([ratio]), step)
    marched = _marched(lined, phasing)
    plain = _unfired(marched)
    pressure = plain + scale * (marched.pressure - plain)
    return _closed(lined, (point, ratio), marched, pressure)


def scale_to_peak(trace: Trace, peak: float) -> float:
    """Give the factor that lifts a trace of scale one to a peak pressure, absolute [-].

    The hardest cycle is taken to be the mean one with its pressure from combustion grown in
    one proportion.
    """
    top = int(np.argmax(trace.pressure))
    start = int(np.argmax(trace.burned_share > 0.0)) - 1
    ratio = trace.volume[start] / trace.volume[top]
    plain = float(trace.pressure[start] * ratio**MOTORING)
    return (peak - plain) / (float(trace.pressure[top]) - plain)


def _marched(lined: Lined, phasing: float) -> Trace:
    """March the closed part, keeping every station."""
    burn = burn_between(lined, np.array([phasing]))
    run = Run(lined, burn)
    cold = lined.cold[: burn.first + 1]
    pressure = [float(each.pressure[0]) for each in cold]
    unburned = [float(each.temperature[0]) for each in cold]
    hot = [np.nan] * len(cold)
    share = [0.0] * len(cold)
    for index in range(burn.first, burn.last):
        run.advance(index)
        x = float(run.burned[index + 1 - burn.first][0])
        pressure.append(float(run.state[0][0]))
        unburned.append(float(run.state[2][0]))
        hot.append(float(run.state[3][0]) if x > 0.0 else np.nan)
        share.append(x)
    columns = (np.array(each) for each in (pressure, unburned, hot, share))
    pressures, colds, hots, shares = columns
    volume = lined.volume[:, 0] * lined.charge.mass[0]
    return Trace(lined.angle[:, 0], pressures, volume, colds, hots, shares)


def _unfired(marched: Trace) -> Array:
    """Pressure without combustion: the march until something burns, then a polytrope [Pa]."""
    start = max(0, int(np.argmax(marched.burned_share > 0.0)) - 1)
    after = marched.pressure[start] * (marched.volume[start] / marched.volume) ** MOTORING
    return np.where(np.arange(marched.angle.size) <= start, marched.pressure, after)


def _closed(lined: Lined, engine: tuple[Point, float], marched: Trace, pressure: Array) -> Trace:
    """Put the gas exchange round the march."""
    point, ratio = engine
    step = float(marched.angle[1] - marched.angle[0])
    exhaust = float(lined.charge.exhaust_pressure[0])
    inlet = float(lined.charge.pressure[0])
    before = np.arange(-pi, marched.angle[0] - 1e-9, step)
    after = np.arange(marched.angle[-1] + step, 3 * pi + 1e-9, step)
    fall = np.clip((pi - after) / (pi - marched.angle[-1]), 0.0, 1.0)
    blown = exhaust + (pressure[-1] - exhaust) * fall
    rest = np.where(after < 2 * pi, blown, inlet)
    angle = np.concatenate([before, marched.angle, after])
    blank = [np.full(before.size, np.nan), np.full(after.size, np.nan)]
    return Trace(
        angle=angle,
        pressure=np.concatenate([np.full(before.size, inlet), pressure, rest]),
        volume=kernel.chamber(
            angle, ratio, lined.charge.swept[0], 2 * point.rod_length / point.stroke
        ),
        unburned=np.concatenate([blank[0], marched.unburned, blank[1]]),
        burned=np.concatenate([blank[0], marched.burned, blank[1]]),
        burned_share=np.concatenate(
            [np.zeros(before.size), marched.burned_share, np.ones(after.size)]
        ),
    )
