"""The first start and break-in sheet: before firing, the first minutes, the first weeks."""

from itertools import groupby

from planner.models.plan import Plan
from planner.models.work import RunInStep
from planner.sheets.letters import clean
from planner.sheets.view import Block, Caution, Form, Points, Section, Sheet, Signing
from planner.sheets.view_common import cautions
from planner.sheets.view_material import Material
from planner.sheets.view_route import task
from planner.sheets.view_spec import head_facts

_HOW = (
    "One person at the switch who does nothing else. No oil pressure five seconds after it fires: "
    "stop. Any knock, squeal, leak or smell of fuel: stop. The engine, piston and ring makers' "
    "own sheets win over this one."
)
_PHASES = {
    "before_start": "Before the first start",
    "first_start": "First start",
    "first_drive": "First drive",
    "break_in": "Break-in",
}
_LOG = ("time", "speed", "oil pressure", "oil temp", "coolant temp", "fuel pressure", "remark")
_LANE = "commissioning"


def first_start(material: Material) -> Sheet:
    """Make the first start and break-in sheet."""
    plan = material.plan
    sections = [_phase(name, list(some)) for name, some in groupby(plan.run_in, key=_phase_of)]
    return Sheet(
        name="first-start",
        title="First start and break-in",
        reader="machinist",
        lead=_HOW,
        stamp=material.stamp,
        facts=head_facts(plan)[:3],
        sections=(*sections, _log(), *_commissioning(material, plan)),
    )


def _phase_of(step: RunInStep) -> str:
    return step.phase


def _phase(name: str, steps: list[RunInStep]) -> Section:
    blocks: list[Block] = []
    for step in steps:
        if step.caution:
            blocks.append(Caution(severity="warning", text=clean(step.caution)))
        may = "May apply: " if step.may_apply else ""
        blocks.append(Points(lines=(clean(f"{may}{step.text}"),), boxes=True))
    return Section(title=_PHASES.get(name, name.replace("_", " ")), blocks=tuple(blocks))


def _log() -> Section:
    form = Form(
        title="Readings",
        how="Every five minutes for the first half hour, then at each stop.",
        columns=_LOG,
        rows=tuple(str(number) for number in range(1, 13)),
    )
    signing = Signing(lines=("Run by", "Second person", "Date", "Fuel and oil in it"))
    return Section(title="Log of the first run", blocks=(form, signing), new_page=True)


def _commissioning(material: Material, plan: Plan) -> list[Section]:
    numbers = {each.id: each.step for each in plan.operations}
    mine = [each for each in plan.operations if each.lane == _LANE]
    if not mine:
        return []
    fire = tuple(each for each in cautions(plan.cautions) if each.severity == "danger")
    tasks = tuple(task(each, numbers, material) for each in mine)
    return [Section(title="Steps to sign", blocks=(*fire, *tasks), new_page=True)]
