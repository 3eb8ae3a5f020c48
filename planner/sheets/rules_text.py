"""Names and rules of the rulebook as text."""

from collections.abc import Iterable

from planner.planning.looking import Named, Written
from planner.sheets.layout import Lines, table, wrapped


def names_text(names: Iterable[Named], word: str) -> str:
    """List names under their sort."""
    sorts: dict[str, list[Named]] = {}
    for each in names:
        sorts.setdefault(each.sort, []).append(each)
    if not sorts:
        return f"No name of the rulebook holds {word!r}.\n"
    lines: Lines = []
    for sort, members in sorts.items():
        title = sort if sort == "advice" else f"{sort}s"
        lines += ["", f"{title.upper()} ({len(members)})"]
        for each in members:
            lines += [f"  {each.name}", *wrapped(each.means, "      ")]
    return "\n".join(lines[1:]) + "\n"


def rule_text(written: Written) -> str:
    """Show a rule as it is written, and what it is tied to."""
    named = written.named
    lines = [f"{named.sort} {named.name}, {named.place.file}:{named.place.line}", ""]
    lines += written.lines
    rows = [
        ("stands on", ", ".join(written.reads)),
        ("is read by", ", ".join(written.read_by)),
    ]
    tied = table((name, text) for name, text in rows if text)
    return "\n".join([*lines, "", *tied] if tied else lines) + "\n"
