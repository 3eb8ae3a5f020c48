"""Map of ratio by boost: how late knock pushes the burn in each tile."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from planner.physics.cycle.crossings import Latest, latest_at
from planner.physics.cycle.gas import Array
from planner.physics.cycle.limits import LATEST_OF_ALL
from planner.physics.cycle.lines import line_up
from planner.physics.cycle.march import march
from planner.physics.cycle.setting import Point, Setting, setting
from planner.physics.cycle.solve import limited_phasing

COARSE = 13
CHUNK = 4000
STEP_ASIDE = float(np.deg2rad(0.5))
SETTLING = 1  # corrections of the phasing taken from the coarse map, beside the last

Progress = Callable[[int, int], None]


@dataclass(frozen=True, eq=False)
class RatioMap:
    """Ratio by boost for one engine on one fuel; rows follow the ratios, columns the boosts."""

    ratios: tuple[float, ...]
    boosts: tuple[float, ...]  # gauge [Pa]
    phasing: Array  # knock-limited [rad]; inf where even 50 degrees knocks
    latest: Array  # latest phasing allowed at each boost [rad]

    @property
    def margin(self) -> Array:
        """Latest phasing allowed less the knock-limited one [rad]; -inf where it knocks."""
        return self.latest[None, :] - self.phasing


def ratio_map(
    point: Point,
    ratios: Sequence[float],
    boosts: Sequence[float],
    *,
    latest: Latest,
    best: float,
    charge: Sequence[float] | None = None,
    progress: Progress | None = None,
) -> RatioMap:
    """Work out the knock-limited phasing over ratio and boost.

    Parameters
    ----------
    point
        Engine, fuel and air; its boost is what the map varies.
    ratios, boosts
        Rising values along the two sides. [-], [Pa]
    latest
        Latest phasing allowed: unboosted, slope and ever. [rad], [rad/Pa], [rad]
    best
        Phasing of best torque. [rad]
    charge
        Charge temperature at each boost; that of the point when not given. [K]
    progress
        Called with tiles done and tiles in all, after each part.

    Returns
    -------
    RatioMap
        The map as data.
    """
    side = np.asarray(boosts, dtype=np.float64)
    hot = np.full(side.size, point.charge_temperature) if charge is None else np.asarray(charge)
    tall = np.asarray(ratios, dtype=np.float64)
    rows = np.repeat(tall, side.size)
    columns = np.tile(np.arange(side.size), tall.size)
    base = setting([point])
    guess = _coarse(base, (tall, side, hot), best) if rows.size > COARSE**2 else None
    found = np.empty(rows.size)
    for begin in range(0, rows.size, CHUNK):
        part = slice(begin, begin + CHUNK)
        tiles = base.part(np.zeros(rows[part].size, dtype=np.int64)).with_values(
            boost=side[columns[part]], charge_temperature=hot[columns[part]]
        )
        if guess is None:
            found[part] = limited_phasing(tiles, rows[part], best)
        else:
            found[part] = _settled(tiles, rows[part], guess[part], best)
        if progress is not None:
            progress(min(begin + CHUNK, rows.size), rows.size)
    phasing = found.reshape(tall.size, side.size)
    return RatioMap(tuple(ratios), tuple(boosts), phasing, latest_at(side, latest))


def _coarse(base: Setting, sides: tuple[Array, Array, Array], best: float) -> Array:
    """Phasing of a coarse map, interpolated to every tile; may lie beyond both ends [rad]."""
    tall, side, hot = sides
    few_tall = np.linspace(tall[0], tall[-1], COARSE)
    few_side = np.linspace(side[0], side[-1], COARSE)
    rows, columns = (each.ravel() for each in np.meshgrid(few_tall, few_side, indexing="ij"))
    tiles = base.part(np.zeros(rows.size, dtype=np.int64)).with_values(
        boost=columns, charge_temperature=np.interp(columns, side, hot)
    )
    found = np.minimum(limited_phasing(tiles, rows, best), LATEST_OF_ALL)
    coarse = found.reshape(COARSE, COARSE)
    across = np.array([np.interp(side, few_side, row) for row in coarse])
    down = [np.interp(tall, few_tall, column) for column in across.T]
    return np.array(down).T.ravel()


def _settled(tiles: Setting, ratio: Array, guess: Array, best: float) -> Array:
    """Correct guessed phasings by the slope of the knock integral, and mark the ends [rad]."""
    lined = line_up(tiles, ratio)

    def excess(phasing: Array) -> Array:
        return np.asarray(np.log(march(lined, phasing, whole=False).knock))

    here = np.clip(guess, best, LATEST_OF_ALL)
    aside = np.where(here > best + STEP_ASIDE, here - STEP_ASIDE, here + STEP_ASIDE)
    value, beside = excess(here), excess(aside)
    for _ in range(SETTLING):
        slope = (value - beside) / (here - aside)
        there = np.clip(here - value / slope, best, LATEST_OF_ALL)
        moved = np.abs(there - here) > 1e-9
        aside, beside = np.where(moved, here, aside), np.where(moved, value, beside)
        here = there
        value = np.where(moved, excess(here), value)
    slope = (value - beside) / (here - aside)
    last = here - value / slope
    return np.where(last > LATEST_OF_ALL, np.inf, np.maximum(last, best))
