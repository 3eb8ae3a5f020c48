"""Readings that lie outside what the rules assumed before they were taken: named, one by one."""

from planner.rulebook.assumptions import assumed_value
from planner.rulebook.intervals import unsettled
from planner.rulebook.printing import show_value
from planner.rulebook.results import Question, Results
from planner.rulebook.syntax import Field
from planner.rulebook.values import Interval, Key, OneOf, Value

SLACK = 1e-9
"""How far past an end still counts as on it, as a share: the twelfth digit and some room."""


def failed_assumptions(results: Results) -> tuple[Question, ...]:
    """Name every assumption that a reading has overturned.

    Parameters
    ----------
    results
        The evaluated job.

    Returns
    -------
    tuple of Question
        One for each input; answers shown before that reading may have moved out of their range.
    """
    found = []
    for name, fact in results.facts.inputs.items():
        field = results.rulebook.inputs[name]
        if field.assume is None or field.assume.until is None:
            continue
        assumed = assumed_value(field.assume, field.type, results.facts.records)
        if not unsettled(assumed) or assumed is None:
            continue
        outside = {
            key: entry.value
            for key, entry in fact.entries.items()
            if entry.value is not None and not _within(entry.value, assumed)
        }
        if outside:
            found.append(_told(results, field, assumed, outside))
    return tuple(found)


def _within(value: Value, assumed: Value) -> bool:
    if isinstance(assumed, OneOf):
        return not isinstance(value, str) or value in assumed.words
    if not isinstance(assumed, Interval):
        return True
    cells = [cell for row in value for cell in row] if isinstance(value, tuple) else [value]
    slack = SLACK * max(abs(assumed.low), abs(assumed.high))
    return all(
        assumed.low - slack <= cell <= assumed.high + slack
        for cell in cells
        if isinstance(cell, float)
    )


def _told(results: Results, field: Field, assumed: Value, outside: dict[Key, Value]) -> Question:
    declared = field.type.over(()).as_number() if isinstance(assumed, Interval) else field.type
    parts = [
        f"{results.world.label(field.type.per, key)} {show_value(value, declared)}".strip()
        for key, value in outside.items()
    ]
    text = (
        f"{field.ask or field.name}: {'; '.join(parts)}. Before it was measured this was assumed "
        f"to be {show_value(assumed, declared)}, so what was shown at the enquiry may have moved: "
        "tell the owner what changed."
    )
    return Question(field.name, text)
