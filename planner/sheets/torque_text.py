"""The torque and stretch sheet, and first start and break-in, as text."""

from itertools import groupby

from planner.models.plan import Plan
from planner.models.work import RunInStep, TorqueLine
from planner.sheets.layout import Lines, boxed, heading, wrapped

_PHASES = {
    "before_start": "Before the first start",
    "first_start": "First start",
    "first_drive": "First drive",
    "break_in": "Break-in",
}


def torque_lines(plan: Plan, audience: str) -> Lines:
    """Tell which fasteners are tightened how, and which are blocked.

    Parameters
    ----------
    plan
        The plan document.
    audience
        The customer does not read it.

    Returns
    -------
    list of str
        Lines; none when the plan tightens nothing.
    """
    if not plan.torque_sheet or audience == "customer":
        return []
    lines = heading("Torque and stretch sheet", "=")
    lines += wrapped(
        "The figure to tighten to comes from the fastener maker and is typed in by you. Ours are "
        "only there to question a typed one with."
    )
    for each in plan.torque_sheet:
        lines += _line(each)
    return lines


def _line(each: TorqueLine) -> Lines:
    title = f"{each.title}: {each.grade}" if each.grade else each.title
    lines = ["", *wrapped(f"{title}  [{each.source}]")]
    if each.blocked:
        lines += boxed("BLOCKED", each.blocked.removeprefix("BLOCKED: "), "    ")
    else:
        lines += wrapped(f"{each.value}  ({each.origin})", "    ", "value: ")
    for lead, text in (
        ("lubricant: ", each.lubricant),
        ("sequence: ", each.sequence),
        ("method: ", each.method),
        ("at: ", ", ".join(each.tightened_at)),
        ("ours: ", "; ".join(f"{k.replace('_', ' ')} {v}" for k, v in each.ours.items())),
    ):
        lines += wrapped(text, "    ", lead) if text else []
    return lines


def run_in_lines(plan: Plan, _: str) -> Lines:
    """Tell first start and break-in step by step."""
    if not plan.run_in:
        return []
    lines = heading("First start and break-in", "=")
    for phase, steps in groupby(plan.run_in, key=lambda each: each.phase):
        lines += ["", _PHASES.get(phase, phase)]
        for each in steps:
            lines += _step(each)
    return lines


def _step(each: RunInStep) -> Lines:
    may = "May apply: " if each.may_apply else ""
    lines = wrapped(f"{may}{each.text}  [{each.source}]", "  ", f"{each.number} ")
    if each.caution:
        lines += wrapped(each.caution, "     ", "WARNING: ")
    return lines
