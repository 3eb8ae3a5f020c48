"""The history of a job in text."""

from pathlib import Path

from planner.models.history import Change, Revision
from planner.planning.history import History
from planner.sheets.layout import Lines, counted, wrapped

MOST = 12
"""How many changed keys one revision lists."""


def history_text(history: History, job: Path) -> str:
    """Print every revision: who, when, why, and each key with old and new."""
    if not history.revisions:
        told = f"{job} has no history yet; it begins with the first command that writes to it."
        return "\n".join(wrapped(told))
    lines: Lines = []
    for each in history.revisions:
        lines += _revision(each)
    for number in history.damaged:
        lines += wrapped(f"NOTICE: line {number} of {history.path.name} does not read: torn off.")
    for number in history.broken:
        told = f"the line before revision {number} was changed after it was written"
        lines += wrapped(f"WARNING: {told}.")
    return "\n".join(lines)


def _revision(each: Revision) -> Lines:
    when = each.when.replace("T", " ").removesuffix("Z") + " UTC"
    lines = wrapped(f"{each.number}. {when}  {each.who}: {each.why}", "", "")
    for change in each.changes[:MOST]:
        lines += wrapped(_change(change), "   ")
    if len(each.changes) > MOST:
        lines += [f"   and {counted(len(each.changes) - MOST, 'more key')}"]
    return lines


def _change(change: Change) -> str:
    old, new = change.old or "nothing", change.new or "taken out"
    return f"{change.key}: {old} -> {new}"
