"""Where the figures of a target come from, as the mark printed beside it."""

import re

from planner.planning.decision_docs import source_mark
from planner.rulebook.results import Results
from planner.rulebook.syntax import Inspect
from planner.rulebook.texts import names_in

RECALLED = "from memory"
ENTRY = "engine's entry"
TYPED = "job"
_BRACES = re.compile(r"\{[^{}]*\}")


def target_mark(results: Results, inspect: Inspect, printed: str) -> str:
    """Return the mark of a target: of the decision behind it, or of the figure in its words.

    Parameters
    ----------
    results
        What the rulebook said.
    inspect
        The target as the operation states it.
    printed
        The target as it is printed.

    Returns
    -------
    str
        published, common practice, from memory, derived, demo, given, engine's entry or job;
        several joined by `and`. Empty where the target holds no figure. A figure written into
        the words of an operation is from memory, as all of them are.
    """
    if not re.search(r"\d", printed):
        return ""
    names = [*([inspect.target] if inspect.target else ()), *names_in(inspect.text)]
    marks = [mark for name in names if (mark := _mark_of(results, name))]
    if re.search(r"\d", _BRACES.sub("", inspect.text)):
        marks.append(RECALLED)
    return " and ".join(dict.fromkeys(marks))


def _mark_of(results: Results, name: str) -> str:
    base = name.partition(".")[0]
    book = results.rulebook
    if base in book.records:
        return ENTRY
    if base in book.inputs:
        return TYPED
    owner = book.results.get(base)
    outcome = results.outcomes.get(owner[0] if owner else base)
    if outcome is None:
        return ""
    if outcome.given is not None:
        return "given"
    source = next((each.source for each in outcome.traces.values() if each.source), "")
    return source_mark(source or outcome.decision.source, book.sources).status
