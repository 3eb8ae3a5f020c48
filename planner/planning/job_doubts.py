"""Readings that can hardly be right, and figures of one engine that cannot both be true."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from planner.errors import Place, Problem
from planner.planning.job_engine import Chosen
from planner.planning.job_items import called
from planner.rulebook.results import Fact
from planner.rulebook.syntax import Rulebook, ValueBody
from planner.rulebook.values import Band, Value
from planner.units import show

Part = Callable[[Band], float]


@dataclass(frozen=True, slots=True)
class AgainstNew:
    """A reading that wear can move only one way from a figure of the new engine.

    Attributes
    ----------
    readings
        Input with the readings.
    new
        Field of the engine: a number, or limits.
    grows
        Whether wear makes it larger.
    allowance
        Value decision that says how far it may stand on the wrong side before we ask.
    """

    readings: str
    new: str
    grows: bool
    allowance: str


WEAR = (
    AgainstNew("bores", "bore", grows=True, allowance="entry_bore_below_new"),
    AgainstNew("main_housings", "main_housing", grows=True, allowance="entry_housing_below_new"),
    AgainstNew("big_ends", "big_end", grows=True, allowance="entry_housing_below_new"),
    AgainstNew("main_journals", "main_journal", grows=False, allowance="entry_journal_above_new"),
    AgainstNew("rod_journals", "rod_journal", grows=False, allowance="entry_journal_above_new"),
    AgainstNew("deck_heights", "deck_height", grows=False, allowance="entry_deck_above_new"),
)
_TAPERED = ("bores", "entry_bottom_over_top")


@dataclass(frozen=True, slots=True)
class Doubts:
    """Questions about the readings of one job."""

    rulebook: Rulebook
    chosen: Chosen
    facts: Mapping[str, Fact]

    def questions(self) -> Iterator[Problem]:
        """Ask about every reading that looks wrong, in file order of the inputs."""
        for each in WEAR:
            yield from self._against_new(each)
        yield from self._stack()
        yield from self._copied()
        yield from self._upside_down()

    def _against_new(self, each: AgainstNew) -> Iterator[Problem]:
        fact, new = self.facts.get(each.readings), self._engine(each.new)
        if fact is None or new is None:
            return
        limit = new if isinstance(new, float) else new.low if each.grows else new.high
        if not isinstance(limit, float):
            return
        allowance = self._figure(each.allowance)
        for key, entry in fact.entries.items():
            if not isinstance(entry.value, tuple):
                continue
            numbers = [number for row in entry.value for number in row]
            worst = min(numbers) if each.grows else max(numbers)
            past = round((limit - worst) if each.grows else (worst - limit), 12)
            if past > allowance:
                yield self._ask(each, key, worst, limit, fact.places.get(key))

    def _ask(
        self, each: AgainstNew, key: tuple[str, ...], worst: float, limit: float, at: Place | None
    ) -> Problem:
        declared = self.rulebook.inputs[each.readings].type
        unit = declared.unit or ""
        side = "smaller" if each.grows else "larger"
        cause = (
            "a sleeve, another engine, or a gauge set wrong"
            if each.grows
            else "another engine, an earlier repair, or a gauge set wrong"
        )
        what = (
            f"{self._spoken(each.readings, key)}: {show(worst, unit)} is {side} than new "
            f"({show(limit, unit)}), and wear cannot do that"
        )
        fix = f"measure again with the gauge set on a standard; if it stands, say why: {cause}"
        return Problem(what, fix, at, "question")

    def _stack(self) -> Iterator[Problem]:
        """Ask when throw, rod and piston together end far from the deck."""
        names = ("stroke", "rod_length", "compression_height", "deck_height")
        sizes = [self._engine(name) for name in names]
        stroke, rod, piston, deck = (each if isinstance(each, float) else None for each in sizes)
        if stroke is None or rod is None or piston is None or deck is None:
            return
        stack = stroke / 2 + rod + piston
        if abs(stack - deck) <= self._figure("entry_stack_from_deck"):
            return
        what = (
            f"engine.deck_height is {show(deck, 'mm')}, but half the stroke, the rod and the "
            f"piston's compression height come to {show(stack, 'mm')}"
        )
        fix = "find the one that is wrong: the piston ends near the deck at top centre"
        yield Problem(what, fix, self.chosen.places.get("engine.deck_height"), "question")

    def _copied(self) -> Iterator[Problem]:
        """Ask when several items have the same readings to the last digit."""
        for name, fact in self.facts.items():
            grids = [each.value for each in fact.entries.values()]
            declared = self.rulebook.inputs[name].type
            if declared.form != "grid" or len(grids) < 2 or len(set(map(str, grids))) > 1:
                continue
            spoken = called(self.rulebook, declared.per[0])
            what = f"{name}: all {len(grids)} have the same readings to the last digit"
            fix = f"measure each {spoken} again; two are never worn alike"
            yield Problem(what, fix, next(iter(fact.places.values()), None), "question")

    def _upside_down(self) -> Iterator[Problem]:
        """Ask when a bore is worn more at the bottom than at the top."""
        name, allowance = _TAPERED
        fact = self.facts.get(name)
        if fact is None:
            return
        unit = self.rulebook.inputs[name].type.unit or ""
        for key, entry in fact.entries.items():
            if not isinstance(entry.value, tuple) or len(entry.value) < 2:
                continue
            top, bottom = max(entry.value[0]), max(entry.value[-1])
            if round(bottom - top, 12) > self._figure(allowance):
                what = (
                    f"{self._spoken(name, key)}: worn more at the bottom ({show(bottom, unit)}) "
                    f"than at the top ({show(top, unit)})"
                )
                fix = "check the depths are in order and the axes not swapped; look for a bent rod"
                yield Problem(what, fix, fact.places.get(key), "question")

    def _spoken(self, name: str, key: tuple[str, ...]) -> str:
        declared = self.rulebook.inputs[name]
        items = " ".join(
            f"{called(self.rulebook, each)} {item}"
            for each, item in zip(declared.type.per, key, strict=True)
        )
        return f"{declared.job} {items}".strip()

    def _engine(self, field: str) -> float | Band | None:
        value = self.chosen.records.get("engine", {}).get(field)
        return value if isinstance(value, float | Band) else None

    def _figure(self, name: str) -> float:
        """Return a figure that a rule states; without the rule nothing is allowed."""
        decision = self.rulebook.decisions.get(name)
        if decision is None or not isinstance(decision.body, ValueBody):
            return 0.0
        value = decision.body.value
        return value if isinstance(value, float) else 0.0


@dataclass(frozen=True, slots=True)
class Rising:
    """Two figures of which the first may not be larger than the second."""

    small: str
    large: str
    why: str


# Geometry that no engine escapes; nothing here is a judgement.
RISING = (
    Rising("altitude_low", "altitude_high", "the lowest place is not above the highest"),
    Rising("ambient_low", "ambient_high", "the coldest start is not warmer than the hottest day"),
    Rising("full_boost_speed", "rev_ceiling", "full boost comes before the rev ceiling"),
    Rising("engine.bore", "engine.gasket_bore", "the gasket may not hang into the bore"),
    Rising("engine.bore", "engine.seal_diameter", "the fire ring lies outside the bore"),
    Rising("engine.pin_length", "engine.bore", "the pin fits inside the bore"),
    Rising("engine.pin_boss_gap", "engine.pin_length", "the pin reaches both bosses"),
    Rising("engine.small_end_width", "engine.pin_boss_gap", "the rod runs between the bosses"),
    Rising("engine.main_journal.high", "engine.main_housing.low", "a shell goes between them"),
    Rising("engine.rod_journal.high", "engine.big_end.low", "a shell goes between them"),
    Rising("engine.stem_intake", "engine.intake_valve_head", "a valve head covers its stem"),
    Rising("engine.stem_exhaust", "engine.exhaust_valve_head", "a valve head covers its stem"),
    Rising("engine.crank_radius", "engine.rod_length", "the rod is longer than the crank throw"),
    Rising("engine.rod_and_throw", "engine.deck_height", "the pin stays below the deck"),
)


def contradictions(
    rulebook: Rulebook, chosen: Chosen, facts: Mapping[str, Fact]
) -> Iterator[Problem]:
    """Find figures that cannot both be true.

    Parameters
    ----------
    rulebook
        Declares the names.
    chosen
        The engine.
    facts
        The other inputs.

    Yields
    ------
    Problem
        An error for each pair, at the first of the two.
    """
    values, places = _figures(rulebook, chosen, facts)
    for each in RISING:
        small, large = values.get(each.small), values.get(each.large)
        if small is not None and large is not None and small[0] > large[0]:
            what = f"{small[1]} and {large[1]} cannot both be true: {each.why}"
            at = places.get(each.small) or places.get(each.large)
            yield Problem(what, "correct the one that is wrong", at)
    yield from _uneven_valves(chosen)


def _uneven_valves(chosen: Chosen) -> Iterator[Problem]:
    engine = chosen.records.get("engine", {})
    cylinders = engine.get("cylinders")
    for name in ("intake_valves", "exhaust_valves"):
        count = engine.get(name)
        if isinstance(count, float) and isinstance(cylinders, float) and count % cylinders:
            what = (
                f"{count:g} {name.replace('_', ' ')} do not share out over {cylinders:g} cylinders"
            )
            fix = "write the number in the whole engine"
            yield Problem(what, fix, chosen.places.get(f"engine.{name}"))


Figures = dict[str, tuple[float, str]]


def _figures(
    rulebook: Rulebook, chosen: Chosen, facts: Mapping[str, Fact]
) -> tuple[Figures, dict[str, Place | None]]:
    """Gather every single number by name, with its text, and where it stands."""
    found: Figures = {}
    places: dict[str, Place | None] = dict(chosen.places)
    for name, fact in facts.items():
        value = fact.entries[()].value if () in fact.entries else None
        if isinstance(value, float):
            shown = show(value, rulebook.inputs[name].type.unit or "")
            found[name] = (value, f"{rulebook.inputs[name].job} {shown}")
            places[name] = fact.places.get(())
    record = rulebook.records.get("engine")
    for name, value in chosen.records.get("engine", {}).items():
        unit = record.fields[name].type.unit if record else None
        _add(found, places, f"engine.{name}", value, unit)
    _derived(found, places)
    return found, places


def _add(
    found: Figures, places: dict[str, Place | None], name: str, value: Value, unit: object
) -> None:
    parts: dict[str, Value] = {name: value}
    if isinstance(value, Band):
        parts = {f"{name}.low": value.low, f"{name}.high": value.high}
        places |= dict.fromkeys(parts, places.get(name))
    for part, number in parts.items():
        if isinstance(number, float):
            found[part] = (number, f"{part} {show(number, unit) if unit else f'{number:g}'}")  # type: ignore[arg-type]


def _derived(found: Figures, places: dict[str, Place | None]) -> None:
    """Add the crank throw, and how high the pin rises."""
    stroke, rod = found.get("engine.stroke"), found.get("engine.rod_length")
    if stroke:
        found["engine.crank_radius"] = (stroke[0] / 2, f"half of {stroke[1]}")
        places["engine.crank_radius"] = places.get("engine.stroke")
    if stroke and rod:
        told = f"{rod[1]} with half of {stroke[1]}"
        found["engine.rod_and_throw"] = (stroke[0] / 2 + rod[0], told)
        places["engine.rod_and_throw"] = places.get("engine.rod_length")
