"""Root causes of the plan document: how likely each is, what speaks for and against it."""

from collections.abc import Iterable, Iterator

from planner.models.plan import Cause
from planner.planning.names import Names
from planner.rulebook.advising import printed_text
from planner.rulebook.evidence import Heard, heard
from planner.rulebook.results import Outcome
from planner.rulebook.syntax import EvidenceBody
from planner.rulebook.values import Key, OneOf, Value

UNLIKELY = "no"


def causes(outcomes: Iterable[Outcome], names: Names) -> tuple[Cause, ...]:
    """List every cause that findings speak for, the likely ones first.

    Parameters
    ----------
    outcomes
        Decisions with their answers; those that judge evidence are causes.
    names
        Prints values.

    Returns
    -------
    tuple of Cause
        With the findings that hold, and those that nobody has looked at yet.
    """
    found = [
        cause
        for outcome in outcomes
        if isinstance(outcome.decision.body, EvidenceBody) and outcome.not_applicable is None
        for cause in _causes(outcome, outcome.decision.body, names)
    ]
    return tuple(sorted(found, key=lambda each: each.confidence != "likely"))


def _causes(outcome: Outcome, body: EvidenceBody, names: Names) -> Iterator[Cause]:
    answer = next(iter(outcome.answers.values()))
    for key, entry in answer.entries.items():
        word = _confidence(entry.value)
        if word:
            yield _cause(outcome, body, key, word, names)


def _confidence(value: Value | None) -> str:
    """Return likely or possible; what could still be either is possible until it is known."""
    if isinstance(value, str):
        return "" if value == UNLIKELY else value
    return "possible" if isinstance(value, OneOf) and UNLIKELY not in value.words else ""


def _cause(outcome: Outcome, body: EvidenceBody, key: Key, confidence: str, names: Names) -> Cause:
    decision = outcome.decision
    bound = dict(zip(decision.per, key, strict=True))
    where = names.label(decision.per, key)
    then = printed_text(names.world, body.then, (where,) if where else ())
    return Cause(
        cause=f"{decision.means}, {where}" if where else decision.means,
        confidence=confidence,
        evidence_for=_told(heard(names.world, body.speaking, bound)),
        against=_told(heard(names.world, body.against, bound)),
        then=then,
    )


def _told(signs: Iterable[Heard]) -> tuple[str, ...]:
    """Tell the findings that hold, and those still open."""
    told = []
    for each in signs:
        where = f" ({', '.join(each.judged.where)})" if each.judged.where else ""
        if each.judged.holds:
            told.append(f"{each.sign.text}{where}")
        elif each.judged.holds is None:
            told.append(f"not looked at yet: {each.sign.text}")
    return tuple(told)
