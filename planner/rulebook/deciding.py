"""Working out one item of a decision: value, table, compute or weigh, with its reasons."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from planner.errors import BorewrightError, OutsideValidity
from planner.rulebook.hits import Hit, gather
from planner.rulebook.literals import range_text
from planner.rulebook.printing import show_value
from planner.rulebook.results import Trace, Voice
from planner.rulebook.scope import Ref
from planner.rulebook.syntax import (
    ComputeBody,
    Decision,
    Row,
    TableBody,
    ValueBody,
    WeighBody,
)
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Band, Entry, Key, Names, Several, Status, Value
from planner.rulebook.world import World, combine, with_value

Answers = dict[str, Entry]


@dataclass(frozen=True, slots=True)
class Item:
    """One item of a decision being worked out."""

    world: World
    decision: Decision
    key: Key
    bound: dict[str, str] = field(default_factory=dict)

    @property
    def label(self) -> str:
        """Which item this is, in words; nothing for the whole engine."""
        return self.world.label(self.decision.per, self.key)


def refuse(item: Item, entry: Entry) -> Answers:
    """Give every result of the decision the same entry without a value."""
    return dict.fromkeys(item.decision.gives, entry)


def decide_value(item: Item, body: ValueBody) -> tuple[Answers, Trace]:
    """Answer with the value written."""
    name = next(iter(item.decision.gives))
    return {name: Entry(body.value)}, Trace(source=item.decision.source)


def decide_compute(item: Item, body: ComputeBody) -> tuple[Answers, Trace]:
    """Work out formulas; a refusal of a function is the decision's."""
    env = item.world.env(item.bound)
    read: dict[str, Entry] = {}
    for formula in body.formulas.values():
        read.update(formula.gather(env))
    text = "; ".join(formula.text for formula in body.formulas.values())
    trace = Trace(read=read, formula=text, source=item.decision.source)
    base = combine(read)
    if base.status > Status.PROVISIONAL:
        return refuse(item, base), trace
    try:
        values = {part: formula.run(env) for part, formula in body.formulas.items()}
    except OutsideValidity as error:
        told = f"{error.problem} {error.remedy}"
        return refuse(item, Entry(status=Status.REFUSED, refused=told)), trace
    except BorewrightError as error:
        return refuse(item, Entry(status=Status.REFUSED, refused=error.problem)), trace
    except (ArithmeticError, ValueError) as error:
        told = f"the formula cannot be worked out ({error})"
        return refuse(item, Entry(status=Status.REFUSED, refused=told)), trace
    return {
        name: _checked(base, value, item.decision.gives[name].type, name)
        for name, value in _results(item, values).items()
    }, trace


def _results(item: Item, values: Mapping[str, Value]) -> dict[str, Value]:
    names = tuple(item.decision.gives)
    if "value" not in values:
        parts = {part: _number(value) for part, value in values.items()}
        return {names[0]: Band(parts["low"], parts["high"], parts.get("target"))}
    value = values["value"]
    if isinstance(value, Several):
        return {name: value.results[name] for name in names}
    return {names[0]: value}


def _number(value: Value) -> float:
    if isinstance(value, (int, float)):
        return float(value)
    raise ValueError(f"{value!r} is not one number")


def _checked(base: Entry, value: Value, declared: ValueType, name: str) -> Entry:
    """Hold a result against its declared range; a written-out band must rise."""
    numbers = value.parts() if isinstance(value, Band) else (value,)
    for number in numbers:
        if not isinstance(number, (int, float)):
            continue
        if isinstance(number, complex) or not math.isfinite(number):
            return Entry(status=Status.REFUSED, refused=f"{name} does not come to a finite number")
        if not declared.holds(float(f"{number:.12g}")):
            shown = show_value(float(number), declared.as_number())
            return Entry(
                status=Status.REFUSED,
                refused=(
                    f"{name} comes to {shown}, outside what it can be ({range_text(declared)}); "
                    "check the readings behind it"
                ),
            )
    if isinstance(value, Band) and list(value.parts()) != sorted(value.parts()):
        return Entry(
            status=Status.REFUSED,
            refused=(
                f"{name} does not rise from low to high ({', '.join(f'{x:.6g}' for x in numbers)})"
            ),
        )
    return with_value(base, float(value) if isinstance(value, int) else value)


def decide_table(item: Item, body: TableBody, refs: tuple[Ref, ...]) -> tuple[Answers, Trace]:
    """Look the case up; a row may say that there is no answer."""
    read = {ref.text: item.world.entry(ref, item.bound) for ref in refs}
    base = combine(read)
    if base.status > Status.PROVISIONAL:
        return refuse(item, base), Trace(read=read, source=item.decision.source)
    values = [read[ref.text].value for ref in refs]
    try:
        found = [body.rows[at] for at in body.table.decide(values)]  # type: ignore[arg-type]
    except BorewrightError as error:
        told = Entry(status=Status.REFUSED, refused=error.problem)
        return refuse(item, told), Trace(read=read, source=item.decision.source)
    trace = Trace(
        rows=tuple((row.text, row.place) for row in found),
        read=read,
        source=found[0].source if found else item.decision.source,
    )
    no = next((row.impossible for row in found if row.impossible), None)
    if no is not None:
        return refuse(item, Entry(status=Status.REFUSED, refused=no)), trace
    return {
        name: with_value(base, _gathered(item, name, body, found)) for name in item.decision.gives
    }, trace


def _gathered(item: Item, name: str, body: TableBody, rows: list[Row]) -> Value:
    values = [row.results[name] for row in rows]
    hit = Hit(body.hit)
    if item.decision.gives[name].type.form == "names":
        called = tuple(
            dict.fromkeys(
                each for value in values if isinstance(value, Names) for each in value.called
            )
        )
        where = (item.label,) if item.label else ()
        return Names(called, (), dict.fromkeys(called, where))
    if hit.collects and hit is not Hit.COLLECT:
        numbers = [float(value) if isinstance(value, (int, float)) else 0.0 for value in values]
        return gather(hit, numbers)
    return values[0]


def decide_weigh(item: Item, body: WeighBody) -> tuple[Answers, Trace]:
    """Hear every voice and let the governing one answer."""
    name = next(iter(item.decision.gives))
    heard = {voice: item.world.entry(ref, item.bound) for voice, ref in body.says.items()}
    chosen, base = _governing(body, heard)
    voices = tuple(
        Voice(voice, voice.split()[-1], entry, voice in chosen, _voice_source(item, ref))
        for (voice, ref), entry in zip(body.says.items(), heard.values(), strict=True)
    )
    source = next((each.source for each in voices if each.governs), "") or item.decision.source
    trace = Trace(
        read={body.says[voice].text: entry for voice, entry in heard.items()},
        voices=voices,
        source=source,
    )
    return {name: base}, trace


def _voice_source(item: Item, ref: Ref) -> str:
    if ref.decision is not None:
        return item.world.rulebook.decisions[ref.decision].source or item.decision.source
    if ref.origin == "input":
        return "as typed in the job"
    return item.decision.source


def _speaks(entry: Entry) -> bool:
    return entry.value is not None or entry.status == Status.WAITING


def _governing(body: WeighBody, heard: Mapping[str, Entry]) -> tuple[tuple[str, ...], Entry]:
    if body.governs in ("larger", "smaller"):
        return _extreme(body.governs, heard)
    names = tuple(heard) if body.governs == "first" else tuple(body.governs.split(" else "))
    for name in names:
        if _speaks(heard[name]):
            return (name,), heard[name]
    last = heard[names[-1]]
    return (), Entry(status=Status.REFUSED, refused=last.refused or "no voice answers")


def _extreme(governs: str, heard: Mapping[str, Entry]) -> tuple[tuple[str, ...], Entry]:
    """Take the larger or smaller part by part; a refusing voice leaves it provisional."""
    waiting = {name: e for name, e in heard.items() if e.status == Status.WAITING}
    if waiting:
        return (), combine(waiting)
    speaking = {name: e for name, e in heard.items() if e.value is not None}
    if not speaking:
        return (), combine(heard)
    base = combine(speaking)
    silent = [name for name in heard if name not in speaking]
    if silent:
        base = replace(
            base,
            status=Status.PROVISIONAL,
            assumed=(*base.assumed, *(f"{name} gives no figure" for name in silent)),
        )
    pick = max if governs == "larger" else min
    values = [e.value for e in speaking.values()]
    value = _picked(pick, values)
    winners = tuple(name for name, e in speaking.items() if _main(e.value) == _main(value))
    return winners, with_value(base, value)


def _picked(pick: Callable[..., Any], values: list[Value | None]) -> Value:
    bands = [value for value in values if isinstance(value, Band)]
    if bands:
        target = None if bands[0].target is None else pick(b.target for b in bands)
        return Band(pick(b.low for b in bands), pick(b.high for b in bands), target)
    result: float = pick(value for value in values if isinstance(value, (int, float)))
    return result


def _main(value: Value | None) -> float | None:
    if isinstance(value, Band):
        return value.target if value.target is not None else value.high
    return float(value) if isinstance(value, (int, float)) else None
