"""Looking a case up in a decision table, settled or not."""

from dataclasses import replace
from typing import Any

from planner.errors import BorewrightError
from planner.rulebook.deciding import Answers, Item, refuse
from planner.rulebook.hits import Hit, gather
from planner.rulebook.hulls import gathered, joined
from planner.rulebook.intervals import hull, unsettled
from planner.rulebook.refs import Ref
from planner.rulebook.results import Trace
from planner.rulebook.syntax import Row, TableBody
from planner.rulebook.values import Entry, Interval, Names, OneOf, Status, Value
from planner.rulebook.world import combine, with_value

Read = dict[str, Entry]


def decide_table(item: Item, body: TableBody, refs: tuple[Ref, ...]) -> tuple[Answers, Trace]:
    """Look the case up; a row may say that there is no answer."""
    read = {ref.text: item.world.entry(ref, item.bound) for ref in refs}
    base = combine(read)
    if base.status == Status.WAITING:
        return _without(item, body, refs, read, base)
    if base.status > Status.PROVISIONAL:
        return refuse(item, base), Trace(read=read, source=item.decision.source)
    return _answered(item, body, refs, read, base)


def _without(
    item: Item, body: TableBody, refs: tuple[Ref, ...], read: Read, base: Entry
) -> tuple[Answers, Trace]:
    """Answer a case with readings still out where they cannot matter; else wait for them."""
    tried = {
        ref.text: replace(read[ref.text], value=_anything(ref), status=Status.FIRM)
        if read[ref.text].value is None
        else read[ref.text]
        for ref in refs
    }
    waits = refuse(item, base), Trace(read=read, source=item.decision.source)
    if any(entry.value is None for entry in tried.values()):
        return waits
    answers, trace = _answered(item, body, refs, tried, combine(tried))
    if all(isinstance(entry.value, Names) for entry in answers.values()):
        known = combine({name: entry for name, entry in read.items() if entry.value is not None})
        return {name: _so_far(base, known, entry) for name, entry in answers.items()}, trace
    if any(entry.value is None or unsettled(entry.value) for entry in answers.values()):
        return waits
    settled = combine({name: entry for name, entry in read.items() if entry.value is not None})
    found = {
        name: with_value(settled, entry.value)
        for name, entry in answers.items()
        if entry.value is not None
    }
    return found, replace(trace, read=read)


def _so_far(base: Entry, known: Entry, entry: Entry) -> Entry:
    """Keep the names that are sure or possible already; while any is only possible, it waits."""
    if unsettled(entry.value):
        return replace(base, value=entry.value)
    return with_value(known, entry.value) if entry.value is not None else base


def _anything(ref: Ref) -> Value | None:
    """Give everything that a name could turn out to hold."""
    declared = ref.type
    if declared.form == "choice":
        return OneOf(declared.words) if declared.words else None
    if declared.low is None or declared.high is None:
        return None
    return Interval(declared.low, declared.high)


def _answered(
    item: Item, body: TableBody, refs: tuple[Ref, ...], read: Read, base: Entry
) -> tuple[Answers, Trace]:
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
    if len(possible) < len(found) and not base.may_refuse:
        base = replace(base, may_refuse=True)
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
