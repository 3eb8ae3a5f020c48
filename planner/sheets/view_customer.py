"""The customer's scope sheet: what was found, what is proposed and why, what it may cost."""

from collections.abc import Iterable

from planner.models.plan import Plan
from planner.models.steps import CautionDoc
from planner.planning.standing import standing_cautions
from planner.sheets.letters import clean
from planner.sheets.photos import photos_of
from planner.sheets.trade_words import words_in
from planner.sheets.view import (
    Block,
    Choice,
    Section,
    Sheet,
    Table,
    Words,
    as_data,
)
from planner.sheets.view_common import cautions, reason_text, value_text
from planner.sheets.view_material import Material
from planner.sheets.view_pictures import bore_pictures
from planner.sheets.view_price import approval, dated, may_change, options, price, to_decide

_LEAD = (
    "What we found in your engine, what we propose and why, and what it may cost. Nobody promises "
    "power or a length of life here. Words of the trade are explained at the end."
)
_PROPOSED = (
    "block_route",
    "bore_oversize",
    "torque_plate",
    "bore_finish",
    "piston_alloy",
    "piston_to_wall",
    "top_ring_gap",
    "pin_grade",
    "compression_ratio",
    "crank_route",
    "main_bearing_clearance",
    "cap_and_brace",
    "rod_grade",
    "rod_bolt_preload",
    "head_route",
    "exhaust_valve",
    "seat_profile",
    "oil_system",
    "expected_power",
    "knock_margin",
)
_VERDICTS = {
    "stop": "stops the job until it is settled",
    "replace": "cannot be used again",
    "repair": "is put right by machining",
    "watch": "good enough; we keep an eye on it",
    "accept": "good",
}


def customer(material: Material) -> Sheet:
    """Make the customer's scope sheet."""
    plan = material.plan
    sections = [
        _found(material),
        _proposed(plan),
        price(plan),
        options(plan),
        may_change(plan),
        to_decide(plan),
        approval(plan),
        Section(title="Please know", blocks=cautions(_concerning())),
    ]
    filled = tuple(each for each in sections if each.blocks)
    return Sheet(
        name="customer",
        title="Scope of work",
        reader="customer",
        lead=_LEAD,
        stamp=material.stamp,
        facts=_facts(plan),
        sections=filled,
        words=words_in(_texts(as_data(each) for each in filled)),
    )


def _texts(data: Iterable[object]) -> Iterable[str]:
    """Go through every text of some blocks, but for drawings and photographs."""
    for each in data:
        if isinstance(each, str):
            yield each
        elif isinstance(each, dict):
            hidden = ("light", "dark", "data")
            yield from _texts(value for key, value in each.items() if key not in hidden)
        elif isinstance(each, list):
            yield from _texts(each)


def _facts(plan: Plan) -> tuple[tuple[str, str], ...]:
    job, quote = plan.job, plan.cost.quote if plan.cost else None
    rows = [
        ("Job", job.name),
        ("Reference", job.reference),
        ("Engine", job.engine),
        ("What you told us", job.complaint),
        ("Your budget", job.budget),
        ("Quote number", quote.number if quote else ""),
        ("Date", dated(quote.date) if quote else ""),
        ("Valid until", dated(quote.valid_until) if quote else ""),
    ]
    return tuple((name, clean(text)) for name, text in rows if text)


def _found(material: Material) -> Section:
    plan = material.plan
    rows = []
    by_title: dict[tuple[str, str], list[str]] = {}
    for each in plan.findings:
        verdict = _VERDICTS.get(each.severity or "", "seen")
        by_title.setdefault((verdict, each.title or each.id), []).append(each.where)
    order = [*_VERDICTS.values(), "seen"]
    for (verdict, title), places in sorted(
        by_title.items(), key=lambda item: order.index(item[0][0])
    ):
        where = ", ".join(dict.fromkeys(place for place in places if place))
        rows.append((clean(title), clean(where or "whole engine"), verdict))
    blocks: list[Block] = [
        Words(label=each.confidence.capitalize(), text=clean(f"{each.cause}. {each.then}"))
        for each in plan.diagnosis
    ]
    blocks += bore_pictures(material, worst_only=True)
    if rows:
        blocks.append(
            Table(
                caption="What we looked at, and what becomes of it",
                head=("Part", "Where", "So it"),
                rows=tuple(rows),
                shares=(0.44, 0.28, 0.28),
            )
        )
    blocks += photos_of(material.findings, material.folder)
    return Section(title="What we found", blocks=tuple(blocks))


def _proposed(plan: Plan) -> Section:
    told: set[str] = set()
    blocks: list[Block] = []
    for name in _PROPOSED:
        decision = plan.decisions.get(name)
        if decision is None or decision.not_applicable is not None:
            continue
        reason = decision.because.get("customer", "")
        if not reason or reason in told:
            continue
        told.add(reason)
        blocks.append(
            Choice(
                title=clean(decision.title),
                status=decision.status,
                value=value_text(decision),
                given=decision.given,
                notes=(("Why", reason_text(decision, "customer")),),
            )
        )
    return Section(title="What we propose, and why", blocks=tuple(blocks))


_WORKSHOP = (
    "Lifting",
    "Rotating machines",
    "Hot caustic",
    "Magnetic-particle",
    "Dust",
    "Compressed",
)


def _concerning() -> list[CautionDoc]:
    """Choose the cautions that an owner can act on: the standing ones, but for the workshop's."""
    return [each for each in standing_cautions() if not each.text.startswith(_WORKSHOP)]
