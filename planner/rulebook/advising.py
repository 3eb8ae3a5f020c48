"""Advice and cautions on a job: which hold, which may, and their texts filled in."""

from collections.abc import Iterable, Mapping

from planner.errors import Place
from planner.rulebook.intervals import high
from planner.rulebook.judging import Judged, judge
from planner.rulebook.printing import show_entry, show_items
from planner.rulebook.refs import Ref
from planner.rulebook.results import Advised, CautionLine, Outcome
from planner.rulebook.syntax import Caution
from planner.rulebook.texts import Slot, fill, names_in, slot_of
from planner.rulebook.values import Band, Entry, Key
from planner.rulebook.world import System, World
from planner.units.literals import in_units_of

NOWHERE = Place("", 0, 0)


def printed_text(world: World, text: str, where: tuple[str, ...] = ()) -> str:
    """Fill a text's braces with what the names hold on this job, in the units asked for."""
    text = in_units_of(text, world.system)
    inside = names_in(text)
    if not inside:
        return text
    values = {}
    for each in inside:
        slot = slot_of(each, world.scope, NOWHERE)
        values[each] = (
            ", ".join(where) if slot.ref is None else _shown(world, slot, slot.ref, world.system)
        )
    return fill(text, values)


def _shown(world: World, slot: Slot, ref: Ref, system: System) -> str:
    entries = world.entries(ref)
    if slot.reduction is not None:
        return _reduced(world, ref, slot.reduction, entries, system)
    text = show_items(world, entries, ref.type, system)
    given = world.facts.given.get(ref.name)
    return f"{text} ({given.origin})" if given is not None and given.origin else text


def _reduced(
    world: World, ref: Ref, reduction: str, entries: Mapping[Key, Entry], system: System
) -> str:
    """Print the largest or smallest over items, with the item that decided."""
    settled = {key: entry for key, entry in entries.items() if entry.value is not None}
    if len(settled) < len(entries) or not settled:
        unsettled = next((e for e in entries.values() if e.value is None), None)
        return (
            "not yet known"
            if unsettled is None
            else show_entry(world, unsettled, ref.type, system)
        )
    numbers = {key: _number(entry) for key, entry in settled.items()}
    if reduction == "spread":
        spread = max(numbers.values()) - min(numbers.values())
        return show_entry(world, Entry(spread), ref.type.as_number(), system)
    pick = max if reduction == "largest" else min
    key = pick(numbers, key=lambda each: numbers[each])
    shown = show_entry(world, settled[key], ref.type, system)
    label = world.label(ref.type.per, key)
    return f"{shown} ({label})" if label else shown


def _number(entry: Entry) -> float:
    value = entry.value
    if isinstance(value, Band):
        return high(value.high)
    if isinstance(value, tuple):
        return max(cell for row in value for cell in row)
    return value if isinstance(value, float) else 0.0


def advise(world: World, outcomes: Mapping[str, Outcome]) -> tuple[Advised, ...]:
    """Collect the advice that holds, or may; advice about what does not apply is left out."""
    found = []
    for advice in world.rulebook.advice.values():
        judged = judge(world, advice.when)
        if judged.holds is False or _idle(advice.about, outcomes):
            continue
        found.append(
            Advised(
                advice.name,
                advice.about,
                {
                    who: printed_text(world, text, judged.where)
                    for who, text in advice.voices.items()
                },
                cautions_of(world, advice.cautions, judged),
                conflict_between=advice.conflict_between,
                ways_out=tuple(printed_text(world, way, judged.where) for way in advice.ways_out),
                may_apply=judged.holds is None,
                source=advice.source,
            )
        )
    return tuple(found)


def _idle(about: tuple[str, ...], outcomes: Mapping[str, Outcome]) -> bool:
    known = [outcomes[name] for name in about if name in outcomes]
    return bool(known) and all(each.not_applicable is not None for each in known)


def cautions_of(
    world: World, cautions: Iterable[Caution], outer: Judged | None = None
) -> tuple[CautionLine, ...]:
    """Fill the cautions that hold or may hold; nothing is hidden because it is unknown."""
    lines = []
    for caution in cautions:
        judged = judge(world, caution.when)
        if judged.holds is False:
            continue
        where = judged.where or (outer.where if outer is not None else ())
        unsure = judged.holds is None or (outer is not None and outer.holds is None)
        lines.append(
            CautionLine(
                caution.severity, printed_text(world, caution.text, where), may_apply=unsure
            )
        )
    return tuple(lines)
