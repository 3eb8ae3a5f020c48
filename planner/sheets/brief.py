"""The plan at a glance: one line for each decision, step and part, and what must not be missed."""

from planner.models.cost import Cost
from planner.models.groups import GROUPS
from planner.models.plan import DecisionDoc, Plan
from planner.models.steps import Part, Step
from planner.sheets.cost_text import money
from planner.sheets.decisions import caution_lines, status_word
from planner.sheets.layout import WIDTH, Lines, counted, heading, marked, shortened, wrapped

GRAVE = ("danger", "warning")
NAME_ROOM = 28


def brief_decisions(plan: Plan, audience: str) -> Lines:
    """List every decision with its value, mark and status; grave cautions under it."""
    lines = heading("All decisions", "=")
    lines += wrapped("Reasons, evidence and what was rejected: --only decisions, or why NAME.")
    told: set[str] = set()
    for title, names in GROUPS:
        mine = [name for name in names if name in plan.decisions]
        if mine:
            lines += heading(title)
        for name in mine:
            lines += _decision(name, plan.decisions[name], audience, told)
    return lines


def _decision(name: str, decision: DecisionDoc, audience: str, told: set[str]) -> Lines:
    label = decision.title if audience == "customer" else name
    lines = marked(f"{label}", status_word(decision))
    lines += wrapped(_value(decision), "    ", "= ")
    voices = [each for each in decision.evidence if not each.governs]
    for each in voices if len(decision.evidence) > 1 else ():
        outside = " (outside its range)" if each.outside_range else ""
        lines += wrapped(
            f"{shortened(each.text or each.refused or '')}{outside}", "      ", f"- {each.name}: "
        )
    new = [
        each
        for each in decision.cautions
        if each.severity in GRAVE and not each.may_apply and each.text not in told
    ]
    told.update(each.text for each in new)
    return lines + caution_lines(new, "    ")


def _value(decision: DecisionDoc) -> str:
    if decision.not_applicable is not None:
        return f"does not apply: {decision.not_applicable}"
    if decision.refused:
        return f"no answer: {decision.refused}"
    if decision.results:
        text = "; ".join(
            f"{name.replace('_', ' ')} {shortened(each.text)}"
            for name, each in decision.results.items()
        )
    else:
        text = shortened(decision.text)
    marks = ", ".join(dict.fromkeys(each.status for each in decision.sources))
    return f"{text}  [{marks}]" if marks else text


def brief_operations(plan: Plan, audience: str) -> Lines:
    """List the steps in working order: number, what, where, hours, and who must sign."""
    if not plan.operations:
        return []
    lines = heading("Operations in working order", "=")
    lines += wrapped("Targets, reasons and cautions of each: --only operations, or why NAME.")
    lines += wrapped(", ".join(plan.schedule.can_start_now) or "nothing", "", "Can start now: ")
    lines.append("")
    for step in plan.operations:
        lines += _step(step, audience)
    return lines


def _step(step: Step, audience: str) -> Lines:
    name = step.title if audience == "customer" else f"{step.id}: {step.title}"
    low, _, high = step.hours
    where = f" ({', '.join(step.where)})" if step.where else ""
    text = f"{step.step:>3}. {name}{where}; {step.lane}, {low:g} to {high:g} h"
    words = [
        word
        for word, holds in (
            (f"DONE {step.done}", bool(step.done)),
            ("PERHAPS", step.perhaps),
            ("OPTION", step.optional),
            ("HOLD", bool(step.hold)),
        )
        if holds
    ]
    return marked(text, " ".join(words), "     ")


def brief_parts(plan: Plan, _: str) -> Lines:
    """List what is bought: how many, which, whether to order now."""
    if not plan.parts:
        return []
    lines = heading("Parts", "=")
    lines += wrapped("What each must have, prices and lead times: --only parts, --format csv.")
    for part in plan.parts:
        lines += marked(_part(part), f"{'PERHAPS ' if part.perhaps else ''}{part.order.upper()}")
    return lines


def _part(part: Part) -> str:
    grade = part.grade or " or ".join(part.could_be)
    return f"{part.quantity:>3} x {part.title}{f': {grade}' if grade else ''}"


def brief_cost(plan: Plan, _: str) -> Lines:
    """Tell the three totals and what each option would add."""
    cost = plan.cost
    if cost is None:
        return []
    lines = heading("Cost", "=")
    lines += wrapped("Every line, what is excluded, and the approval: --only cost.")
    lines += wrapped(_totals(cost), "", "In all: ")
    for each in cost.options:
        lines += wrapped(
            f"{money(each.low)} to {money(each.high)} {cost.currency}", "  ", f"- {each.title}: "
        )
    return lines


def _totals(cost: Cost) -> str:
    return (
        f"{money(cost.low)} at the least, {money(cost.likely)} likely, "
        f"{money(cost.high)} at the most, {cost.currency}, tax included  [demo rates]"
    )


def brief_schedule(plan: Plan, _: str) -> Lines:
    """Tell the working days and the chain that sets them."""
    schedule = plan.schedule
    if schedule.working_days is None:
        return []
    low, high = schedule.working_days
    lines = heading("Schedule", "=")
    lines += wrapped(
        f"{low} to {high} working days, likely {schedule.working_days_likely}. Who works on what "
        "and when: --only schedule."
    )
    if schedule.text:
        lines += wrapped(schedule.text)
    chain = " > ".join(each.replace("_", " ") for each in schedule.critical_path)
    return lines + wrapped(chain, "", "Set by: ")


def more(plan: Plan) -> Lines:
    """Say how to read on."""
    text = (
        f"{counted(len(plan.decisions), 'decision')} and "
        f"{counted(len(plan.operations), 'operation')} in full: --full. One of them: why NAME."
    )
    return ["", "-" * WIDTH, *wrapped(text)]
