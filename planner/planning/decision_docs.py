"""Decisions of the plan document: value, status, evidence, what was rejected, and why."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from planner.errors import Place
from planner.models.amount import Result
from planner.models.plan import DecisionDoc, Evidence, RejectedChoice, SourceMark
from planner.models.steps import CautionDoc
from planner.planning.amounts import parts_of, row_fields, same_for_all, whole
from planner.planning.names import Names
from planner.rulebook.results import Advised, Answer, CautionLine, Outcome, Results
from planner.rulebook.syntax import ChooseBody, Rulebook, WeighBody
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Entry, Key

GOVERNS = {
    "first": "the first voice listed that speaks governs",
    "larger": "the larger governs, part by part",
    "smaller": "the smaller governs, part by part",
}


class DecisionDocs:
    """Makes the document of each decision.

    Parameters
    ----------
    results
        What the rulebook said.
    names
        Prints values.
    """

    def __init__(self, results: Results, names: Names) -> None:
        self.results, self.names = results, names
        self.book = results.rulebook
        self._advice = _by_decision(results.advice, self.book.results)
        self._assumed = {name: f"{text}: {why}" for name, text, why in results.assumptions}

    def document(self, outcome: Outcome) -> DecisionDoc:
        """Make the document of one decision."""
        decision = outcome.decision
        advised = self._advice.get(decision.name, ())
        return DecisionDoc(
            title=decision.means,
            status=outcome.status.word,
            given=outcome.given is not None,
            rule=decision.name,
            form=decision.form,
            at=rule_place(decision.place),
            inputs=self._inputs(outcome),
            assumed=self._resting_on(outcome),
            waiting_for=tuple(
                name for name in _joined(outcome, "waiting_for") if can_be_asked(name, self.book)
            ),
            refused=_refused(outcome),
            not_applicable=outcome.not_applicable,
            evidence=(*self._given(outcome), *self._voices(outcome)),
            governed_because=_governed(outcome),
            rejected=self._rejected(outcome),
            also_fit=tuple(
                dict.fromkeys(row for t in outcome.traces.values() for row in t.passed)
            ),
            margins=self._margins(outcome),
            because=_because(advised),
            sources=self._sources(outcome),
            cautions=caution_docs(line for each in advised for line in each.cautions),
            **self._amount(outcome),
        )

    def _amount(self, outcome: Outcome) -> dict[str, Any]:
        """Put a single result at the top, several under `results`."""
        if outcome.not_applicable is not None:
            return {"text": f"does not apply: {outcome.not_applicable}"}
        answers = outcome.answers
        if len(answers) == 1:
            only = next(iter(answers.values()))
            return {**whole(only, self.names), "fields": row_fields(only, self.names)}
        results = {name: Result(**whole(each, self.names)) for name, each in answers.items()}
        text = "; ".join(f"{name} {each.text}" for name, each in results.items())
        return {"results": results, "text": text}

    def _inputs(self, outcome: Outcome) -> dict[str, str]:
        """Say what each name that was read holds; `bores of cylinder 3` counts as `bores`."""
        labels = [label for trace in outcome.traces.values() for label in trace.read]
        bases = dict.fromkeys(label.partition(" of ")[0] for label in labels)
        return {name: self.names.read_text(name) for name in bases}

    def _resting_on(self, outcome: Outcome) -> dict[str, str]:
        return {name: self._assumed.get(name, name) for name in _joined(outcome, "assumed")}

    def _voices(self, outcome: Outcome) -> list[Evidence]:
        """Gather each voice over all items."""
        heard: dict[str, dict[Key, Any]] = {}
        for key, trace in outcome.traces.items():
            for voice in trace.voices:
                heard.setdefault(voice.name, {})[key] = voice
        if not heard:
            return []
        declared = next(iter(outcome.answers.values())).type
        return [self._voice(name, said, declared, outcome) for name, said in heard.items()]

    def _voice(
        self, name: str, said: Mapping[Key, Any], declared: ValueType, outcome: Outcome
    ) -> Evidence:
        entries = {key: voice.entry for key, voice in said.items()}
        first = next(iter(said.values()))
        shared = same_for_all(entries)
        return Evidence(
            name=name,
            kind=first.kind,
            source=self._mark(first.source),
            governs=outcome.given is None and any(voice.governs for voice in said.values()),
            refused=next((entry.refused for entry in entries.values() if entry.refused), None),
            outside_range=any(voice.outside_range for voice in said.values()),
            outside_because=next(
                (v.outside_because for v in said.values() if v.outside_because), ""
            ),
            text=self.names.text(entries, declared),
            **(parts_of(shared, declared) if shared is not None else {}),
        )

    def _given(self, outcome: Outcome) -> list[Evidence]:
        """Show a given value beside what the rules alone would have said."""
        if outcome.given is None:
            return []
        answer = next(iter(outcome.answers.values()))
        own = {key: trace.own for key, trace in outcome.traces.items() if trace.own is not None}
        origin = outcome.given.origin
        said = [self._say("given", origin, answer.entries, answer, governs=True)]
        if own and not any(trace.voices for trace in outcome.traces.values()):
            said.append(self._say(self._kind(outcome), "the rules", own, answer, governs=False))
        return said

    def _say(
        self, kind: str, name: str, entries: Mapping[Key, Entry], answer: Answer, *, governs: bool
    ) -> Evidence:
        shared = same_for_all(entries)
        return Evidence(
            kind=kind,
            name=name,
            governs=governs,
            text=self.names.text(entries, answer.type),
            **(parts_of(shared, answer.type) if shared is not None else {}),
        )

    def _kind(self, outcome: Outcome) -> str:
        mark = self._mark(outcome.decision.source)
        return "physics" if mark in ("derived", "published") else "practice"

    def _rejected(self, outcome: Outcome) -> tuple[RejectedChoice, ...]:
        """List the rows that failed, the nearest misses first: those that failed a later need."""
        failed: dict[tuple[str, str, str], list[Key]] = {}
        for key, trace in outcome.traces.items():
            for row in trace.rejected:
                failed.setdefault((row.choice, row.failed, row.why), []).append(key)
        return tuple(
            RejectedChoice(choice=choice, failed=need, why=f"{self._at(keys, outcome)}{why}")
            for (choice, need, why), keys in sorted(failed.items(), key=_nearness(outcome))
        )

    def _margins(self, outcome: Outcome) -> tuple[str, ...]:
        told: dict[str, list[Key]] = {}
        for key, trace in outcome.traces.items():
            for margin in trace.margins:
                told.setdefault(margin, []).append(key)
        return tuple(f"{self._at(keys, outcome)}{margin}" for margin, keys in told.items())

    def _at(self, keys: list[Key], outcome: Outcome) -> str:
        """Name the items a line is about, when it is not about all."""
        if len(keys) == len(outcome.traces):
            return ""
        labels = [self.names.label(outcome.decision.per, key) for key in keys]
        return f"{', '.join(labels)}: "

    def _sources(self, outcome: Outcome) -> tuple[SourceMark, ...]:
        found = [trace.source for trace in outcome.traces.values() if trace.source]
        found = list(dict.fromkeys(found)) or [outcome.decision.source]
        return tuple(source_mark(name, self.book.sources) for name in found if name)

    def _mark(self, name: str) -> str:
        source = self.book.sources.get(name)
        return source.status if source else name


def can_be_asked(name: str, book: Rulebook) -> bool:
    """Tell whether a person can give what is waited for.

    A figure of a catalog entry, such as the ethanol share of a fuel, comes with the choice of
    the entry, which is asked for by itself.
    """
    head = name.partition(" of ")[0]
    record, _, part = head.partition(".")
    field = book.records[record].fields.get(part) if record in book.records else None
    return field is None or bool(field.ask)


def rule_place(place: Place) -> str:
    """Name a rule's file from its rules folder on, wherever the program is installed."""
    _, found, rest = place.file.rpartition("rules/")
    return f"{found}{rest}:{place.line}"


def source_mark(name: str, sources: Mapping[str, Any]) -> SourceMark:
    """Return the mark that a source puts on a figure."""
    source = sources.get(name)
    if source is None:
        return SourceMark(name=name, status=name)
    return SourceMark(name=name, status=source.status, cite=source.cite)


def caution_docs(lines: Iterable[CautionLine]) -> tuple[CautionDoc, ...]:
    """Put cautions into the document, each once."""
    found = {
        (line.severity, line.text): CautionDoc(
            severity=line.severity, text=line.text, may_apply=line.may_apply
        )
        for line in lines
    }
    return tuple(found.values())


def _by_decision(
    advice: Iterable[Advised], results: Mapping[str, tuple[str, str]]
) -> dict[str, list[Advised]]:
    """Sort advice under the decisions it is about; a result counts as its decision."""
    found: dict[str, list[Advised]] = {}
    for each in advice:
        about = [results[name][0] if name in results else name for name in each.about]
        for name in dict.fromkeys(about):
            found.setdefault(name, []).append(each)
    return found


def _because(advised: Iterable[Advised]) -> dict[str, str]:
    texts: dict[str, list[str]] = {}
    for each in advised:
        for audience, text in each.voices.items():
            lead = "May apply: " if each.may_apply else ""
            texts.setdefault(audience, []).append(lead + text)
    return {audience: " ".join(dict.fromkeys(each)) for audience, each in texts.items()}


def _nearness(outcome: Outcome) -> Callable[[Any], int]:
    """Rank failures by how far down the needs a row came."""
    body = outcome.decision.body
    needs = list(body.needs) if isinstance(body, ChooseBody) else []
    return lambda failure: -needs.index(failure[0][1]) if failure[0][1] in needs else 0


def _also_fit(outcome: Outcome) -> tuple[str, ...]:
    return tuple(dict.fromkeys(row for each in outcome.traces.values() for row in each.passed))


def _governed(outcome: Outcome) -> str:
    body = outcome.decision.body
    if outcome.given is not None:
        return "a given value always wins"
    if not isinstance(body, WeighBody):
        return ""
    first, _, second = body.governs.partition(" else ")
    otherwise = f", or {second} where it is silent" if second else ""
    return GOVERNS.get(body.governs, f"{first} governs{otherwise}")


def _joined(outcome: Outcome, field: str) -> tuple[str, ...]:
    found = [
        name
        for answer in outcome.answers.values()
        for entry in answer.entries.values()
        for name in getattr(entry, field)
    ]
    return tuple(dict.fromkeys(found))


def _refused(outcome: Outcome) -> str | None:
    reasons = [
        entry.refused
        for answer in outcome.answers.values()
        for entry in answer.entries.values()
        if entry.refused and entry.status.word == "refused"
    ]
    return "; ".join(dict.fromkeys(reasons)) or None
