"""Rows of the shop's catalogs, read as money, hours, counts, names and sentences."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from planner.errors import Place
from planner.rulebook.syntax import Rulebook
from planner.rulebook.values import Names, Value

SECONDS = 3600.0


@dataclass(frozen=True, slots=True)
class Span:
    """Least, usual and most."""

    low: float
    likely: float
    high: float

    def times(self, factor: float) -> "Span":
        """Return the span stretched."""
        return Span(self.low * factor, self.likely * factor, self.high * factor)


NOTHING = Span(0.0, 0.0, 0.0)
Prices = tuple[Decimal, Decimal]


@dataclass(frozen=True, slots=True)
class Row:
    """One row, as the rulebook's reader checked it."""

    id: str
    values: Mapping[str, Value]
    source: str
    place: Place

    def number(self, name: str, absent: float = 0.0) -> float:
        """Return a number; what stands for one that is left out is said by the caller."""
        value = self.values.get(name, absent)
        return value if isinstance(value, int | float) else absent

    def whole(self, name: str, absent: int = 0) -> int:
        """Return a count."""
        return round(self.number(name, absent))

    def hours(self, name: str) -> float:
        """Return a time [h]."""
        return self.number(name) / SECONDS

    def money(self, name: str) -> Decimal:
        """Return a sum of money or a share of one, exactly as it was typed."""
        return Decimal(repr(self.number(name)))

    def price(self) -> Prices | None:
        """Return the price band, or nothing when the row states none."""
        if "price_low" not in self.values and "price_high" not in self.values:
            return None
        low, high = self.money("price_low"), self.money("price_high")
        return (low, max(low, high))

    def span(self, name: str) -> Span:
        """Return the fields NAME_low, NAME_likely and NAME_high."""
        return Span(*(self.number(f"{name}_{part}") for part in ("low", "likely", "high")))

    def word(self, name: str) -> str:
        """Return the word of a choice."""
        value = self.values.get(name, "")
        return value if isinstance(value, str) else ""

    def names(self, name: str) -> tuple[str, ...]:
        """Return a list of names."""
        value = self.values.get(name)
        return value.called if isinstance(value, Names) else ()

    def text(self, name: str) -> str:
        """Return a list of sentences as one text."""
        return " ".join(self.names(name))


def plain(amount: Decimal) -> str:
    """Print a sum without zeros that say nothing.

    Examples
    --------
    >>> plain(Decimal("140.0")), plain(Decimal("12.50")), plain(Decimal("0.0"))
    ('140', '12.5', '0')
    """
    return f"{amount.normalize() + 0:f}"


def rows_of(rulebook: Rulebook, stock: str) -> dict[str, Row]:
    """Return the rows of a stock by their ids, in the order of the catalog."""
    declared = rulebook.stocks.get(stock)
    if declared is None:
        return {}
    return {
        name: Row(name, row.values, row.source, row.place)
        for name, row in rulebook.stock_rows.get(declared.catalog, {}).items()
    }
