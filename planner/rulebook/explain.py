"""Why a decision came out as it did: its rule, its mark, its numbers, and what it rests on."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from planner.errors import Place
from planner.rulebook.facts import Answer
from planner.rulebook.printing import needs_text, show_entry, show_items, spoken
from planner.rulebook.results import Outcome, Rejected, Results, Trace, Voice
from planner.rulebook.syntax import (
    ChooseBody,
    ComputeBody,
    Decision,
    EvidenceBody,
    TableBody,
    ValueBody,
    WeighBody,
)
from planner.rulebook.values import Entry, Key, Status
from planner.rulebook.world import System

MANY = 6
LONG_LIST = re.compile(r"(?<=\w)\([^()]{240,}\)")


@dataclass(slots=True)
class Telling:
    """One explanation being told: what was told already is not told twice."""

    results: Results
    system: System
    deep: bool
    told: set[str] = field(default_factory=set)
    focus: dict[str, frozenset[str]] = field(default_factory=dict)


def why(results: Results, name: str, *, system: System = "metric", deep: bool = True) -> list[str]:
    """Explain a decision, or a result of one, or an input.

    Parameters
    ----------
    results
        The evaluated job.
    name
        Decision, result or input.
    system
        Units to print in.
    deep
        Whether to go on down to the inputs.

    Returns
    -------
    list of str
        Lines, indented by what rests on what.
    """
    telling = Telling(results, system, deep)
    return list(_name(telling, name, 0))


def _name(telling: Telling, name: str, depth: int) -> Iterator[str]:
    head = name.partition(" of ")[0]
    base = head.partition(".")[0]
    book = telling.results.rulebook
    if base in book.results:
        yield from _decision(telling, book.results[base][0], depth)
    elif base in book.decisions:
        yield from _decision(telling, base, depth)
    else:
        yield from _given_fact(telling, head, depth)


def _decision(telling: Telling, name: str, depth: int) -> Iterator[str]:
    pad = "  " * depth
    outcome = telling.results.outcomes[name]
    if name in telling.told:
        yield f"{pad}{name}: see above"
        return
    telling.told.add(name)
    decision = outcome.decision
    for result in decision.gives:
        yield f"{pad}{_headline(telling, outcome, result)}"
    yield f"{pad}  {decision.means}; rule at {decision.place.file}:{decision.place.line}"
    if outcome.not_applicable:
        yield f"{pad}  does not apply: {outcome.not_applicable}"
        return
    for line in _traces(telling, outcome):
        yield f"{pad}  {line}"
    if not telling.deep and depth:
        return
    _look_closer(telling, outcome)
    for read in _reads(outcome):
        yield from _name(telling, read, depth + 1)


def _look_closer(telling: Telling, outcome: Outcome) -> None:
    """From here on tell only the stock rows that were in question for this choice."""
    body = outcome.decision.body
    if not isinstance(body, ChooseBody):
        return
    first = next(iter(body.needs), "")
    aside = {
        rejected.choice
        for trace in outcome.traces.values()
        for rejected in trace.rejected
        if rejected.failed == first
    }
    rows = telling.results.world.items(body.stock)
    left = frozenset(row for row in rows if row not in aside)
    telling.focus[body.stock] = left or frozenset(rows)


def _in_focus(telling: Telling, answer: Answer) -> Mapping[Key, Entry]:
    """Leave out stock rows that were never in question."""
    for at, name in enumerate(answer.type.per):
        if name in telling.focus:
            rows = telling.focus[name]
            return {key: entry for key, entry in answer.entries.items() if key[at] in rows}
    return answer.entries


def grouped_rejections(trace: Trace) -> list[tuple[str, Rejected, tuple[str, ...]]]:
    """Bring rows that failed the same need for the same reason together.

    Returns
    -------
    list of tuple
        The need, one of the rejections, and the rows; a need that more than six rows failed is
        one group, shown by the row that came nearest in the catalog.
    """
    by_need: dict[str, list[Rejected]] = {}
    for rejected in trace.rejected:
        by_need.setdefault(rejected.failed, []).append(rejected)
    groups = []
    for need, rows in by_need.items():
        if len(rows) > MANY:
            groups.append((need, rows[0], tuple(each.choice for each in rows)))
        else:
            groups += [(need, each, (each.choice,)) for each in rows]
    return groups


def _headline(telling: Telling, outcome: Outcome, result: str) -> str:
    answer = outcome.answers[result]
    world = telling.results.world
    shown = show_items(world, _in_focus(telling, answer), answer.type, telling.system)
    status = outcome.status.word
    if outcome.given is not None:
        own = {key: trace.own for key, trace in outcome.traces.items() if trace.own is not None}
        rules = show_items(world, own, answer.type, telling.system) if own else "nothing"
        origin = outcome.given.origin or "the job"
        return f"{result} = {shown}   [given by {origin}; the rules say {rules}] {status}, given"
    return f"{result} = {shown}   [{_how(outcome.decision)}] ({mark(telling, outcome)}) {status}"


def _how(decision: Decision) -> str:
    body = decision.body
    if isinstance(body, ChooseBody):
        return f"chosen from {body.stock}"
    if isinstance(body, TableBody):
        return "from the table"
    if isinstance(body, ValueBody):
        return "set as a value"
    if isinstance(body, ComputeBody):
        return "; ".join(_shortened(formula.text) for formula in body.formulas.values())
    return _heard(body)


def _shortened(formula: str) -> str:
    """Leave out a long list of arguments: what they hold is told below."""
    return LONG_LIST.sub("(…)", " ".join(formula.split()))


def _heard(body: WeighBody | EvidenceBody) -> str:
    if isinstance(body, EvidenceBody):
        return "judged by the findings for and against"
    return f"weighed, {body.governs} governs"


def mark(telling: Telling, outcome: Outcome) -> str:
    """Say the source marks behind an outcome, each once."""
    sources = telling.results.rulebook.sources
    names = [trace.source for trace in outcome.traces.values() if trace.source]
    names = names or [outcome.decision.source]
    marks = [sources[name].status if name in sources else name for name in dict.fromkeys(names)]
    return ", ".join(dict.fromkeys(each for each in marks if each))


def _traces(telling: Telling, outcome: Outcome) -> Iterator[str]:
    """Tell each item's reasons, items with the same reasons once."""
    world = telling.results.world
    grouped: dict[tuple[str, ...], list[Key]] = {}
    for key, trace in outcome.traces.items():
        lines = tuple(_one_trace(telling, outcome, key, trace))
        grouped.setdefault(lines, []).append(key)
    for lines, keys in grouped.items():
        labels = ", ".join(world.label(outcome.decision.per, key) for key in keys)
        if labels and lines:
            yield f"{labels}:"
        for line in lines:
            yield f"  {line}" if labels else line


def _one_trace(telling: Telling, outcome: Outcome, key: Key, trace: Trace) -> Iterator[str]:
    for text, place in trace.rows:
        lead = _side(outcome.decision, place)
        yield f"{lead}: {text} ({place.file}:{place.line})"
    for need, rejected, rows in grouped_rejections(trace):
        if len(rows) > 1:
            told = f"{len(rows)} rows: no, fail '{need}'"
            yield f"{told} (the first, {rejected.choice}: {rejected.why})"
        else:
            yield f"{rejected.choice}: no, fails '{need}' ({rejected.why})"
    if trace.margins or trace.passed:
        entry = next(iter(outcome.answers.values())).entries[key]
        yield f"{entry.value}: chosen: {', '.join(trace.margins) or 'no needs'}"
        for passed in trace.passed:
            yield f"{passed}: passes, not preferred"
    for voice in trace.voices:
        yield _voice(telling, outcome, voice)
    yield from _unsettled(telling, outcome, key)


def _side(decision: Decision, place: Place) -> str:
    """Say what a row is: of a table, or a finding for or against a cause."""
    if not isinstance(decision.body, EvidenceBody):
        return "row"
    return "against" if any(sign.place == place for sign in decision.body.against) else "for"


def _unsettled(telling: Telling, outcome: Outcome, key: Key) -> Iterator[str]:
    """Say why there is no answer, what it waits for, or what was assumed."""
    for answer in outcome.answers.values():
        entry = answer.entries[key]
        if entry.status == Status.REFUSED:
            yield f"no answer: {entry.refused}"
        elif entry.status == Status.WAITING:
            yield f"waits for {needs_text(telling.results.world, entry)}"
        elif entry.assumed:
            yield f"rests on assumed: {', '.join(spoken(name) for name in entry.assumed)}"


def _voice(telling: Telling, outcome: Outcome, voice: Voice) -> str:
    declared = next(iter(outcome.answers.values())).type
    sign = ">" if voice.governs else "-"
    shown = show_entry(telling.results.world, voice.entry, declared, telling.system)
    outside = f" (outside its range: {voice.outside_because})" if voice.outside_range else ""
    return f"{sign} {voice.name}: {shown}{outside}"


def _reads(outcome: Outcome) -> list[str]:
    names: dict[str, None] = {}
    for trace in outcome.traces.values():
        for label in trace.read:
            names[label.partition(" of ")[0]] = None
    return [name for name in names if name.partition(".")[0] != outcome.decision.name]


def _given_fact(telling: Telling, name: str, depth: int) -> Iterator[str]:
    """Tell an input or an engine figure, with the reason where it is assumed."""
    pad = "  " * depth
    if name in telling.told:
        return
    telling.told.add(name)
    results = telling.results
    field_ = results.rulebook.inputs.get(name)
    if field_ is None:
        yield from _record_fact(telling, name, pad)
        return
    entries = {
        key: results.world.input(field_, key) for key in results.world.keys(field_.type.per)
    }
    shown = show_items(results.world, entries, field_.type, telling.system)
    assumed = next((why for each, _, why in results.assumptions if each == name), None)
    origin = f"[assumed: {assumed}]" if assumed else "[typed in the job]"
    yield f"{pad}{name} = {shown}   {origin}"


def _record_fact(telling: Telling, name: str, pad: str) -> Iterator[str]:
    results = telling.results
    record, _, part = name.partition(".")
    known = results.rulebook.records.get(record)
    head = part.partition(".")[0]
    if known is None or head not in known.fields:
        return
    value = results.facts.records.get(record, {}).get(head)
    from planner.rulebook.printing import show_value

    shown = (
        "not stated"
        if value is None
        else show_value(value, known.fields[head].type, telling.system)
    )
    yield f"{pad}{record}.{head} = {shown}   [from the {record}'s entry]"
