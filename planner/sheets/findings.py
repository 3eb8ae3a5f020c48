"""Findings as text: verdicts by gravity, what the builder saw, and the causes behind them."""

from collections.abc import Iterable

from planner.models.plan import Cause, Finding
from planner.sheets.layout import Lines, wrapped

_GRAVEST_FIRST = ("stop", "replace", "repair", "watch")


def finding_lines(findings: Iterable[Finding]) -> Lines:
    """Tell findings, those of one rule together with a line for each item.

    Parameters
    ----------
    findings
        In the order of the plan.

    Returns
    -------
    list of str
        Lines of at most eighty columns.
    """
    groups: dict[tuple[str, str], list[Finding]] = {}
    for each in findings:
        groups.setdefault((each.severity or "", each.title or each.id), []).append(each)
    order = sorted(groups, key=lambda group: _rank(group[0]))
    lines: Lines = []
    for severity, title in order:
        lines += _group(severity, title, groups[severity, title])
    return lines


def cause_lines(causes: Iterable[Cause]) -> Lines:
    """Tell root causes with what speaks for and against each, and what to do then."""
    lines: Lines = []
    for each in causes:
        lines += wrapped(each.cause, "", f"{each.confidence.upper():<8}  ")
        for finding in each.evidence_for:
            lines += wrapped(finding, "    ", "for: ")
        for finding in each.against:
            lines += wrapped(finding, "    ", "against: ")
        lines += wrapped(each.then, "    ", "then: ") if each.then else []
    return lines


def _rank(severity: str) -> int:
    return _GRAVEST_FIRST.index(severity) if severity else len(_GRAVEST_FIRST)


def _group(severity: str, title: str, members: list[Finding]) -> Lines:
    lead = f"{(severity or 'seen').upper():<8}"
    if len(members) == 1:
        only = members[0]
        where = f", {only.where}" if only.where else ""
        said = f": {only.evidence}" if only.evidence else ""
        return wrapped(f"{title}{where}{said}", "", lead)
    lines = wrapped(f"{title}:", "", lead)
    for each in members:
        said = f"{each.where}: {each.evidence}" if each.evidence else each.where
        lines += wrapped(said, " " * len(lead))
    return lines
