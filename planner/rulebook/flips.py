"""How far each input can move before an answer changes: a promise, found by bisection.

Between the figure typed and the one reported nothing changes, because the whole stretch was
worked out at once with unsettled values. A grid of readings moves as a whole: the same amount
is added to each of them. What a formula makes of a grid is bounded where it is declared to rise
or fall with the readings, or to be a spread of them; where it is neither, nothing is promised
and the reach told is nought.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from planner.records import record
from planner.rulebook.evaluate import decide_only
from planner.rulebook.facts import Fact, Facts
from planner.rulebook.intervals import unsettled
from planner.rulebook.refs import Ref
from planner.rulebook.results import Outcome, Results, Voice
from planner.rulebook.syntax import (
    ChooseBody,
    ComputeBody,
    EvidenceBody,
    Field,
    Rulebook,
    TableBody,
    WeighBody,
)
from planner.rulebook.values import Entry, Grid, Interval, Key, OneOf, Shifted, Status, Value
from planner.rulebook.world import World

STEPS = 14


@record
class Flip:
    """Where an answer first changes as one input moves one way.

    Attributes
    ----------
    input, item
        The input, and which of its items; nothing for the whole engine.
    upward
        Whether it moves up.
    at
        The figure up to which nothing changes, SI; for a choice the words that change nothing;
        for readings that move together the amount added to each.
    changes
        Whether anything changes before the end of the declared range.
    """

    input: str
    item: str
    upward: bool
    at: Value
    changes: bool
    together: bool = False


def flips(results: Results, name: str) -> Iterator[Flip]:
    """Find, for each input behind a decision, the nearest change up and down.

    Parameters
    ----------
    results
        The evaluated job.
    name
        The decision.

    Yields
    ------
    Flip
        Two for each number (up and down), one for each choice.
    """
    book, facts = results.rulebook, results.facts
    wanted = signature(results.outcomes, name)
    for field in inputs_behind(book, name):
        world = World(book, facts)
        for key in world.keys(field.type.per):
            entry = world.input(field, key)
            if entry.value is None or unsettled(entry.value):
                continue
            label = world.label(field.type.per, key)
            probe = _Probe(book, facts, name, field, key, wanted)
            if isinstance(entry.value, str):
                yield _choice(probe, label, entry.value)
            elif isinstance(entry.value, (float, tuple)):
                yield from _number(probe, label, entry.value)


def inputs_behind(book: Rulebook, name: str) -> list[Field]:
    """List the inputs a decision rests on, through every decision it reads."""
    seen: set[str] = set()
    waiting, found = [name], {}
    while waiting:
        each = waiting.pop()
        if each in seen:
            continue
        seen.add(each)
        decision = book.decisions[each]
        waiting.extend(decision.reads)
        for ref in _refs(decision.body):
            if ref.origin == "input":
                found[ref.name] = book.inputs[ref.name]
    return [found[each] for each in book.inputs if each in found]


def _refs(body: object) -> Iterator[Ref]:
    if isinstance(body, TableBody | EvidenceBody):
        yield from body.refs
    elif isinstance(body, ComputeBody):
        for formula in body.formulas.values():
            yield from formula.reads
    elif isinstance(body, ChooseBody):
        for need in body.needs.values():
            yield from need.left.reads
            yield from need.right.reads
        for preference in body.prefer:
            yield from preference.formula.reads
    elif isinstance(body, WeighBody):
        yield from body.says.values()


def signature(outcomes: Mapping[str, Outcome], name: str) -> tuple[object, ...]:
    """Say what stands behind an answer: a choice by itself, a number by rows, parts and voices."""
    outcome = outcomes[name]
    gives = outcome.decision.gives.values()
    if all(give.type.form == "choice" for give in gives):
        return (_values(outcome),)
    parts: list[object] = []
    waiting, seen = [name], set()
    while waiting:
        each = waiting.pop(0)
        if each in seen or each not in outcomes:
            continue
        seen.add(each)
        parts.append((each, _behind(outcomes[each])))
        waiting.extend(outcomes[each].decision.reads)
    return tuple(parts)


def _behind(outcome: Outcome) -> object:
    statuses = tuple(
        (result, key, entry.status > Status.PROVISIONAL)
        for result, answer in outcome.answers.items()
        for key, entry in answer.entries.items()
    )
    rows = tuple(
        (key, tuple(place for _, place in trace.rows), _governing(trace.voices))
        for key, trace in outcome.traces.items()
    )
    chosen = any(give.type.form == "choice" for give in outcome.decision.gives.values())
    return (statuses, rows, _values(outcome) if chosen else None)


def _governing(voices: tuple[Voice, ...]) -> tuple[str, ...]:
    return tuple(voice.name for voice in voices if voice.governs)


def _values(outcome: Outcome) -> object:
    return tuple(
        (result, key, entry.value if not isinstance(entry.value, OneOf) else entry.value.words)
        for result, answer in outcome.answers.items()
        for key, entry in answer.entries.items()
    )


@record
class _Probe:
    """One input of one item, tried over stretches."""

    book: Rulebook
    facts: Facts
    name: str
    field: Field
    key: Key
    wanted: tuple[object, ...]

    def same(self, value: Value) -> bool:
        """Tell whether the answer is the same over a whole stretch."""
        entry = Entry(value, Status.PROVISIONAL, (self.field.name,), loose=(self.field.name,))
        known = self.facts.inputs.get(self.field.name)
        entries = {**(known.entries if known else {}), self.key: entry}
        inputs = {**self.facts.inputs, self.field.name: Fact(self.field.name, entries)}
        facts = replace(self.facts, inputs=inputs, records=self._records(value))
        world = World(self.book, facts)
        outcomes = decide_only(world, [self.name])
        return signature(outcomes, self.name) == self.wanted

    def _records(self, value: Value) -> Mapping[str, Mapping[str, Value]]:
        """Follow a word that names a catalog entry, such as the fuel, to that entry."""
        records = dict(self.facts.records)
        for known in self.book.records.values():
            rows = self.book.stock_rows.get(known.catalog, {})
            if known.job == self.field.job and isinstance(value, str) and value in rows:
                records[known.name] = rows[value].values
        return records


def _number(probe: _Probe, label: str, value: float | Grid) -> Iterator[Flip]:
    declared = probe.field.type
    if declared.low is None or declared.high is None:
        return
    for upward in (True, False):
        if isinstance(value, tuple):
            cells = [cell for row in value for cell in row]
            end = declared.high - max(cells) if upward else declared.low - min(cells)
            stretch, start = _together(value), 0.0
        else:
            end = declared.high if upward else declared.low
            stretch, start = _alone(value), value
        reached, changes = _furthest(probe, stretch, start, end)
        together = isinstance(value, tuple)
        yield Flip(probe.field.name, label, upward, reached, changes, together=together)


Stretch = Callable[[float], Value]


def _alone(value: float) -> Stretch:
    """Stretch one figure to another."""
    return lambda to: Interval(min(value, to), max(value, to))


def _together(readings: Grid) -> Stretch:
    """Move all readings of a grid by up to one amount."""
    return lambda to: Shifted(readings, min(0.0, to), max(0.0, to))


def _furthest(probe: _Probe, stretch: Stretch, start: float, end: float) -> tuple[float, bool]:
    """Bisect for the furthest figure up to which nothing changes."""
    if start == end or probe.same(stretch(end)):
        return end, False
    inner, outer = start, end
    for _ in range(STEPS):
        middle = (inner + outer) / 2
        if probe.same(stretch(middle)):
            inner = middle
        else:
            outer = middle
    return inner, True


def _choice(probe: _Probe, label: str, value: str) -> Flip:
    words = tuple(word for word in probe.field.type.words if word == value or probe.same(word))
    changes = len(words) < len(probe.field.type.words)
    return Flip(probe.field.name, label, upward=True, at=OneOf(words), changes=changes)
