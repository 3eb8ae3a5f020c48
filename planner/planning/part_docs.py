"""Parts of the plan document: each row chosen from a catalog, to order now or to hold."""

from collections.abc import Iterable

from planner.models.steps import Part
from planner.planning.decision_docs import source_mark
from planner.planning.names import Names
from planner.rulebook.results import Answer, Outcome
from planner.rulebook.syntax import Stock
from planner.rulebook.values import Status

_BOUGHT = ("price", "price_low", "price_high", "lead_days_low", "lead_days_high")


def part_docs(outcomes: Iterable[Outcome], names: Names) -> tuple[Part, ...]:
    """List what the decisions chose from the catalogs.

    Parameters
    ----------
    outcomes
        Decisions with their answers.
    names
        Prints values.

    Returns
    -------
    tuple of Part
        One for each decision that chose a row; order now only where the choice is firm.
    """
    parts = []
    for outcome in outcomes:
        stocks = names.rulebook.stocks
        for answer in outcome.answers.values():
            stock = stocks.get(answer.type.catalog or "")
            if outcome.decision.form == "choose" and stock is not None and stock.owner is None:
                parts += _parts(outcome, answer, stock, names)
    return tuple(parts)


def _parts(outcome: Outcome, answer: Answer, stock: Stock, names: Names) -> list[Part]:
    by_row: dict[str, list[tuple[str, ...]]] = {}
    for key, entry in answer.entries.items():
        if isinstance(entry.value, str):
            by_row.setdefault(entry.value, []).append(key)
    order, because = _when(outcome)
    return [
        Part(
            id=outcome.decision.name,
            title=outcome.decision.means,
            part_class=stock.name,
            grade=row,
            where={names.label(answer.type.per, key): row for key in keys if key},
            must_have=figures(stock, row, names),
            price=_price(stock, row, names),
            lead_days=_pair(stock, row, names, "lead_days"),
            order=order,
            because=because,
            source=_mark(stock, row, names),
        )
        for row, keys in by_row.items()
    ]


def _when(outcome: Outcome) -> tuple[str, str]:
    if outcome.status == Status.FIRM:
        return "now", "the choice is firm; its order step and hold points stand in the operations"
    rests = [
        name
        for answer in outcome.answers.values()
        for entry in answer.entries.values()
        for name in (*entry.assumed, *entry.waiting_for)
    ]
    on = ", ".join(dict.fromkeys(name.replace("_", " ") for name in rests))
    return "hold", f"the choice is {outcome.status.word}: it rests on {on}"


def figures(stock: Stock, row: str, names: Names) -> dict[str, str]:
    """Print what the catalog says of a row, but for price and delivery."""
    values = names.rulebook.stock_rows[stock.catalog][row].values
    return {
        name: names.plain(value, stock.fields[name].type)
        for name, value in values.items()
        if name not in _BOUGHT
    }


def _price(stock: Stock, row: str, names: Names) -> tuple[str, str] | None:
    """Return the price band, in whole money as text: sums of money are no floats."""
    pair = _pair(stock, row, names, "price")
    return None if pair is None else (f"{pair[0]:.0f}", f"{pair[1]:.0f}")


def _pair(stock: Stock, row: str, names: Names, name: str) -> tuple[float, float] | None:
    values = names.rulebook.stock_rows[stock.catalog][row].values
    low, high = values.get(f"{name}_low"), values.get(f"{name}_high")
    return (low, high) if isinstance(low, float) and isinstance(high, float) else None


def _mark(stock: Stock, row: str, names: Names) -> str:
    source = names.rulebook.stock_rows[stock.catalog][row].source
    return source_mark(source, names.rulebook.sources).status
