"""The whole plan as text: what the builder reads, six choices first."""

from collections.abc import Callable, Collection

from planner.models.groups import GROUPS, HEADLINES, SIX
from planner.models.plan import Plan, QuestionDoc
from planner.models.steps import Schedule
from planner.sheets.brief import (
    brief_cost,
    brief_decisions,
    brief_operations,
    brief_parts,
    brief_schedule,
    more,
)
from planner.sheets.cost_text import cost_lines
from planner.sheets.decisions import (
    DecisionTexts,
    also_worked_out,
    caution_lines,
    short_lines,
)
from planner.sheets.findings import cause_lines, finding_lines
from planner.sheets.layout import WIDTH, Lines, counted, heading, shortened, table, wrapped
from planner.sheets.operations import operation_lines, route_lines
from planner.sheets.parts_text import part_lines
from planner.sheets.schedule_text import schedule_lines
from planner.sheets.torque_text import run_in_lines, torque_lines

MANY_BLOCKED = 6
Section = Callable[[Plan, str], Lines]
_STATUSES = (
    "FIRM: settled by readings and rules. PROVISIONAL: rests on something assumed, which is "
    "named. WAITING: needs a reading, which is named. REFUSED: no answer, with the reason and "
    "a way out. In square brackets: where a figure comes from."
)


def plan_text(
    plan: Plan, *, audience: str = "builder", only: Collection[str] = (), full: bool = False
) -> str:
    """Tell a plan as text.

    Parameters
    ----------
    plan
        The plan document.
    audience
        builder, machinist or customer.
    only
        Sections to print, in full; a short form of the plan when none is named.
    full
        Whether to print every section in full.

    Returns
    -------
    str
        Lines of at most eighty columns, ending in a line break.
    """
    wanted = only or [name for name in SECTIONS if name != "working"]
    sections = SECTIONS if only or full else BRIEF
    lines = header_lines(plan)
    for name, section in sections.items():
        if name in wanted:
            lines += section(plan, audience)
    if sections is BRIEF:
        lines += more(plan)
    return "\n".join(line.rstrip() for line in lines) + "\n"


def header_lines(plan: Plan) -> Lines:
    """Tell which job, engine, stage and rules the plan is about."""
    job, stamp = plan.job, plan.stamp
    reference = f" ({job.reference})" if job.reference else ""
    rows = [
        ("Engine", job.engine),
        ("Stage", f"{job.stage.upper()}: {job.stage_because}"),
        ("Rules", f"edition {stamp.rules_edition}, check code {stamp.rules_sha256[:16]}"),
        ("Program", f"borewright {stamp.version}; sizes in {_units(job.units)}"),
    ]
    if job.complaint:
        rows.append(("Complaint", job.complaint))
    if job.budget:
        rows.append(("Budget", job.budget))
    if job.deadline:
        rows.append(("Deadline", job.deadline))
    if stamp.overridden:
        rows.append(("Shop rules", f"{counted(len(stamp.overridden), 'block')} replaced"))
    lines = [f"BUILD PLAN: {job.name}{reference}", "=" * WIDTH, *table(rows)]
    lines += ["", *wrapped(_tally(plan))]
    return [*lines, "", *wrapped(_STATUSES)]


def _units(system: str) -> str:
    return {"metric": "metric units", "inch": "inch units"}.get(system, "metric and inch units")


def _tally(plan: Plan) -> str:
    """Say in one line how settled the plan is."""
    asked = [plan.decisions[name].status for name in HEADLINES if name in plan.decisions]
    words = ("firm", "provisional", "waiting", "refused", "not applicable")
    told = [f"{asked.count(word)} {word}" for word in words if word in asked]
    counts = [
        counted(len(plan.questions), "question"),
        counted(len(plan.conflicts), "conflict"),
        counted(sum(each.due for each in plan.missing), "reading") + " missing",
        counted(len(plan.operations), "operation"),
    ]
    return f"Decisions: {', '.join(told) or 'none'}. {', '.join(counts)}."


def _choices(plan: Plan, audience: str) -> Lines:
    lines = heading("The six choices", "=")
    teller = DecisionTexts(plan, audience)
    for number, (title, names) in enumerate(SIX, 1):
        lines += ["", f"{number}. {title.upper()}"]
        for name in names:
            if name in plan.decisions:
                lines += teller.lines(name, plan.decisions[name])
            else:
                lines += [f"{name}: the rulebook does not answer this"]
    lines += ["", f"{len(SIX) + 1}. MACHINING ORDER"]
    return lines + route_lines(plan)


def _decisions(plan: Plan, audience: str) -> Lines:
    lines = heading("All decisions", "=")
    teller = DecisionTexts(plan, audience)
    above = {name for _, names in SIX for name in names}
    for title, names in GROUPS:
        told = [name for name in names if name in plan.decisions]
        if audience == "customer":
            told = [name for name in told if name not in above]
        if not told:
            continue
        lines += heading(title)
        for name in told:
            decision = plan.decisions[name]
            if name in above:
                lines += short_lines(name, decision)
            else:
                lines += teller.lines(name, decision)
    others = also_worked_out(plan, frozenset(HEADLINES))
    if others and audience == "builder":
        lines += heading("Also worked out")
        for name, decision in others.items():
            lines += teller.lines(name, decision)
    return lines


def _working(plan: Plan, _: str) -> Lines:
    """List every other figure the decisions stand on."""
    lines = heading("Working behind the decisions", "=")
    for name, decision in plan.decisions.items():
        if name not in HEADLINES:
            lines += short_lines(name, decision)
    return lines


def _questions(plan: Plan, _: str) -> Lines:
    lines: Lines = []
    if plan.questions:
        lines += heading("Questions to settle", "=")
        for number, each in enumerate(plan.questions, 1):
            lines += _question(number, each)
    if plan.conflicts:
        lines += heading("Conflicts", "=")
        for conflict in plan.conflicts:
            lines += wrapped(shortened(conflict.text), "", f"{' / '.join(conflict.between)}: ")
            for way in conflict.ways_out:
                lines += wrapped(way, "    ", "way out: ")
    return lines


def _question(number: int, each: QuestionDoc) -> Lines:
    lines = wrapped(each.text, "", f"{number}. ")
    if each.fix:
        lines += wrapped(each.fix, "   ")
    return [*lines, f"   at {each.at}"] if each.at else lines


def _findings(plan: Plan, audience: str) -> Lines:
    if audience == "customer":
        return []
    lines: Lines = []
    if plan.diagnosis:
        lines += [*heading("Why it wore or failed", "="), *cause_lines(plan.diagnosis)]
    if plan.findings:
        lines += [*heading("Findings", "="), *finding_lines(plan.findings)]
    return lines


def _operations(plan: Plan, audience: str) -> Lines:
    if not plan.operations:
        return []
    lines = heading("Operations in working order", "=")
    start = [f"{_number(plan, name)} {name}" for name in plan.schedule.can_start_now]
    lines += wrapped(", ".join(start) or "nothing", "", "Can start now: ")
    lines += wrapped(_hours(plan.schedule), "", "Hours in all: ")
    return [*lines, "", *operation_lines(plan, audience)]


def _hours(schedule: Schedule) -> str:
    """Say the sum of the hours, and what may come on top."""
    low, likely, high = schedule.hours
    text = f"{low:g} to {high:g}, likely {likely:g}, all trades together"
    if any(schedule.hours_perhaps):
        low, likely, high = schedule.hours_perhaps
        text += f"; perhaps {low:g} to {high:g} more, likely {likely:g}"
    return f"{text}. Lanes run side by side, so days are fewer."


def _number(plan: Plan, name: str) -> int:
    return next(each.step for each in plan.operations if each.id == name)


def _missing(plan: Plan, _: str) -> Lines:
    lines: Lines = []
    for due, title in ((True, "Readings missing"), (False, "Not known yet")):
        told = [each for each in plan.missing if each.due == due]
        if told:
            lines += heading(title, "=")
        for each in told:
            lines += wrapped(each.what, "", "- ")
            lines += wrapped(each.how, "    ", "how: ") if each.how else []
            lines += wrapped(_blocked(each.blocks), "    ", "waits for it: ")
    return lines


def _blocked(names: Collection[str]) -> str:
    """Name what waits: the decisions of the plan, or else the figures behind them."""
    told = [name for name in names if name in HEADLINES] or list(names)
    more = len(names) - len(told[:MANY_BLOCKED])
    rest = f", and {counted(more, 'figure')} behind them" if more else ""
    return ", ".join(told[:MANY_BLOCKED]) + rest


def _assumptions(plan: Plan, _: str) -> Lines:
    if not plan.assumptions:
        return []
    lines = heading("Assumed, because nobody said", "=")
    for each in plan.assumptions:
        text = f"{each.name.replace('_', ' ')} = {each.text}; {each.because}"
        lines += wrapped(text, "", "- ")
    return lines


def _cautions(plan: Plan, _: str) -> Lines:
    return [*heading("Cautions", "="), *caution_lines(plan.cautions, "")]


SECTIONS: dict[str, Section] = {
    "choices": _choices,
    "questions": _questions,
    "findings": _findings,
    "decisions": _decisions,
    "working": _working,
    "operations": _operations,
    "parts": part_lines,
    "cost": cost_lines,
    "schedule": schedule_lines,
    "torque": torque_lines,
    "start": run_in_lines,
    "missing": _missing,
    "assumptions": _assumptions,
    "cautions": _cautions,
}

BRIEF: dict[str, Section] = {
    "choices": _choices,
    "questions": _questions,
    "findings": _findings,
    "decisions": brief_decisions,
    "operations": brief_operations,
    "parts": brief_parts,
    "cost": brief_cost,
    "schedule": brief_schedule,
    "missing": _missing,
    "assumptions": _assumptions,
    "cautions": _cautions,
}
