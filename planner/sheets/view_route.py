"""The route sheet: ordered steps lane by lane, with targets, boxes, hold points and initials."""

from collections.abc import Mapping

from planner.models.plan import Plan
from planner.models.steps import Step
from planner.sheets.boxes import check_of
from planner.sheets.letters import clean
from planner.sheets.view import Block, Section, Sheet, Table, Task, Words
from planner.sheets.view_common import cautions, first_words
from planner.sheets.view_material import Material
from planner.sheets.view_pictures import operation_pages
from planner.sheets.view_spec import head_facts

_REASON = 150
_HOW = (
    "Steps are numbered in working order for the whole job and stand here lane by lane. Start a "
    "step when all it names as before it is signed. Write each reading into its box before going "
    "on. A black frame is a hold point: stop, show it, have it signed. All sizes at 20 °C."
)


def route(material: Material) -> Sheet:
    """Make the route sheet, for the machinist."""
    plan = material.plan
    return Sheet(
        name="route",
        title="Route sheet",
        reader="machinist",
        lead=_HOW,
        stamp=material.stamp,
        facts=head_facts(plan)[:4],
        sections=(
            _overview(plan),
            Section(title="The way through the shop", blocks=operation_pages(plan), new_page=True),
            *_lanes(material),
        ),
    )


def _overview(plan: Plan) -> Section:
    steps = {each.id: each.step for each in plan.operations}
    holds = [str(each.step) for each in plan.operations if each.hold]
    start = [str(steps[each]) for each in plan.schedule.can_start_now if each in steps]
    rows = tuple(
        (
            lane.capitalize(),
            ", ".join(str(each.step) for each in mine),
            ", ".join(str(each.step) for each in mine if each.hold) or "none",
            f"{sum(each.hours[1] for each in mine):.1f} h",
        )
        for lane, mine in by_lane(plan).items()
    )
    table = Table(
        caption="Lanes and their steps",
        head=("Lane", "Steps", "Hold points", "Likely hours"),
        rows=rows,
        shares=(0.2, 0.42, 0.24, 0.14),
        right=(3,),
    )
    blocks: list[Block] = [
        Words(label="Can start now", text=", ".join(start) or "nothing"),
        Words(label="Hold points", text=", ".join(holds) or "none"),
        table,
    ]
    if plan.schedule.text:
        blocks.append(Words(label="Time", text=clean(plan.schedule.text)))
    return Section(title="At a glance", blocks=tuple(blocks))


def by_lane(plan: Plan) -> dict[str, list[Step]]:
    """Group the operations by lane, lanes in the order they come up."""
    found: dict[str, list[Step]] = {}
    for step in plan.operations:
        found.setdefault(step.lane, []).append(step)
    return found


def _lanes(material: Material) -> list[Section]:
    plan = material.plan
    numbers = {each.id: each.step for each in plan.operations}
    return [
        Section(
            title=f"Lane: {clean(lane)}",
            blocks=tuple(task(each, numbers, material) for each in mine),
            new_page=True,
        )
        for lane, mine in by_lane(plan).items()
    ]


def task(step: Step, numbers: Mapping[str, int], material: Material) -> Task:
    """Tell one operation to the one who does it."""
    low, likely, high = step.hours
    reason = step.why.get("machinist") or step.why.get("customer", "")
    return Task(
        number=step.step,
        title=clean(step.title),
        station=clean(step.station),
        hours=f"{low:g} to {high:g} h, likely {likely:g} h",
        marks=marks(step),
        where=clean(", ".join(step.where)),
        after=_after(step, numbers),
        checks=tuple(check_of(each, step, material.sets) for each in step.targets),
        hold=clean(step.hold),
        why=clean(first_words(reason, _REASON)),
        rework=clean(step.rework.replace("_", " ")),
        cautions=cautions(step.cautions),
    )


def marks(step: Step) -> tuple[str, ...]:
    """Return the words that stand beside the title."""
    told = []
    if step.done:
        told.append(f"done {clean(step.done)}")
    if step.perhaps:
        told.append("perhaps: ask first")
    if step.optional:
        told.append("option")
    return tuple(told)


def _after(step: Step, numbers: Mapping[str, int]) -> str:
    told = [
        f"{numbers[earlier]} {earlier.replace('_', ' ')}"
        for earlier in sorted(step.after, key=lambda each: numbers[each])
    ]
    return clean(", ".join(told))
