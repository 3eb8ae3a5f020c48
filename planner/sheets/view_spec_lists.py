"""Lists of the build specification: further figures, parts, findings, what is not known."""

from planner.models.groups import HEADLINES
from planner.models.plan import Cause, Plan
from planner.models.steps import Part
from planner.sheets.decisions import also_worked_out
from planner.sheets.letters import clean
from planner.sheets.view import Block, Choice, Facts, Section, Table, Words
from planner.sheets.view_common import mark_text, value_text


def further(plan: Plan) -> Section:
    """List what the rules worked out besides, by value and status alone."""
    rows = tuple(
        (clean(each.title), value_text(each), each.status, mark_text(each).split(":")[0])
        for each in also_worked_out(plan, frozenset(HEADLINES)).values()
        if each.not_applicable is None
    )
    if not rows:
        return Section(title="Also worked out", blocks=())
    table = Table(
        caption="Figures behind the decisions",
        head=("What", "Value", "Status", "Mark"),
        rows=rows,
        shares=(0.4, 0.34, 0.11, 0.15),
    )
    return Section(title="Also worked out", blocks=(table,))


def parts_to_order(plan: Plan) -> Section:
    """List what to order, and what to hold back."""
    if not plan.parts:
        return Section(title="Parts", blocks=())
    table = Table(
        caption="What to order, and what to hold back",
        head=("Order", "Part", "Pieces", "The order must state", "Days to come", "Price of one"),
        rows=tuple(_part(each) for each in plan.parts),
        shares=(0.09, 0.24, 0.08, 0.36, 0.1, 0.13),
    )
    return Section(title="Parts", blocks=(table,))


def _part(part: Part) -> tuple[str, ...]:
    grade = part.grade.replace("_", " ")
    pieces = str(part.quantity)
    if part.quantity_low != part.quantity:
        pieces = f"{part.quantity_low} to {part.quantity}"
    stated = ", ".join(f"{key.replace('_', ' ')} {text}" for key, text in part.must_have.items())
    days = " to ".join(f"{each:g}" for each in part.lead_days) if part.lead_days else ""
    told = (
        part.order.upper(),
        f"{part.title}: {grade}" if grade else part.title,
        pieces,
        stated or "nothing beside its name",
        days or "not listed",
        " to ".join(part.price) if part.price else "not listed",
    )
    return tuple(clean(each) for each in told)


def found(plan: Plan) -> Section:
    """Tell causes, and findings by gravity."""
    blocks: list[Block] = [*(_cause(each) for each in plan.diagnosis)]
    if plan.findings:
        rows = tuple(
            (
                clean((each.severity or "seen").upper()),
                clean(each.title or each.id),
                clean(each.where or "whole engine"),
                clean(each.evidence.replace("_", " ")),
            )
            for each in sorted(plan.findings, key=lambda each: _rank(each.severity))
        )
        blocks.append(
            Table(
                caption="Findings, the gravest first",
                head=("Verdict", "What", "Where", "Evidence"),
                rows=rows,
                shares=(0.11, 0.31, 0.16, 0.42),
            )
        )
    return Section(title="What the teardown showed", blocks=tuple(blocks))


def _rank(severity: str | None) -> int:
    order = ("stop", "replace", "repair", "watch", "accept")
    return order.index(severity) if severity in order else len(order)


def _cause(each: Cause) -> Choice:
    notes = [("For", text) for text in each.evidence_for]
    notes += [("Against", text) for text in each.against]
    notes += [("Then", each.then)] if each.then else []
    return Choice(
        title=clean(each.cause),
        status=each.confidence,
        value="",
        notes=tuple((label, clean(text)) for label, text in notes),
    )


def unknown(plan: Plan) -> Section:
    """List what is missing and what is assumed."""
    blocks: list[Block] = []
    for due, caption in ((True, "Readings that are due"), (False, "Not known yet")):
        rows = tuple(
            (clean(each.what), clean(each.how) or "ask", str(len(each.blocks)))
            for each in plan.missing
            if each.due == due
        )
        if rows:
            blocks.append(
                Table(
                    caption=caption,
                    head=("What", "How", "Waiting for it"),
                    rows=rows,
                    shares=(0.36, 0.5, 0.14),
                    right=(2,),
                )
            )
    if plan.assumptions:
        rows_said = tuple(
            (clean(each.name.replace("_", " ")), clean(f"{each.text}; {each.because}"))
            for each in plan.assumptions
        )
        blocks += [
            Words(text="Assumed, because nobody said", look="strong"),
            Facts(rows=rows_said),
        ]
    return Section(title="What is not known", blocks=tuple(blocks))
