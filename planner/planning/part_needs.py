"""What a build needs bought: which row, how many, at what price, ordered and needed when."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from planner.planning.names import Names
from planner.planning.shop_data import PartLine, Shop
from planner.planning.shop_rows import Prices
from planner.planning.triggers import Sure, Triggers
from planner.rulebook.results import Called, Outcome
from planner.rulebook.syntax import Stock, StockRow
from planner.rulebook.values import OneOf, Status

_SETS = {
    "cylinder": ("cylinder",),
    "intake_valve": ("intake_valve",),
    "exhaust_valve": ("exhaust_valve",),
    "valve": ("intake_valve", "exhaust_valve"),
    "cylinder_called": ("cylinder",),
    "valve_called": ("intake_valve", "exhaust_valve"),
}


@dataclass(frozen=True, slots=True)
class PartNeed:
    """One line of the shop's part list on a job.

    Attributes
    ----------
    sure
        Whether it is needed.
    rows
        Rows of the stock still possible; one when it is settled, none for a part that is no
        decision's choice.
    outcome
        The decision that chooses it, where one does.
    least, most
        Pieces.
    price
        Of one piece, over the rows still possible; none when nothing states it.
    lead_days
        Days of the calendar, over the same rows.
    in_hand
        The job holds readings of it, or what needed it is done.
    """

    line: PartLine
    sure: Sure
    rows: tuple[StockRow, ...]
    outcome: Outcome | None
    least: int
    most: int
    price: Prices | None
    lead_days: tuple[float, float] | None
    ordered_at: str
    needed_at: tuple[str, ...]
    in_hand: bool

    @property
    def settled(self) -> bool:
        """Whether it is known which row it is."""
        return self.outcome is None or len(self.rows) == 1


class PartNeeds:
    """Works out what to buy.

    Parameters
    ----------
    shop
        The shop's list of parts.
    names, called
        Values, and the operations of the plan.
    in_hand
        Blocks of the job's `parts_in_hand` that hold readings.
    done
        Operations that are done.
    """

    def __init__(
        self,
        shop: Shop,
        names: Names,
        called: Mapping[str, Called],
        *,
        in_hand: frozenset[str],
        done: frozenset[str],
    ) -> None:
        self.shop, self.names, self.called = shop, names, called
        self.triggers = Triggers(names, called)
        self.hand, self.done = in_hand, done

    def all(self, outcomes: Mapping[str, Outcome]) -> tuple[PartNeed, ...]:
        """Return every need, in the order of the shop's list."""
        found = []
        for line in self.shop.part_lines.values():
            need = self._need(line, outcomes.get(line.id))
            if need is not None:
                found.append(need)
        return tuple(found)

    def _need(self, line: PartLine, outcome: Outcome | None) -> PartNeed | None:
        sure = self.triggers.any_of(line.with_)
        if sure == Sure.NO or (outcome is not None and outcome.status == Status.NOT_APPLICABLE):
            return None
        rows = () if outcome is None else self._rows(outcome)
        least, most = self._quantity(line, sure)
        if not most:
            return None
        needed = tuple(name for name in line.needed_at if name in self.called)
        ordered = next((name for name in line.ordered_at if name in self.called), "")
        return PartNeed(
            line=line,
            sure=sure if outcome is None else min(sure, _bought(outcome)),
            rows=rows,
            outcome=outcome,
            least=least,
            most=most,
            price=line.price or _prices(rows),
            lead_days=line.lead_days or _leads(rows),
            ordered_at=ordered,
            needed_at=needed,
            in_hand=self._has_come(line, needed),
        )

    def _rows(self, outcome: Outcome) -> tuple[StockRow, ...]:
        """Return the rows a choice may still come to; all of the stock when nothing is known."""
        stock = stock_of(outcome, self.names)
        if stock is None:
            return ()
        known = self.names.rulebook.stock_rows[stock.catalog]
        chosen: dict[str, None] = {}
        for answer in outcome.answers.values():
            for entry in answer.entries.values():
                if isinstance(entry.value, OneOf):
                    chosen |= dict.fromkeys(entry.value.words)
                elif isinstance(entry.value, str):
                    chosen[entry.value] = None
                elif entry.status == Status.WAITING:
                    chosen |= dict.fromkeys(known)
        return tuple(known[name] for name in chosen if name in known)

    def _quantity(self, line: PartLine, sure: Sure) -> tuple[int, int]:
        if line.each == "set":
            return line.number, line.number
        sets = self.names.world.facts.sets
        full = line.number * sum(len(sets.get(name, ())) for name in _SETS[line.each])
        if not line.each.endswith("_called"):
            return full, full
        steps = [self.called[name] for name in line.with_ if name in self.called]
        certain = line.number * sum(len(each.where) for each in steps)
        # Before the readings are in, a step may yet be called for by more items.
        if sure == Sure.PERHAPS or self.names.world.facts.stage == "enquiry" or not certain:
            return min(certain, full), full
        return certain, certain

    def _has_come(self, line: PartLine, needed: tuple[str, ...]) -> bool:
        if any(block in self.hand for block in line.in_hand):
            return True
        return bool(needed) and any(name in self.done for name in needed)


def stock_of(outcome: Outcome, names: Names) -> Stock | None:
    """Return the stock a decision chooses from, when it is a catalog's and not an engine's."""
    for answer in outcome.answers.values():
        stock = names.rulebook.stocks.get(answer.type.catalog or "")
        if stock is not None and stock.owner is None:
            return stock
    return None


def _bought(outcome: Outcome) -> Sure:
    """Tell whether a choice surely stands for something to buy."""
    return Sure.PERHAPS if outcome.status == Status.WAITING else Sure.YES


def price_of(row: StockRow) -> Prices | None:
    """Return the price band a stocked row states, exactly as it was typed."""
    low, high = row.values.get("price_low"), row.values.get("price_high")
    if not isinstance(low, int | float) or not isinstance(high, int | float):
        return None
    return Decimal(repr(low)), Decimal(repr(high))


def _prices(rows: tuple[StockRow, ...]) -> Prices | None:
    bands = [band for row in rows if (band := price_of(row)) is not None]
    if not bands:
        return None
    return min(low for low, _ in bands), max(high for _, high in bands)


def _leads(rows: tuple[StockRow, ...]) -> tuple[float, float] | None:
    bands = [(row.values.get("lead_days_low"), row.values.get("lead_days_high")) for row in rows]
    lows = [low for low, _ in bands if isinstance(low, float)]
    highs = [high for _, high in bands if isinstance(high, float)]
    return (min(lows), max(highs)) if lows and highs else None
