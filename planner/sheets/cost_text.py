"""The quote as text: three columns that add up, what is apart, what is not in it."""

from collections.abc import Iterable, Sequence
from decimal import Decimal

from planner.models.cost import Cost, CostLine, OptionPrice
from planner.models.plan import Plan
from planner.sheets.layout import WIDTH, Lines, heading, table, wrapped

_MONEY = 12
_SIGNATURE = "Agreed: ______________________________  Date: ______________"
_LABEL = WIDTH - 3 * _MONEY
_KINDS = {
    "work": "Work",
    "outside": "Outside service",
    "part": "Parts",
    "risk": "If it goes wrong",
    "tax": "Tax",
}
_STATES = {"included": "in the price", "leave": "not needed", "offer": "offered"}


def cost_lines(plan: Plan, audience: str) -> Lines:
    """Tell the price of a plan.

    Parameters
    ----------
    plan
        The plan document.
    audience
        The customer reads one line for each lane and one for the parts, the builder every line,
        the machinist none.

    Returns
    -------
    list of str
        Lines; none when the plan has no price.
    """
    cost = plan.cost
    if cost is None or audience == "machinist":
        return []
    lines = [*heading("Quote", "="), *_head(cost), "", *_columns(cost, audience)]
    lines += [*wrapped(cost.says), *_how(cost), *_budget(cost), *_apart(cost), *_extras(cost)]
    lines += _listed("Not in the price", cost.excluded)
    lines += _listed("NOT PRICED, so the totals are too low", cost.not_priced)
    if cost.quote is not None:
        lines += ["", *wrapped(cost.quote.approval), "", _SIGNATURE]
    return lines


def money(amount: str) -> str:
    """Print a sum with its thousands marked.

    Examples
    --------
    >>> money("15111.98"), money("-0.50")
    ('15,111.98', '-0.50')
    """
    return f"{Decimal(amount):,f}"


def _head(cost: Cost) -> Lines:
    head = cost.quote
    if head is None:
        return []
    return table(
        [
            ("Number", head.number),
            ("Date", head.date),
            ("Valid until", head.valid_until),
            ("Deposit", f"{money(head.deposit)} {cost.currency}"),
            ("Tax", head.tax),
        ]
    )


def _columns(cost: Cost, audience: str) -> Lines:
    lines = [_row(f"in {cost.currency}", "low", "likely", "high"), "-" * WIDTH]
    for kind, name in _KINDS.items():
        mine = [line for line in cost.lines if line.kind == kind]
        if not mine:
            continue
        if audience == "customer":
            lines += _groups(name, mine)
        else:
            lines += _each(name, mine)
    total = _row("TOTAL", money(cost.low), money(cost.likely), money(cost.high))
    return [*lines, "-" * WIDTH, total, ""]


def _groups(name: str, mine: Sequence[CostLine]) -> Lines:
    """One line for each lane, in the order they come up."""
    lanes = dict.fromkeys(line.group for line in mine)
    found: Lines = []
    for lane in lanes:
        some = [line for line in mine if line.group == lane]
        label = f"{name}: {lane}" if len(lanes) > 1 else name
        found.append(_sum_row(label, some))
    return found


def _each(name: str, mine: Sequence[CostLine]) -> Lines:
    lines: Lines = []
    for lane in dict.fromkeys(line.group for line in mine):
        some = [line for line in mine if line.group == lane]
        lines.append(name if _one_group(mine) else f"{name}: {lane}")
        for line in some:
            label = f"{line.id.replace('_', ' ')}{'?' if line.perhaps else ''}"
            texts = wrapped(label, "  ")
            lines += texts[:-1]
            lines.append(_row(texts[-1], money(line.low), money(line.likely), money(line.high)))
            told = ", ".join(filter(None, (line.quantity, line.rate)))
            if told:
                lines.append(f"      {told}")
    return lines


def _one_group(mine: Sequence[CostLine]) -> bool:
    # A kind whose lines stand in one group does not name it again.
    return len({line.group for line in mine}) == 1


def _sum_row(label: str, some: Iterable[CostLine]) -> str:
    sums = [Decimal(0)] * 3
    for line in some:
        for place, amount in enumerate((line.low, line.likely, line.high)):
            sums[place] += Decimal(amount)
    return _row(label, *(f"{each:,f}" for each in sums))


def _row(label: str, low: str, likely: str, high: str) -> str:
    """Set a label and three sums; a label that is too long stands on a line of its own."""
    sums = f"{low:>{_MONEY}}{likely:>{_MONEY}}{high:>{_MONEY}}"
    if len(label) > _LABEL - 1:
        return f"{label}\n{'':<{_LABEL}}{sums}"
    return f"{label:<{_LABEL}}{sums}"


def _how(cost: Cost) -> Lines:
    return wrapped(
        f"Worked out in {cost.trials} trials by chance, seed {cost.seed}; the same job gives the "
        f"same figures. Rates, prices and chances are the shop's own ({_mark(cost)})."
    )


def _mark(cost: Cost) -> str:
    return ", ".join(dict.fromkeys(line.source for line in cost.lines if line.source))


def _budget(cost: Cost) -> Lines:
    verdict = cost.budget
    if verdict is None:
        return []
    lines = ["", *wrapped(verdict.text, "", "Budget: ")]
    for cut in verdict.cut_first:
        lines += wrapped(f"{cut.what} ({cut.says}), saves {money(cut.saves)}", "  ", "cut first: ")
    if verdict.state == "over":
        lines += wrapped(", ".join(verdict.never), "  ", "never cut: ")
    return lines


def _apart(cost: Cost) -> Lines:
    if not cost.options:
        return []
    lines = ["", "Options, priced apart:"]
    for each in cost.options:
        lines += wrapped(_option(each, cost.currency), "  ", "- ")
    return lines


def _option(each: OptionPrice, currency: str) -> str:
    state = _STATES.get(each.state, each.state)
    return f"{each.title} ({state}): {money(each.low)} to {money(each.high)} {currency}"


def _extras(cost: Cost) -> Lines:
    told = [f"{each.what}: up to {money(each.high)} {cost.currency}" for each in cost.approvals]
    return _listed("Told first, and done only when signed for", told)


def _listed(title: str, texts: Iterable[str]) -> Lines:
    lines = [line for text in texts for line in wrapped(text, "  ", "- ")]
    return ["", f"{title}:", *lines] if lines else []
