"""The build specification: every decision with its range, mark, evidence and what it rests on."""

from collections import Counter
from collections.abc import Callable, Mapping

from planner.models.groups import GROUPS, HEADLINES
from planner.models.plan import DecisionDoc, Evidence, Plan
from planner.sheets.layout import shortened
from planner.sheets.letters import clean
from planner.sheets.view import Block, Choice, Points, Section, Sheet, Words
from planner.sheets.view_common import (
    LEGEND,
    cautions,
    mark_text,
    reason_text,
    value_text,
)
from planner.sheets.view_material import Material
from planner.sheets.view_pictures import (
    bore_pictures,
    clearance_pictures,
    knock_pictures,
    shell_pictures,
)
from planner.sheets.view_spec_lists import found, further, parts_to_order, unknown

_MOST_PASSED_OVER = 3
_PICTURES: dict[str, tuple[Callable[[Material], tuple[Block, ...]], ...]] = {
    "Ratio, pressure and power": (knock_pictures,),
    "Block": (bore_pictures,),
    "Bearings and oil": (clearance_pictures, shell_pictures),
}


def specification(material: Material) -> Sheet:
    """Make the build specification, for the builder."""
    plan = material.plan
    sections = [
        _open_points(plan),
        *_groups(material),
        further(plan),
        parts_to_order(plan),
        found(plan),
        unknown(plan),
        Section(title="Cautions", blocks=cautions(plan.cautions)),
    ]
    return Sheet(
        name="specification",
        title="Build specification",
        reader="builder",
        lead=LEGEND,
        stamp=material.stamp,
        facts=head_facts(plan),
        sections=tuple(each for each in sections if each.blocks),
    )


def head_facts(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Name job, engine and stage."""
    job = plan.job
    counts = Counter(plan.decisions[name].status for name in HEADLINES if name in plan.decisions)
    told = ", ".join(f"{number} {word}" for word, number in sorted(counts.items()))
    rows = [
        ("Job", job.name),
        ("Reference", job.reference),
        ("Engine", job.engine),
        ("Stage", f"{job.stage}: {job.stage_because}"),
        ("Decisions", told),
        ("Complaint", job.complaint),
        ("Budget", job.budget),
        ("Deadline", job.deadline),
    ]
    return tuple((name, clean(text)) for name, text in rows if text)


def _open_points(plan: Plan) -> Section:
    blocks: list[Block] = [
        Words(label="To confirm", text=clean(f"{each.text} {each.fix}")) for each in plan.questions
    ]
    for conflict in plan.conflicts:
        about = " / ".join(conflict.between)
        blocks.append(
            Words(label=f"Pulls apart: {clean(about)}", text=clean(shortened(conflict.text)))
        )
        if conflict.ways_out:
            blocks.append(Points(lines=tuple(clean(each) for each in conflict.ways_out)))
    return Section(title="To settle first", blocks=tuple(blocks))


def _groups(material: Material) -> list[Section]:
    told: dict[str, str] = {}
    decisions = material.plan.decisions
    missing = {each.name: each.what for each in material.plan.missing}
    sections = []
    for title, names in GROUPS:
        blocks: list[Block] = [
            choice(decisions[name], told, missing) for name in names if name in decisions
        ]
        drawn = [each for draw in _PICTURES.get(title, ()) for each in draw(material)]
        sections.append(Section(title=title, blocks=(*drawn, *blocks)))
    return sections


def choice(decision: DecisionDoc, told: dict[str, str], missing: Mapping[str, str]) -> Choice:
    """Tell one decision; a reason or caution that stands above already is pointed to."""
    notes = [(_voice_name(each), _voice(each)) for each in decision.evidence]
    if len(decision.evidence) > 1 and decision.governed_because:
        notes.append(("Which governs", clean(decision.governed_because)))
    notes += _passed_over(decision)
    reason = reason_text(decision, "builder")
    if reason:
        above = told.setdefault(reason, decision.title)
        same = above == decision.title
        notes.append(("Why", reason if same else f"as for: {above}"))
    notes += _unsettled(decision, missing)
    new = tuple(
        each
        for each in cautions(decision.cautions)
        if told.setdefault(f"caution {each.text}", decision.title) == decision.title
    )
    return Choice(
        title=clean(decision.title),
        status=decision.status,
        value=value_text(decision),
        mark=mark_text(decision),
        given=decision.given,
        notes=tuple((label, text) for label, text in notes if text),
        cautions=new,
    )


def _voice_name(each: Evidence) -> str:
    name = each.name[:1].upper() + each.name[1:]
    return clean(f"{name}, governs" if each.governs else name)


def _voice(each: Evidence) -> str:
    kind = "" if each.name.endswith(each.kind) else f", {each.kind}"
    mark = f"[{each.source}{kind}]" if each.source else f"[{each.kind}]"
    outside = " (outside its range)" if each.outside_range else ""
    said = shortened(each.text or f"refused: {each.refused}")
    return clean(f"{said}{outside} {mark}")


def _passed_over(decision: DecisionDoc) -> list[tuple[str, str]]:
    told = [
        f"{each.choice.replace('_', ' ')} fails “{each.failed}” ({each.why})"
        for each in decision.rejected[:_MOST_PASSED_OVER]
    ]
    rest = len(decision.rejected) - len(told)
    if rest > 0:
        told.append(f"{rest} more fail too")
    return [("Passed over", clean("; ".join(told)))] if told else []


def _unsettled(decision: DecisionDoc, missing: Mapping[str, str]) -> list[tuple[str, str]]:
    notes = []
    if decision.refused:
        notes.append(("Refused", clean(decision.refused)))
    if decision.waiting_for:
        names = [missing.get(each, each.replace("_", " ")) for each in decision.waiting_for]
        notes.append(("Waits for", clean("; ".join(names))))
    if decision.status == "provisional" and decision.assumed:
        rests = [
            text if name == text else f"{name.replace('_', ' ')} taken as {text}"
            for name, text in decision.assumed.items()
        ]
        notes.append(("Rests on", clean("; ".join(rests))))
    return notes
