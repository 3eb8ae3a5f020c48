"""Hearing voices: the governing one answers, or the larger or smaller part by part."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from planner.rulebook.deciding import Answers, Item
from planner.rulebook.intervals import greatest, least
from planner.rulebook.refs import Ref
from planner.rulebook.results import Trace, Voice
from planner.rulebook.syntax import WeighBody
from planner.rulebook.values import Band, Entry, Interval, Number, Status, Value
from planner.rulebook.world import combine, with_value


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
