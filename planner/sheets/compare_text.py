"""A comparison as text that fits one screen."""

from collections.abc import Sequence
from decimal import Decimal
from itertools import groupby

from planner.models.comparison import Change, Comparison
from planner.sheets.layout import WIDTH, Lines, wrapped

_MOST_LINES = 3


def compare_text(told: Comparison) -> str:
    """Tell what changes from one plan to another.

    Parameters
    ----------
    told
        The comparison.

    Returns
    -------
    str
        Lines of at most eighty columns, ending in a line break.
    """
    lines = [*wrapped(f"{told.before} -> {told.after}", "", "COMPARE  "), "=" * WIDTH]
    lines += _joined("Set", [_short(each) for each in told.inputs])
    if not _anything(told):
        return "\n".join([*lines, "Nothing else changes."]) + "\n"
    for _, group in groupby(told.specification, key=lambda each: (each.rule, each.decided_by)):
        lines += _changes(list(group))
    if told.behind:
        lines.append(f"and {told.behind} figures behind them")
    lines += _joined("Same", [f"{_spoken(name)} {text}" for name, text in told.same])
    lines += _steps(told.operations)
    lines += _joined("Parts", [_short(each) for each in told.parts])
    lines += _cost(told)
    lines += _joined("Days", [_short(each) for each in told.schedule])
    return "\n".join(lines) + "\n"


def _anything(told: Comparison) -> bool:
    dearer = any(each.before != each.after for each in told.cost)
    return bool(told.specification or told.behind or told.operations or told.parts or dearer)


def _spoken(name: str) -> str:
    return name.replace("_", " ")


def _short(each: Change) -> str:
    return f"{each.title}: {each.before} -> {each.after}"


def _changes(group: Sequence[Change]) -> Lines:
    """Tell changes that one rule makes, and the rule under them."""
    lines: Lines = []
    for each in group:
        lines += wrapped(f"{each.before} -> {each.after}", "", f"{_spoken(each.id)}: ")
    first = group[0]
    return [*lines, _cut(f"    by {first.rule}  {first.decided_by}")] if first.rule else lines


def _cut(line: str) -> str:
    """Keep a line on the page; `why` tells the whole of it."""
    return line if len(line) <= WIDTH else f"{line[: WIDTH - 3].rstrip()}..."


def _steps(changes: Sequence[Change]) -> Lines:
    absent = "not in the plan"
    new = [_spoken(each.id) for each in changes if each.before == absent]
    gone = [_spoken(each.id) for each in changes if each.after == absent]
    other = [_spoken(each.id) for each in changes if absent not in (each.before, each.after)]
    told = [
        f"{word} {', '.join(names)}"
        for word, names in (("new:", new), ("no longer:", gone), ("otherwise:", other))
        if names
    ]
    return _joined("Steps", told) if told else ["Steps: the same"]


def _cost(told: Comparison) -> Lines:
    totals, moved = told.cost[:3], told.cost[3:]
    if not totals:
        return []
    spans = [f"{each.title} {_difference(each)}" for each in totals]
    lines = wrapped(f"{'; '.join(spans)} {told.currency}", "", "Cost: ")
    most = [f"{each.title} {_signed(each)}" for each in moved[:_MOST_LINES]]
    more = len(moved) - len(most)
    rest = f"; {more} more lines" if more > 0 else ""
    return [*lines, *(wrapped(f"{'; '.join(most)}{rest}", "    ", "by ") if most else [])]


def _difference(each: Change) -> str:
    before, after = Decimal(each.before), Decimal(each.after)
    return f"{before:,.0f} -> {after:,.0f} ({_signed(each)})"


def _signed(each: Change) -> str:
    return f"{Decimal(each.after) - Decimal(each.before):+,.0f}"


def _joined(lead: str, texts: Sequence[str]) -> Lines:
    return wrapped("; ".join(texts), "", f"{lead}: ") if texts else []
