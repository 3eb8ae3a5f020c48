"""What a big end feels through a cycle: gas and inertia, seen from the rod."""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.physics.bounds import within
from planner.physics.rods import crank_ratio

SAMPLES = 1440


@dataclass(frozen=True, slots=True)
class Drive:
    """One cylinder's moving parts."""

    bore: float
    stroke: float
    rod_length: float
    reciprocating_mass: float
    rotating_mass: float


@dataclass(frozen=True, slots=True)
class Trace:
    """The assumed shape of a pressure trace; pressures absolute, angles from firing centre.

    It stands in until a worked-out trace is at hand: boost up to inlet closing, compression
    with one exponent, a half cosine up to the peak, expansion with one exponent, a straight
    fall to the back pressure.
    """

    ratio: float
    peak: float
    boost: float
    back: float
    closing: float
    burning: float
    peak_angle: float
    opening: float
    settled: float
    compression: float
    expansion: float

    def at(self, angle: float, volume: float, firing: float, closed: float) -> float:
        """Give the absolute pressure at an angle from -360 to 360 degrees.

        `volume`, `firing` and `closed` are the cylinder volumes now, at the peak and at
        inlet closing.
        """
        if angle < self.closing:
            return self.boost
        if angle < self.burning:
            return self.boost * (closed / volume) ** self.compression
        if angle <= self.opening:
            return self.peak * (firing / volume) ** self.expansion
        return self.back


def sample_angles(count: int = SAMPLES) -> list[float]:
    """List evenly spaced crank angles over two turns, from firing top centre."""
    return [4 * math.pi * place / count for place in range(count)]


def pressure_trace(trace: Trace, drive: Drive, count: int = SAMPLES) -> list[float]:
    """Sample an assumed pressure trace at evenly spaced crank angles.

    Parameters
    ----------
    trace
        Its shape.
    drive
        The cylinder.
    count
        How many angles over two turns.

    Returns
    -------
    list of float
        Absolute pressures from firing top centre. [Pa]
    """
    swing = crank_ratio(drive.stroke, drive.rod_length)

    def volume(angle: float) -> float:
        """Volume over swept volume."""
        drop = 1 - math.cos(angle) + (1 - math.sqrt(1 - (swing * math.sin(angle)) ** 2)) / swing
        return 1 / (trace.ratio - 1) + drop / 2

    def at(angle: float) -> float:
        return trace.at(angle, volume(angle), volume(trace.peak_angle), volume(trace.closing))

    start, end = at(trace.burning - 1e-9), at(trace.opening)
    found = []
    for turned in sample_angles(count):
        angle = turned if turned <= 2 * math.pi else turned - 4 * math.pi
        if trace.burning <= angle < trace.peak_angle:
            share = (angle - trace.burning) / (trace.peak_angle - trace.burning)
            found.append(start + (trace.peak - start) * (1 - math.cos(math.pi * share)) / 2)
        elif trace.opening < angle < trace.settled:
            share = (angle - trace.opening) / (trace.settled - trace.opening)
            found.append(end + (trace.back - end) * share)
        else:
            found.append(at(angle))
    return found


def big_end_loads(gauge: Sequence[float], drive: Drive, speed: float) -> list[complex]:
    """Work out the load on the crank pin at evenly spaced crank angles, seen from the rod.

    Parameters
    ----------
    gauge
        Gauge pressures at evenly spaced angles over two turns, from firing top centre. [Pa]
    drive
        The cylinder's moving parts.
    speed
        Crank speed. [rad/s]

    Returns
    -------
    list of complex
        Loads: real part along the rod towards the piston, imaginary part to the left of
        that. [N]

    Notes
    -----
    Along the rod (p A - m a) / cos of its tilt, pushing the pin away from the piston; and
    the big end's own mass, which pulls outward with m r w**2.
    """
    within("crank speed", speed, 10, 3000, ("rpm", 30 / math.pi))
    area = math.pi / 4 * drive.bore**2
    radius = drive.stroke / 2
    outward = drive.rotating_mass * radius * speed**2
    loads = []
    for angle, pressure in zip(sample_angles(len(gauge)), gauge, strict=True):
        tilt, rate = _tilt(drive, angle)
        push = pressure * area - drive.reciprocating_mass * radius * speed**2 * rate
        loads.append(-push / math.cos(tilt) + outward * cmath.exp(-1j * (angle + tilt)))
    return loads


def big_end_turning(drive: Drive, count: int) -> list[float]:
    """Give the speed of the crank pin in the rod over the crank speed; clockwise is minus."""
    swing = crank_ratio(drive.stroke, drive.rod_length)
    return [
        -(1 + swing * math.cos(angle) / math.cos(math.asin(swing * math.sin(angle))))
        for angle in sample_angles(count)
    ]


def _tilt(drive: Drive, angle: float) -> tuple[float, float]:
    """Give the rod's tilt, and the piston's acceleration over r w**2, down positive."""
    swing = crank_ratio(drive.stroke, drive.rod_length)
    sine = math.sin(angle)
    cosine = math.sqrt(1 - (swing * sine) ** 2)
    curve = (swing * math.cos(2 * angle) + swing**3 * sine**4) / cosine**3
    return math.asin(swing * sine), math.cos(angle) + curve
