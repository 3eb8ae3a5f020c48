"""The price of a build as the plan document carries it: money as text, columns that add up."""

from collections.abc import Mapping
from dataclasses import field

from planner.records import record


@record(kw_only=True, slots=False)
class CostLine:
    """One line of the quote.

    Attributes
    ----------
    kind
        work, outside, part, risk or tax.
    group
        The lane, or what the line stands under.
    low, likely, high
        Its share of the three columns; a column adds up to the total of that column.
    alone
        What the line comes to by itself: at its least, as a rule, and at its most.
    quantity
        Hours, pieces or chance, as printed.
    rate
        Price of one hour or one piece, as printed.
    perhaps
        Whether it is not yet known that it is needed.
    """

    kind: str
    group: str
    id: str
    what: str
    low: str
    likely: str
    high: str
    alone: tuple[str, str, str]
    quantity: str = ""
    rate: str = ""
    perhaps: bool = False
    source: str = ""


@record(kw_only=True, slots=False)
class OptionPrice:
    """Work that is a choice, priced apart.

    Attributes
    ----------
    state
        included, offered, recommended or not called for.
    """

    id: str
    title: str
    state: str
    low: str
    high: str
    operations: tuple[str, ...] = ()


@record(kw_only=True, slots=False)
class Approval:
    """An extra that is told to the customer, and signed, before it is done."""

    id: str
    what: str
    high: str


@record(kw_only=True, slots=False)
class Cut:
    """Something a short budget could give up, with what that saves."""

    id: str
    what: str
    saves: str
    says: str = ""


@record(kw_only=True, slots=False)
class BudgetVerdict:
    """How the price stands against what the owner will spend.

    Attributes
    ----------
    state
        inside, perhaps over, over, or no budget.
    over_by
        Likely total above the most the owner will spend.
    cut_first
        What could be given up, first things first.
    after_cuts
        Likely total when all of it is.
    never
        What is not cut, whatever the budget.
    """

    state: str
    low: str = ""
    high: str = ""
    over_by: str = ""
    cut_first: tuple[Cut, ...] = ()
    after_cuts: str = ""
    never: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    text: str = ""


@record(kw_only=True, slots=False)
class QuoteHead:
    """What makes a price a quote: number, dates, deposit and a line to sign."""

    number: str
    date: str
    valid_until: str
    deposit: str
    tax: str
    approval: str


@record(kw_only=True, slots=False)
class Cost:
    """The price.

    Attributes
    ----------
    low, likely, high
        Totals with tax.
    not_priced
        What is in the plan and has no price in the shop's catalogs.
    trials, seed
        How many times the job was priced by chance, and the number that makes it repeatable.
    common_share
        How far long hours and high prices are taken to go together.
    """

    currency: str
    low: str
    likely: str
    high: str
    lines: tuple[CostLine, ...]
    options: tuple[OptionPrice, ...] = ()
    excluded: tuple[str, ...] = ()
    not_priced: tuple[str, ...] = ()
    approvals: tuple[Approval, ...] = ()
    budget: BudgetVerdict | None = None
    quote: QuoteHead | None = None
    trials: int = 0
    seed: int = 0
    common_share: float = 0.0
    says: str = ""
