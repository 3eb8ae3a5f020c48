"""Reports of `check` as text."""

from planner.planning.checking import JobReport, RulesReport
from planner.sheets.layout import Lines, counted, shortened, table, wrapped

MANY_ROWS = 10
PROVED = (
    "Proved: every table complete over its ranges and without two rows for one case, no row "
    "that can never apply, units and kinds of every formula, no circles among decisions or "
    "operations, every name, source and unit known."
)


def rules_text(report: RulesReport) -> str:
    """Tell what was proved of a rulebook.

    Parameters
    ----------
    report
        What `check` found.

    Returns
    -------
    str
        Lines of at most eighty columns.
    """
    book, cases = report.rulebook, report.cases
    lines = [f"Rulebook edition {book.edition}, check code {book.sha256[:16]}", ""]
    lines += table((name, str(count)) for name, count in report.counts.items())
    lines += ["", *wrapped(PROVED), ""]
    failed = f", {len(cases.problems)} failed" if cases.problems else ""
    lines += wrapped(f"Cases: {cases.passed} passed{failed}.")
    lines += wrapped(
        f"Table rows and findings reached by a case: {cases.reached} of {cases.rows}."
    )
    lines += _unreached(report)
    if book.overridden:
        lines += ["", "Replaced by the shop's own folders:"]
        for each in book.overridden:
            lines += wrapped(each, "", "  - ")
    return "\n".join(lines) + "\n"


def _unreached(report: RulesReport) -> Lines:
    """Name the first rows that no case reaches."""
    left = report.cases.unreached
    lines: Lines = []
    for name, place in left[:MANY_ROWS]:
        lines += wrapped(f"not reached: {name} at {place.file}:{place.line}", "  ")
    if len(left) > MANY_ROWS:
        lines += wrapped(f"and {counted(len(left) - MANY_ROWS, 'more row', 'more rows')}", "  ")
    return lines


def job_text(report: JobReport) -> str:
    """Tell whether a job reads well, and what it lacks."""
    plan = report.plan
    due = [each for each in plan.missing if each.due]
    rows = [
        ("Job", plan.job.name),
        ("Engine", plan.job.engine),
        ("Stage", f"{plan.job.stage}: {plan.job.stage_because}"),
        ("Inputs read", str(report.inputs)),
        ("Findings", counted(len(plan.findings), "finding")),
        ("Missing", counted(len(due), "reading")),
        ("Questions", counted(len(plan.questions), "question")),
        ("Conflicts", counted(len(plan.conflicts), "conflict")),
    ]
    lines = table(rows)
    for each in due:
        lines += wrapped(f"{each.what} ({each.how})" if each.how else each.what, "", "  missing: ")
    for question in plan.questions:
        lines += wrapped(question.text, "", "  question: ")
    for conflict in plan.conflicts:
        lines += wrapped(shortened(conflict.text), "", "  conflict: ")
    if not report.doubts:
        lines += ["The job reads well."]
    return "\n".join(lines) + "\n"
