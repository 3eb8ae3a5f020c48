"""The money part of the customer's sheet: range, options, what may change it, approval."""

from planner.models.cost import Cost, OptionPrice
from planner.models.plan import Plan
from planner.sheets.letters import clean
from planner.sheets.pictures.cost_range import lots_of, money
from planner.sheets.view import Block, Facts, Points, Section, Signing, Table, Words
from planner.sheets.view_common import reason_text
from planner.sheets.view_pictures import cost_pictures

_STATES = {
    "leave": "not needed; we would leave it",
    "offer": "worth thinking about",
    "included": "in the price",
}


def dated(day: str) -> str:
    """Leave a line to write on where the job gives no date."""
    return day if day[:1].isdigit() else "____________"


def price(plan: Plan) -> Section:
    """Say what it may cost: the range, and the lots that make it up."""
    cost = plan.cost
    if cost is None:
        return Section(title="What it may cost", blocks=())
    rows = [
        (lot.title, money(lot.low), money(lot.likely), money(lot.high)) for lot in lots_of(cost)
    ]
    total = ("Whole job", money(cost.low), money(cost.likely), money(cost.high))
    table = Table(
        caption=f"In {clean(cost.currency)}, each part with its share of the range",
        head=("Part", "Low", "Likely", "High"),
        rows=(*rows, total),
        shares=(0.49, 0.17, 0.17, 0.17),
        right=(1, 2, 3),
        total=True,
    )
    blocks: list[Block] = [*cost_pictures(plan), table]
    if cost.budget and cost.budget.text:
        blocks.append(Words(label="Against your budget", text=clean(cost.budget.text)))
    if plan.schedule.text:
        blocks.append(Words(label="Time", text=clean(plan.schedule.text)))
    return Section(title="What it may cost", blocks=tuple(blocks))


def options(plan: Plan) -> Section:
    """List the owner's choices, each with its benefit and its price."""
    if plan.cost is None or not plan.cost.options:
        return Section(title="Options", blocks=())
    table = Table(
        caption="Choices of yours, priced apart",
        head=("Option", "What it gives", "Our advice", f"Adds, {plan.cost.currency}", "Yes / no"),
        rows=tuple(_option(each, plan) for each in plan.cost.options),
        shares=(0.2, 0.38, 0.15, 0.16, 0.11),
        blank=(4,),
    )
    return Section(title="Options", blocks=(table,))


def _option(each: OptionPrice, plan: Plan) -> tuple[str, ...]:
    decision = plan.decisions.get(each.id)
    benefit = reason_text(decision, "customer") if decision else ""
    return (
        clean(each.title),
        benefit,
        _STATES.get(each.state, clean(each.state)),
        f"{money(each.low)} to {money(each.high)}",
        "",
    )


def may_change(plan: Plan) -> Section:
    """Say what could change the price, and what is not in it."""
    cost = plan.cost
    blocks: list[Block] = []
    if cost and cost.approvals:
        lines = tuple(
            clean(f"{each.what}: up to {money(each.high)} {cost.currency} more")
            for each in cost.approvals
        )
        blocks += [Words(text="Each is told to you and waits for your word:"), Points(lines=lines)]
    due = [clean(each.what) for each in plan.missing if each.due]
    if due:
        blocks += [Words(text="Not measured yet, so not settled:"), Points(lines=tuple(due))]
    perhaps = [clean(each.title) for each in plan.operations if each.perhaps]
    if perhaps:
        blocks += [
            Words(text="Work that may turn out to be needed:"),
            Points(lines=tuple(perhaps)),
        ]
    if cost and cost.not_priced:
        blocks += [
            Words(text="Not priced yet, so the total is too low:"),
            Points(lines=tuple(clean(each) for each in cost.not_priced)),
        ]
    if cost and cost.excluded:
        blocks += [
            Words(text="Not in the price:"),
            Points(lines=tuple(clean(each) for each in cost.excluded)),
        ]
    return Section(title="What could change the price", blocks=tuple(blocks))


def to_decide(plan: Plan) -> Section:
    """Ask what the owner must decide, with the ways out to tick."""
    blocks: list[Block] = []
    for each in plan.conflicts:
        blocks.append(Words(text=clean(each.text)))
        if each.ways_out:
            blocks.append(Points(lines=tuple(clean(way) for way in each.ways_out), boxes=True))
    return Section(title="What you must decide", blocks=tuple(blocks))


def approval(plan: Plan) -> Section:
    """Give the quote's head again, and lines to sign on."""
    cost = plan.cost
    blocks: list[Block] = []
    if cost and cost.quote:
        blocks.append(Facts(rows=_quote(cost)))
        blocks.append(Words(text=clean(cost.quote.approval)))
    blocks.append(Signing(lines=("Customer's name", "Signature", "Date")))
    blocks.append(Signing(lines=("For the shop", "Signature", "Date")))
    return Section(title="Approval", blocks=tuple(blocks))


def _quote(cost: Cost) -> tuple[tuple[str, str], ...]:
    head = cost.quote
    if head is None:
        return ()
    rows = (
        ("Quote", head.number),
        ("Date", dated(head.date)),
        ("Valid until", dated(head.valid_until)),
        ("Deposit", f"{money(head.deposit)} {cost.currency}"),
        ("Tax", head.tax),
    )
    return tuple((name, clean(text)) for name, text in rows)
