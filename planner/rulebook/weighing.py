"""Hearing voices: the governing one answers, or the larger or smaller part by part."""

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import replace
from typing import Any

from planner.rulebook.advising import printed_text
from planner.rulebook.deciding import Answers, Item
from planner.rulebook.hulls import joined
from planner.rulebook.intervals import greatest, least, unsettled
from planner.rulebook.judging import judge
from planner.rulebook.refs import Ref
from planner.rulebook.results import Trace, Voice
from planner.rulebook.syntax import Outside, WeighBody
from planner.rulebook.values import Band, Entry, Interval, Number, Status, Value
from planner.rulebook.world import combine, with_value


def decide_weigh(item: Item, body: WeighBody) -> tuple[Answers, Trace]:
    """Hear every voice and let the governing one answer."""
    name = next(iter(item.decision.gives))
    heard = {voice: item.world.entry(ref, item.bound) for voice, ref in body.says.items()}
    judged = {voice: _judged(item, said) for voice, said in body.outside.items()}
    outside = {voice: told for voice, (sure, told) in judged.items() if sure is not False}
    chosen, base = _governing(body, _without(heard, outside))
    surely = {voice for voice, (sure, _) in judged.items() if sure}
    if base != _governing(body, _without(heard, surely))[1]:
        chosen, base = (), _waits(item, [body.outside[voice] for voice in outside])
    voices = tuple(
        Voice(
            voice,
            voice.split()[-1],
            entry,
            voice in chosen,
            _voice_source(item, ref),
            voice in outside,
            outside.get(voice, ""),
        )
        for (voice, ref), entry in zip(body.says.items(), heard.values(), strict=True)
    )
    source = next((each.source for each in voices if each.governs), "") or item.decision.source
    trace = Trace(
        read={body.says[voice].text: entry for voice, entry in heard.items()},
        voices=voices,
        source=source,
    )
    return {name: base}, trace


def _judged(item: Item, said: Outside) -> tuple[bool | None, str]:
    """Tell whether a voice is outside its range, none while not settled, and the reason."""
    holds = judge(item.world, said.when, item.bound).holds
    return holds, "" if holds is False else printed_text(item.world, said.because)


def _without(heard: Mapping[str, Entry], outside: Collection[str]) -> dict[str, Entry]:
    return {voice: entry for voice, entry in heard.items() if voice not in outside}


def _waits(item: Item, conditions: Iterable[Outside]) -> Entry:
    """Wait for what leaves open whether a voice that would move the answer is in its range."""
    looked = {
        each.ref.text: item.world.entry(each.ref, item.bound)
        for said in conditions
        for group in said.when
        for each in group
    }
    names = [
        name
        for text, entry in looked.items()
        if entry.value is None or unsettled(entry.value)
        for name in (*entry.waiting_for, *entry.assumed) or (text,)
    ]
    return Entry(status=Status.WAITING, waiting_for=tuple(dict.fromkeys(names)))


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
    named = tuple(heard) if body.governs == "first" else tuple(body.governs.split(" else "))
    names = [name for name in named if name in heard] or list(heard)
    for at, name in enumerate(names):
        if _speaks(heard[name]):
            behind = {each: heard[each] for each in names[at + 1 :]}
            return (name,), _perhaps(heard[name], behind)
    last = heard[names[-1]]
    return (), Entry(status=Status.REFUSED, refused=last.refused or "no voice answers")


def _perhaps(entry: Entry, behind: Mapping[str, Entry]) -> Entry:
    """Take in the voices behind one that may yet refuse, until one surely speaks."""
    if not entry.may_refuse or entry.value is None:
        return entry
    entries = [entry]
    for other in behind.values():
        if other.status == Status.WAITING:
            return other
        if other.value is not None:
            entries.append(other)
        if other.value is not None and not other.may_refuse:
            break
    base = combine({str(at): each for at, each in enumerate(entries)})
    loose = tuple(dict.fromkeys(name for each in entries for name in each.loose))
    base = replace(base, may_refuse=entries[-1].may_refuse, loose=loose or base.loose)
    return with_value(base, joined([each.value for each in entries if each.value is not None]))


def _extreme(governs: str, heard: Mapping[str, Entry]) -> tuple[tuple[str, ...], Entry]:
    """Take the larger or smaller part by part; a refusing voice leaves it provisional."""
    waiting = {
        name: e for name, e in heard.items() if e.status == Status.WAITING and e.value is None
    }
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
    value = _picked(pick, [e.value for e in speaking.values()])
    firm = [e.value for e in speaking.values() if not e.may_refuse]
    if base.may_refuse and firm:
        value = joined([value, _picked(pick, firm)])
        base = replace(base, may_refuse=False)
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
