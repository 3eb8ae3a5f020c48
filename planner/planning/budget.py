"""A price held against what the owner will spend: what could go first, and what never goes."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from decimal import Decimal

from planner.models.cost import BudgetVerdict, CostLine, Cut
from planner.models.job import Budget
from planner.planning.shop_data import CutRow, Shop

ZERO = Decimal(0)


def held_against(
    budget: Budget | None, totals: tuple[str, str, str], lines: Sequence[CostLine], shop: Shop
) -> BudgetVerdict:
    """Hold a price against a budget.

    Parameters
    ----------
    budget
        What the owner will spend.
    totals
        Low, likely and high total.
    lines
        Lines of the quote.
    shop
        Says what is cut first and what never is.

    Returns
    -------
    BudgetVerdict
        With what could be cut when the likely total is above it, looks first.
    """
    never = _never(shop.cuts)
    if budget is None or not budget.high:
        return BudgetVerdict(state="no budget", never=never, text="No budget was named.")
    if budget.currency and budget.currency != shop.currency:
        text = f"The budget is in {budget.currency}, the quote in {shop.currency}: not compared."
        return BudgetVerdict(state="no budget", never=never, text=text)
    low, likely, high = (Decimal(each) for each in totals)
    most = Decimal(budget.high)
    verdict = BudgetVerdict(state="", low=budget.low, high=budget.high, never=never)
    if high <= most:
        return replace(verdict, state="inside", text="The whole range is inside the budget.")
    if likely <= most:
        text = f"Likely inside the budget of {most:,f}; it can come to {high - most:,.2f} more."
        return replace(verdict, state="perhaps over", text=text)
    return _over(verdict, low, likely - most, _cuts(shop.cuts, lines))


def _over(
    verdict: BudgetVerdict, low: Decimal, short: Decimal, cuts: tuple[Cut, ...]
) -> BudgetVerdict:
    saved = sum((Decimal(each.saves) for each in cuts), ZERO)
    most = Decimal(verdict.high)
    text = f"Likely {short:,.2f} above the budget of {most:,f}."
    if low > most:
        text += f" Even the low end is {low - most:,.2f} above it."
    if not cuts:
        text += " Nothing in it is there for looks or as an extra, so there is nothing to cut."
    elif saved < short:
        text += f" All that may be cut saves {saved:,.2f}, which is not enough."
    if saved < short:
        text += " Raise the budget or lower the goals; what keeps it alive is not cut."
    return replace(
        verdict,
        state="over",
        over_by=f"{short:f}",
        cut_first=cuts,
        after_cuts=f"{most + short - saved:f}",
        text=text,
    )


def _never(rows: Iterable[CutRow]) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for row in rows:
        if row.rank is None:
            found[row.says] = (*found.get(row.says, ()), row.id)
    return found


def _cuts(rows: Iterable[CutRow], lines: Sequence[CostLine]) -> tuple[Cut, ...]:
    """List what is in the plan and may go, first things first."""
    ranked = sorted((row for row in rows if row.rank is not None), key=lambda row: row.rank or 0)
    found = []
    for row in ranked:
        mine = [line for line in lines if line.id in (row.id, f"{row.id} outside")]
        saves = sum((Decimal(line.likely) for line in mine), ZERO)
        if saves > 0:
            found.append(Cut(id=row.id, what=mine[0].what, saves=f"{saves:f}", says=row.says))
    return tuple(found)
