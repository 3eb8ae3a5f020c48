"""The path of a journal in its bearing under a changing load, by Booker's mobility method.

A journal is a complex number here: its place over the radial clearance, 0 in the middle and
1 touching. Loads are complex too, and both are seen from the bearing.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.physics.registry import outside

TOUCHING = 0.97
# The step follows the error of a third-order pair; a turn of the crank takes some hundreds.
TOLERANCE, FIRST_STEP, MOST_STEP = 2e-5, 1e-3, 0.05
SETTLED, MOST_CYCLES = 2e-4, 8


@dataclass(frozen=True, slots=True)
class Bearing:
    """What the oil film of one bearing answers with.

    `ease` is (c/R)**2 / (mu l D) over the crank speed, per newton and radian; `slimness` is
    width over diameter.
    """

    ease: float
    slimness: float


def mobility(place: complex, direction: complex, slimness: float) -> complex:
    """Give how readily the journal moves under a load, by the short-bearing map.

    Parameters
    ----------
    place
        Place of the journal. [-]
    direction
        Direction of the load, of size 1. [-]
    slimness
        Bearing width over journal diameter. [-]

    Returns
    -------
    complex
        Mobility, seen from the bearing. [-]

    Notes
    -----
    In the frame of the load, M = (1 - x)**2.5 / (pi s**2) along it and
    -4 y (1 - x)**1.5 / (pi**2 s**2) across it: J. F. Booker, Dynamically loaded journal
    bearings: mobility method of solution, J. Basic Engineering (1965); not opened.
    """
    local = place * direction.conjugate()
    room = 1 - local.real
    root = math.sqrt(room)
    along = room * room * root / (math.pi * slimness**2)
    across = -4 * local.imag * room * root / (math.pi * slimness) ** 2
    return direction * complex(along, across)


def orbit(loads: Sequence[complex], turning: Sequence[float], bearing: Bearing) -> list[complex]:
    """Follow the journal until its path repeats, and give one whole cycle of it.

    Parameters
    ----------
    loads
        Load on the journal at evenly spaced crank angles over two turns, seen from the
        bearing. [N]
    turning
        Speed of the journal in the bearing over the crank speed at the same angles,
        anticlockwise positive. [-]
    bearing
        The oil film.

    Returns
    -------
    list of complex
        Places of the journal at the same angles.

    Raises
    ------
    OutsideValidity
        When the journal comes too near the shell for the map, or never settles.
    """
    step = 4 * math.pi / len(loads)
    place, most = 0j, math.inf
    for _ in range(MOST_CYCLES):
        path = _cycle(place, loads, turning, bearing, step)
        found = max(abs(each) for each in path)
        if abs(found - most) < SETTLED:
            return path
        place, most = path[-1], found
    return outside(
        "path of the journal",
        f"not yet a closed one after {MOST_CYCLES} cycles",
        "loads under which it settles",
        "Check load, clearance and oil: the journal hardly feels them.",
    )


def _cycle(
    place: complex,
    loads: Sequence[complex],
    turning: Sequence[float],
    bearing: Bearing,
    step: float,
) -> list[complex]:
    """Follow the journal over one cycle, from sample to sample."""
    path = []
    count, inner = len(loads), FIRST_STEP
    for index in range(count):
        following = (index + 1) % count
        span = _Span(
            loads[index], loads[following], turning[index], turning[following], step, bearing
        )
        place, inner = span.cross(place, inner)
        path.append(place)
    return path


@dataclass(frozen=True, slots=True)
class _Span:
    """The crank angle between two samples, load and turning changing evenly in it."""

    load: complex
    next_load: complex
    turning: float
    next_turning: float
    width: float
    bearing: Bearing

    def cross(self, place: complex, step: float) -> tuple[complex, float]:
        """Move the journal across the span with as many steps as its error asks for."""
        done = 0.0
        slope = self._slope(place, 0.0)
        while done < self.width:
            step = min(step, MOST_STEP, self.width - done)
            second = self._slope(place + step / 2 * slope, done + step / 2)
            third = self._slope(place + 0.75 * step * second, done + 0.75 * step)
            moved = place + step * (2 * slope + 3 * second + 4 * third) / 9
            if abs(moved) >= 1:
                step = _shorter(step)
                continue
            last = self._slope(moved, done + step)
            error = abs(step * (-5 * slope / 72 + second / 12 + third / 9 - last / 8))
            if error <= TOLERANCE:
                done, place, slope = done + step, moved, last
            step *= min(4.0, max(0.2, 0.9 * (TOLERANCE / max(error, 1e-12)) ** (1 / 3)))
        return place, step

    def _slope(self, place: complex, angle: float) -> complex:
        """Give the change of place for each radian of crank."""
        if abs(place) >= 1:
            place *= 0.999 / abs(place)
        share = angle / self.width
        load = self.load + share * (self.next_load - self.load)
        turning = self.turning + share * (self.next_turning - self.turning)
        size = abs(load)
        whirl = 0.5j * turning * place
        if size == 0:
            return whirl
        pushed = mobility(place, load / size, self.bearing.slimness)
        return self.bearing.ease * size * pushed + whirl


def _shorter(step: float) -> float:
    """Halve a step that would run the journal into the shell."""
    if step < 1e-9:
        outside(
            "place of the journal",
            "at the shell",
            f"a film of at least {1 - TOUCHING:.0%} of the clearance",
            "Less load, more speed or thicker oil.",
        )
    return step / 2
