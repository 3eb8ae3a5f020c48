"""Operations as text: number, station, hours, reasons, targets and framed hold points."""

from collections.abc import Mapping

from planner.models.plan import Plan
from planner.models.steps import Step, Target
from planner.sheets.decisions import caution_lines
from planner.sheets.layout import Lines, boxed, counted, marked, shortened, wrapped

INDENT = "     "
MANY_TARGET_ITEMS = 12
MANY_FOUND = 3
"""Readings told to a customer; the others stand in the builder's copy."""


def operation_lines(plan: Plan, audience: str) -> Lines:
    """Tell every operation of the plan in working order."""
    numbers = {each.id: each.step for each in plan.operations}
    lines: Lines = []
    for step in plan.operations:
        lines += [*step_lines(step, numbers, audience), ""]
    return lines[:-1]


def route_lines(plan: Plan) -> Lines:
    """Tell the machining order in one paragraph: number and name of every step."""
    told = [f"{each.step} {_short(each)}" for each in plan.operations]
    holds = [str(each.step) for each in plan.operations if each.hold]
    lines = wrapped(" > ".join(told), "    ")
    if holds:
        lines += wrapped(", ".join(holds), "    ", "Hold points at steps: ")
    return lines


def _short(step: Step) -> str:
    name = step.id.replace("_", " ")
    return f"{name}?" if step.perhaps else name


def step_lines(step: Step, numbers: Mapping[str, int], audience: str) -> Lines:
    """Tell one operation to one of the three people."""
    title = step.title if audience == "customer" else f"{step.id}: {step.title}"
    lines = marked(f"{step.step:>3}. {title}", _mark(step), INDENT)
    lines += wrapped(_where(step), INDENT)
    if audience == "customer":
        return lines + _told(step, audience) + _found(step, MANY_FOUND) + _hold(step)
    if step.because:
        lines += wrapped("; ".join(step.because), INDENT, "Called by: ")
    lines += _found(step)
    for earlier, reason in step.after.items():
        lines += wrapped(reason, INDENT, f"After {numbers[earlier]} {earlier}: ")
    for target in step.targets:
        lines += _target(target)
    lines += _hold(step)
    lines += _told(step, audience)
    if step.rework:
        lines += wrapped(step.rework, INDENT, "If it fails: ")
    return lines + caution_lines(step.cautions, INDENT)


def _mark(step: Step) -> str:
    if step.done:
        return f"DONE {step.done}"
    if step.perhaps:
        return "PERHAPS"
    return "OPTION" if step.optional else ""


def _where(step: Step) -> str:
    low, likely, high = step.hours
    place = f"{step.lane}, {step.station}; {low:g} to {high:g} h, likely {likely:g} h"
    return f"{place}; {', '.join(step.where)}" if step.where else place


def _target(target: Target) -> Lines:
    said = shortened(target.text)
    if len(target.per) > MANY_TARGET_ITEMS:
        said = f"{said} ({counted(len(target.per), 'item')})"
    tool = f"  ({target.instrument})" if target.instrument else ""
    status = f"  {target.status.upper()}" if target.status not in ("", "firm") else ""
    lead = f"Target, {target.measure}: " if target.measure else "Target: "
    mark = f" [{target.source}]" if target.source else ""
    return wrapped(f"{said}{mark}{tool}{status}", INDENT, lead)


def _found(step: Step, most: int | None = None) -> Lines:
    """Tell what was read on this engine that calls for the step."""
    told = step.found[:most]
    return wrapped("; ".join(told), INDENT, "Found on this engine: ") if told else []


def _hold(step: Step) -> Lines:
    return boxed("HOLD POINT: sign before going on", step.hold, INDENT) if step.hold else []


def _told(step: Step, audience: str) -> Lines:
    lines: Lines = []
    reason = step.why.get(audience) or step.why.get("customer", "")
    if reason:
        lines += wrapped(reason, INDENT, "Why: ")
    if step.if_skipped:
        lines += wrapped(step.if_skipped, INDENT, "If skipped: ")
    return lines
