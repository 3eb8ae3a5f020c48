"""Working out one item of a decision: value, table, compute or weigh, with its reasons."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from planner.errors import BorewrightError, OutsideValidity
from planner.rulebook.hits import Hit, gather
from planner.rulebook.hulls import gathered, joined
from planner.rulebook.intervals import NeedsFirm, greatest, high, hull, least, low
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
from planner.rulebook.values import (
    Band,
    Entry,
    Interval,
    Key,
    Names,
    Number,
    OneOf,
    Several,
    Status,
    Value,
)
from planner.rulebook.world import Bound, World, combine, with_value

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
    values = _worked_out(body, env)
    if isinstance(values, Entry):
        waits = replace(values, waiting_for=base.loose or values.waiting_for)
        return refuse(item, waits if values.status == Status.WAITING else values), trace
    return {
        name: _checked(base, value, item.decision.gives[name].type, name)
        for name, value in _results(item, values).items()
    }, trace


def _worked_out(body: ComputeBody, env: Bound) -> dict[str, Value] | Entry:
    """Run the formulas; an entry without a value where one refuses."""
    try:
        return {part: formula.run(env) for part, formula in body.formulas.items()}
    except NeedsFirm as error:
        return Entry(status=Status.WAITING, waiting_for=(error.what,))
    except OutsideValidity as error:
        return Entry(status=Status.REFUSED, refused=f"{error.problem} {error.remedy}")
    except BorewrightError as error:
        return Entry(status=Status.REFUSED, refused=error.problem)
    except (ArithmeticError, ValueError) as error:
        told = f"the formula cannot be worked out ({error})"
        return Entry(status=Status.REFUSED, refused=told)


def _results(item: Item, values: Mapping[str, Value]) -> dict[str, Value]:
    names = tuple(item.decision.gives)
    if "value" not in values:
        parts = {part: _number(value) for part, value in values.items()}
        return {names[0]: Band(parts["low"], parts["high"], parts.get("target"))}
    value = values["value"]
    if isinstance(value, Several):
        return {name: value.results[name] for name in names}
    return {names[0]: value}


def _number(value: Value) -> Number:
    if isinstance(value, (float, Interval)):
        return value
    raise ValueError(f"{value!r} is not one number")


def _checked(base: Entry, value: Value, declared: ValueType, name: str) -> Entry:
    """Hold a result against its declared range; a written-out band must rise."""
    if isinstance(value, Band):
        parts = [_inside(part, declared, name) for part in value.parts()]
        refusal = next((part for part in parts if isinstance(part, str)), None)
        numbers = [part for part in parts if not isinstance(part, str)]
        ends = [[low(part) for part in numbers], [high(part) for part in numbers]]
        if refusal is None and any(each != sorted(each) for each in ends):
            shown = ", ".join(show_value(part, declared.as_number()) for part in numbers)
            refusal = f"{name} does not rise from low to high ({shown})"
        if refusal is not None:
            return Entry(status=Status.REFUSED, refused=refusal)
        target = numbers[1] if value.target is not None else None
        return with_value(base, Band(numbers[0], numbers[-1], target))
    if not isinstance(value, (float, Interval)):
        return with_value(base, value)
    number = _inside(value, declared, name)
    if isinstance(number, str):
        return Entry(status=Status.REFUSED, refused=number)
    return with_value(base, number)


def _inside(number: Number, declared: ValueType, name: str) -> Number | str:
    """Return a number that its range allows, cut to it where unsettled; else why not."""
    if not (math.isfinite(low(number)) and math.isfinite(high(number))):
        return f"{name} does not come to a finite number"
    if isinstance(number, Interval):
        return _cut(number, declared, name)
    if declared.holds(float(f"{number:.12g}")):
        return number
    return _outside(number, declared, name)


def _outside(number: Number, declared: ValueType, name: str) -> str:
    shown = show_value(number, declared.as_number())
    return (
        f"{name} comes to {shown}, outside what it can be ({range_text(declared)}); "
        "check the readings behind it"
    )


def _cut(number: Interval, declared: ValueType, name: str) -> Number | str:
    """Cut a stretch to the declared range: what lies beyond would be refused when known."""
    least = number.low if declared.low is None else max(number.low, declared.low)
    most = number.high if declared.high is None else min(number.high, declared.high)
    return Interval(least, most) if least < most else _outside(number, declared, name)


def decide_table(item: Item, body: TableBody, refs: tuple[Ref, ...]) -> tuple[Answers, Trace]:
    """Look the case up; a row may say that there is no answer."""
    read = {ref.text: item.world.entry(ref, item.bound) for ref in refs}
    base = combine(read)
    if base.status > Status.PROVISIONAL:
        return refuse(item, base), Trace(read=read, source=item.decision.source)
    values = [read[ref.text].value for ref in refs]
    try:
        at, surely = _rows(body, values)
    except BorewrightError as error:
        told = Entry(status=Status.REFUSED, refused=error.problem)
        return refuse(item, told), Trace(read=read, source=item.decision.source)
    found = [body.rows[row] for row in at]
    trace = Trace(
        rows=tuple((row.text, row.place) for row in found),
        read=read,
        source=found[0].source if found else item.decision.source,
    )
    possible = [row for row in found if row.impossible is None]
    if found and not possible:
        told = Entry(status=Status.REFUSED, refused=found[0].impossible)
        return refuse(item, told), trace
    sure = [body.rows[row] for row in surely]
    return {
        name: with_value(base, _gathered(item, name, body, possible, sure))
        for name in item.decision.gives
    }, trace


def _rows(body: TableBody, values: list[Any]) -> tuple[list[int], list[int]]:
    """Find the rows that could answer, and those that surely do."""
    if not any(isinstance(value, (Interval, OneOf)) for value in values):
        found = body.table.decide(values)
        return found, found
    return body.table.could_decide(values), body.table.could_match(values).surely


def _gathered(item: Item, name: str, body: TableBody, rows: list[Row], sure: list[Row]) -> Value:
    values = [row.results[name] for row in rows]
    hit = Hit(body.hit)
    if item.decision.gives[name].type.form == "names":
        could = [value for value in values if isinstance(value, Names)]
        surely = [row.results[name] for row in sure if row.impossible is None]
        return gathered([v for v in surely if isinstance(v, Names)], could, item.label)
    if hit.collects:
        return _collected(hit, values, [row.results[name] for row in sure])
    return joined(values, item.decision.gives[name].type.words)


def _collected(hit: Hit, values: list[Value], sure: list[Value]) -> Value:
    """Gather numbers; while rows are unsure, the ends of what they could come to."""

    def figures(some: list[Value]) -> list[float]:
        return [float(value) if isinstance(value, (int, float)) else 0.0 for value in some]

    every, firm = figures(values), figures(sure)
    if len(every) == len(firm):
        return gather(hit, every)
    if hit in (Hit.COLLECT_MIN, Hit.COLLECT_MAX):
        return hull([gather(hit, every), *([gather(hit, firm)] if firm else every)])
    loose = [each for each in every if each not in firm]
    if hit is Hit.COLLECT_COUNT:
        return hull([float(len(firm)), float(len(every))])
    total = sum(firm)
    return hull([total + sum(min(0.0, x) for x in loose), total + sum(max(0.0, x) for x in loose)])


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
    pick = greatest if governs == "larger" else least
    values = [e.value for e in speaking.values()]
    value = _picked(pick, values)
    winners = tuple(name for name, e in speaking.items() if _main(e.value) == _main(value))
    return winners, with_value(base, value)


def _picked(pick: Callable[..., Any], values: list[Value | None]) -> Value:
    bands = [value for value in values if isinstance(value, Band)]
    if bands:
        targets = [band.target for band in bands if band.target is not None]
        target = pick(*targets) if len(targets) == len(bands) else None
        return Band(pick(*(b.low for b in bands)), pick(*(b.high for b in bands)), target)
    result: Number = pick(*(value for value in values if isinstance(value, (float, Interval))))
    return result


def _main(value: Value | None) -> Number | None:
    if isinstance(value, Band):
        return value.target if value.target is not None else value.high
    return value if isinstance(value, (float, Interval)) else None
