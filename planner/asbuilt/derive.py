"""Readings that nobody types: form, spread, clearance and ratio, worked out of those typed."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from math import hypot, sqrt

from planner.asbuilt.fits import TYPED, WHOLE, Fit
from planner.asbuilt.measured import Measured, Readings
from planner.errors import BorewrightError
from planner.physics.geometry import piston_area
from planner.physics.readings_shape import out_of_round, taper
from planner.physics.volumes import deck_volume, swept_volume
from planner.physics.volumes_ratio import clearance_volume, volume_ratio
from planner.rulebook.values import Band
from planner.rulebook.world import World

PISTON = "piston_bare"
FEWEST = 2
"""Readings of one item that a form or a spread needs at least."""


class Deriver:
    """Works readings out of others.

    Parameters
    ----------
    world
        Answers of the rulebook, such as the pistons' sizes.
    fits
        What may be measured, and out of what it is worked out.
    typed
        Readings as typed.
    """

    def __init__(
        self, world: World, fits: Mapping[str, Fit], typed: Mapping[str, Readings]
    ) -> None:
        self.world, self.fits, self.typed = world, fits, typed

    def all(self) -> dict[str, Readings]:
        """Return all readings; one that is typed stands, whatever could be worked out."""
        found = dict(self.typed)
        ways: dict[str, Callable[[Fit], Readings]] = {
            "out_of_round": lambda fit: self._form(fit, out_of_round),
            "taper": lambda fit: self._form(fit, taper),
            "spread": self._spread,
            "less_piston": self._less_piston,
            "over": self._over,
            "ratio": self._ratio,
        }
        for name, fit in self.fits.items():
            if fit.reads != TYPED:
                found[name] = {**ways[fit.reads](fit), **self.typed.get(name, {})}
        return found

    def _source(self, fit: Fit, number: int = 0) -> Readings:
        return self.typed.get(fit.sources[number], {})

    def _form(self, fit: Fit, measure: Callable[..., float]) -> Readings:
        """Work a form error out of the readings of the same item."""
        found: dict[str, Measured] = {}
        for item, each in self._source(fit).items():
            if sum(len(row) for row in each.grid) < FEWEST or _too_flat(each, measure):
                continue
            value = measure(readings=each.grid)
            found[item] = _worked(each, value, fit.sources[0])
        return found

    def _spread(self, fit: Fit) -> Readings:
        """Work out the largest less the smallest of all items, once all of them are there."""
        source = self._source(fit)
        wanted = self.world.items(self.fits[fit.sources[0]].set)
        if len(source) < max(FEWEST, len(wanted)):
            return {}
        means = [each.mean for each in source.values()]
        last = max(source.values(), key=lambda each: each.holds_from)
        stated = [each.uncertainty for each in source.values() if each.uncertainty is not None]
        worked = _worked(last, max(means) - min(means), fit.sources[0])
        return {"": replace(worked, uncertainty=sqrt(2.0) * max(stated) if stated else None)}

    def _less_piston(self, fit: Fit) -> Readings:
        """Work out bore less piston, at the smallest and at the largest reading of the bore."""
        found: dict[str, Measured] = {}
        for item, each in self._source(fit).items():
            piston = self._number(PISTON, item)
            if piston is not None:
                grid = tuple(tuple(cell - piston for cell in row) for row in each.grid)
                found[item] = replace(each, grid=grid, worked_out=f"{fit.sources[0]}, {PISTON}")
        return found

    def _over(self, fit: Fit) -> Readings:
        """Work out how far one fit is over another at the same item."""
        other = self._source(fit, 1)
        found = {}
        for item, each in self._source(fit).items():
            if item in other:
                both = f"{fit.sources[0]}, {fit.sources[1]}"
                found[item] = _worked(each, each.low - other[item].high, both)
        return found

    def _ratio(self, fit: Fit) -> Readings:
        """Work out the ratio of each cylinder and how sure it is."""
        found: dict[str, Measured] = {}
        for item in self.world.items("cylinder"):
            parts = {name: self.typed.get(name, {}).get(item) for name in fit.sources}
            if any(part is None for part in parts.values()):
                continue
            given = {name: part for name, part in parts.items() if part is not None}
            answer = self._one_ratio(fit, given)
            if answer is not None:
                found[item] = answer
        return found

    def _one_ratio(self, fit: Fit, parts: Mapping[str, Measured]) -> Measured | None:
        chamber, crown, deck, bore = (parts[name] for name in fit.sources)
        stroke = self.world.facts.records.get("engine", {}).get("stroke")
        gasket, crevice = self._number("gasket_volume"), self._number("crevice")
        if not isinstance(stroke, int | float) or gasket is None or crevice is None:
            return None
        try:
            swept = swept_volume(bore=bore.mean, stroke=stroke)
            held = clearance_volume(
                chamber=chamber.mean,
                gasket=gasket,
                deck=deck_volume(bore=bore.mean, deck_clearance=deck.mean),
                crown=crown.mean,
                crevice=crevice,
            )
            ratio = volume_ratio(swept=swept, clearance=held)
        except BorewrightError:
            return None
        poured, depth = self._sure(fit.sources[0], chamber), self._sure(fit.sources[2], deck)
        volume = hypot(
            poured, self._sure(fit.sources[1], crown), piston_area(bore=bore.mean) * depth
        )
        latest = max(parts.values(), key=lambda each: each.holds_from)
        worked = _worked(latest, ratio, ", ".join(fit.sources))
        least = self._number(fit.sure) or 0.0
        return replace(worked, uncertainty=max(least, swept / held**2 * volume))

    def _sure(self, name: str, measured: Measured) -> float:
        """Return the standard uncertainty of a reading."""
        if measured.uncertainty is not None:
            return measured.uncertainty
        return self._number(self.fits[name].sure) or 0.0

    def _number(self, name: str, item: str = "") -> float | None:
        answer = self.world.answers.get(name)
        if answer is None:
            return None
        value = answer.value((item,) if answer.type.per else ())
        if isinstance(value, Band):
            value = value.target if value.target is not None else value.low
        return value if isinstance(value, int | float) else None


def uncertainty_of(world: World, fit: Fit, measured: Measured) -> float | None:
    """Return the standard uncertainty of a reading: stated with it, of its gauge, or the usual."""
    if measured.uncertainty is not None:
        return measured.uncertainty
    answer = world.answers.get(fit.sure)
    value = answer.value() if answer is not None else None
    if not isinstance(value, int | float):
        return None
    twice = fit.set == WHOLE and fit.reads == "spread" and not fit.sure.startswith("form")
    return sqrt(2.0) * value if twice or fit.reads == "over" else value


def _worked(measured: Measured, value: float, sources: str) -> Measured:
    return replace(measured, grid=((value,),), uncertainty=None, worked_out=sources)


def _too_flat(measured: Measured, measure: Callable[..., float]) -> bool:
    """Tell whether a form needs more rows or more columns than were read."""
    return (measure is taper and len(measured.grid) < FEWEST) or (
        measure is out_of_round and len(measured.grid[0]) < FEWEST
    )
