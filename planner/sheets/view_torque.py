"""The torque and stretch sheet: what is tightened how, with boxes for what was reached."""

from planner.models.work import TorqueLine
from planner.sheets.letters import clean
from planner.sheets.view import Block, Facts, Form, Hold, Section, Sheet, Signing
from planner.sheets.view_material import Material
from planner.sheets.view_spec import head_facts

_HOW = (
    "The figure to tighten to is the fastener maker's, typed into the job or written in here from "
    "the maker's own sheet. Ours only question it. Same lubricant, same sequence, same wrench "
    "each time. Where both are measured, stretch decides and torque checks it."
)
_BLOCKED = (
    "No figure from the maker yet. Do not tighten the {fasteners} for good until it stands here, "
    "taken from the maker's own sheet."
)
_STEPS = ("first step", "second step", "third step", "final")
_BOLTS_OF_A_ROD = ("bolt 1", "bolt 2")


def torque(material: Material) -> Sheet:
    """Make the torque and stretch sheet."""
    plan = material.plan
    steps = {each.id: f"{each.step} {each.id.replace('_', ' ')}" for each in plan.operations}
    sections = [_fastener(each, steps, material) for each in plan.torque_sheet]
    return Sheet(
        name="torque",
        title="Torque and stretch sheet",
        reader="machinist",
        lead=_HOW,
        stamp=material.stamp,
        facts=head_facts(plan)[:3],
        sections=tuple(sections),
    )


def _fastener(line: TorqueLine, steps: dict[str, str], material: Material) -> Section:
    at = [steps[each] for each in line.tightened_at if each in steps]
    ours = (f"{name.replace('_', ' ')} {value}" for name, value in line.ours.items())
    rows = [
        ("Fasteners", line.grade.replace("_", " ")),
        ("Maker's figure", f"{line.value} ({line.origin})" if line.value else ""),
        ("Lubricant", line.lubricant),
        ("Sequence", line.sequence),
        ("Method", line.method),
        ("Tightened at steps", ", ".join(at)),
        ("Our own figure, to question with", "; ".join(ours)),
    ]
    blocks: list[Block] = [
        Facts(rows=tuple((name, clean(text)) for name, text in rows if text)),
    ]
    if line.blocked:
        blocks += [
            Hold(text=_BLOCKED.format(fasteners=clean(line.title))),
            Form(
                title="Maker's figure",
                columns=("torque", "angle or stretch", "taken from"),
                rows=("to tighten to",),
            ),
        ]
    blocks += [
        _log(line, material),
        Signing(lines=("Tightened by", "Checked by", "Wrench", "Date")),
    ]
    return Section(title=clean(line.title[:1].upper() + line.title[1:]), blocks=tuple(blocks))


def _log(line: TorqueLine, material: Material) -> Form:
    if line.id == "rod_bolts":
        rods = material.sets.get("rod", ())
        return Form(
            title="Bolt by bolt",
            how="Free length before, length when tight; their difference is the stretch.",
            columns=("free length", "tight length", "stretch", "torque seen", "initials"),
            rows=tuple(f"rod {rod}, {bolt}" for rod in rods for bolt in _BOLTS_OF_A_ROD),
            unit="in" if material.system == "inch" else "mm",
        )
    if line.id == "main_fasteners":
        mains = material.sets.get("main", ())
        return Form(
            title="Cap by cap",
            how="Turn the crank after each step; stop when it turns harder.",
            columns=(*_STEPS, "turns freely"),
            rows=tuple(f"main {main}" for main in mains),
        )
    return Form(
        title="Step by step",
        columns=("torque or angle", "all in sequence", "initials"),
        rows=_STEPS,
    )
