"""Findings of the plan document: what the builder typed, and what the readings say."""

import re
from collections.abc import Iterable

from planner.models.job import FindingEntry
from planner.models.plan import Finding
from planner.planning.names import Names
from planner.planning.readings_behind import ReadingsBehind
from planner.rulebook.printing import spoken
from planner.rulebook.results import Answer, Outcome, Trace
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Entry, Key

SEVERITIES = ("accept", "watch", "repair", "replace", "stop")
TWO_WORDS = 2
"""Words of a finding that is there or is not."""
_LIMIT = re.compile(r"\b(over|under)\b")
READABLE = 0.5e-6
"""Metres past a limit that no gauge of the shop reads."""
_VERDICT = frozenset(SEVERITIES)


def typed_findings(entries: Iterable[FindingEntry], names: Names) -> list[Finding]:
    """Return the findings of the job as typed."""
    return [
        Finding(
            id=each.id,
            title=each.title,
            where=each.where,
            evidence=": ".join(filter(None, (_degree(each, names), each.note))),
        )
        for each in entries
    ]


def _degree(entry: FindingEntry, names: Names) -> str:
    """Say how much; a finding that is there or is not says so by its title."""
    declared = names.type_of(entry.id)
    harmless = declared.words[-1:] if declared is not None and declared.words else ()
    two = declared is not None and len(declared.words or ()) == TWO_WORDS
    return "" if two and entry.degree not in harmless else spoken(entry.degree)


def measured_findings(
    outcomes: Iterable[Outcome], names: Names, readings: ReadingsBehind
) -> list[Finding]:
    """Return every verdict of a rule that is worse than `accept`.

    A verdict is a choice among accept, watch, repair, replace and stop.

    Parameters
    ----------
    outcomes
        Decisions with their answers.
    names
        Prints values.
    readings
        Finds the readings behind a margin.

    Returns
    -------
    list of Finding
        In the rulebook's order, items in theirs.
    """
    evidence = Evidence(names, readings)
    found = []
    for outcome in outcomes:
        for answer in outcome.answers.values():
            if answer.type.words and set(answer.type.words) <= _VERDICT:
                found += _worse(outcome, answer, evidence)
    return found


def _worse(outcome: Outcome, answer: Answer, evidence: "Evidence") -> list[Finding]:
    return [
        Finding(
            id=answer.name,
            title=outcome.decision.means,
            where=evidence.names.label(answer.type.per, key),
            evidence=evidence.told(outcome.traces.get(key), answer.type.per, key),
            severity=str(entry.value),
        )
        for key, entry in answer.entries.items()
        if isinstance(entry.value, str) and entry.value != "accept"
    ]


class Evidence:
    """Says what was read of an item, without what all share and what speaks for it.

    Parameters
    ----------
    names
        Prints values.
    readings
        Finds the reading behind a margin.
    """

    def __init__(self, names: Names, readings: ReadingsBehind) -> None:
        self.names, self.readings = names, readings

    def told(self, trace: Trace | None, per: tuple[str, ...], key: Key) -> str:
        """Say it as `Exhaust guide clearance, worst reading 0.133 mm`."""
        told: dict[str, None] = {}
        for name, entry in (trace.read if trace else {}).items():
            declared = self.names.type_of(name)
            if declared is not None and declared.per == per and entry.value is not None:
                told |= dict.fromkeys(self._read(name, key, entry, declared))
        return "; ".join(told)

    def _read(self, name: str, key: Key, entry: Entry, declared: ValueType) -> list[str]:
        """Tell one name; a margin inside its limit, and a word that says all is well, are not."""
        typed = name in self.names.rulebook.inputs
        if isinstance(entry.value, str):
            harmless = not declared.words or entry.value == declared.words[-1]
            return [] if harmless or not typed else [self._one(name, entry)]
        if isinstance(entry.value, float) and entry.value <= 0:
            return []
        return self._figure(name, key, entry, declared)

    def _figure(self, name: str, key: Key, entry: Entry, declared: ValueType) -> list[str]:
        """Tell a figure by the readings behind it; a margin by its reading and by how much."""
        behind = [
            (reading, value)
            for (reading, _), value in self.readings.of(name, key).items()
            if reading != name
        ]
        if behind and not declared.per and declared.unit is not None:
            return [self._one(reading, value) for reading, value in behind]
        limit = _LIMIT.search(self.names.title(name))
        if len(behind) != 1 or limit is None or declared.unit is None:
            return [self._one(name, entry)]
        margin = self.names.one(entry, declared.over(()))
        small = isinstance(entry.value, float) and entry.value < READABLE
        much = "just" if small else margin
        return [f"{self._one(*behind[0])}, {much} {limit[1]} its limit"]

    def _one(self, name: str, entry: Entry) -> str:
        declared = self.names.ref(name).type
        title = self.names.title(name)
        if len(declared.words or ()) == TWO_WORDS:
            return title
        return f"{title} {self.names.one(entry, declared.over(()))}"
