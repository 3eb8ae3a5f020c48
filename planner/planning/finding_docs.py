"""Findings of the plan document: what the builder typed, and what the readings say."""

from collections.abc import Iterable

from planner.models.job import FindingEntry
from planner.models.plan import Finding
from planner.planning.names import Names
from planner.rulebook.results import Answer, Outcome, Trace

SEVERITIES = ("accept", "watch", "repair", "replace", "stop")
_VERDICT = frozenset(SEVERITIES)


def typed_findings(entries: Iterable[FindingEntry]) -> list[Finding]:
    """Return the findings of the job as typed."""
    return [
        Finding(
            id=each.id,
            title=each.title,
            where=each.where,
            evidence=f"{each.degree}: {each.note}" if each.note else each.degree,
        )
        for each in entries
    ]


def measured_findings(outcomes: Iterable[Outcome], names: Names) -> list[Finding]:
    """Return every verdict of a rule that is worse than `accept`.

    A verdict is a choice among accept, watch, repair, replace and stop.

    Parameters
    ----------
    outcomes
        Decisions with their answers.
    names
        Prints values.

    Returns
    -------
    list of Finding
        In the rulebook's order, items in theirs.
    """
    found = []
    for outcome in outcomes:
        for answer in outcome.answers.values():
            if answer.type.words and set(answer.type.words) <= _VERDICT:
                found += _worse(outcome, answer, names)
    return found


def _worse(outcome: Outcome, answer: Answer, names: Names) -> list[Finding]:
    return [
        Finding(
            id=answer.name,
            title=outcome.decision.means,
            where=names.label(answer.type.per, key),
            evidence=_evidence(outcome.traces.get(key), answer.type.per, names),
            severity=str(entry.value),
        )
        for key, entry in answer.entries.items()
        if isinstance(entry.value, str) and entry.value != "accept"
    ]


def _spoken(name: str) -> str:
    return name.replace("_", " ").replace(".", " ")


def _evidence(trace: Trace | None, per: tuple[str, ...], names: Names) -> str:
    """Say what was read of this item: `guide exhaust 0.133 mm`; common figures are left out."""
    if trace is None:
        return ""
    told = []
    for name, entry in trace.read.items():
        declared = names.type_of(name)
        if declared is None or entry.value is None or declared.per != per:
            continue
        if declared.words and entry.value == declared.words[-1]:
            continue  # the harmless word: looked at, and not found
        told.append(f"{_spoken(name)} {names.one(entry, declared.over(()))}")
    return ", ".join(told)
