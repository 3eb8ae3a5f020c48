"""Lines of the quote before they are added up: hours at a rate, parts at a price, risks."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from planner.planning.part_needs import PartNeed, price_of
from planner.planning.shop_data import Contingency, Shop, Station
from planner.planning.shop_rows import Prices, Span, plain
from planner.planning.triggers import Sure, Triggers
from planner.rulebook.results import Called
from planner.rulebook.syntax import STAGES

Money3 = tuple[Decimal, Decimal, Decimal]
ZERO = Decimal(0)


@dataclass(frozen=True, slots=True)
class RawLine:
    """One line by itself.

    Attributes
    ----------
    cheap, usual, dear
        Least, usual and most it comes to when it is needed: at the cheapest that is still
        possible, as a rule, and at the dearest. Part by part, cheap <= usual <= dear.
    counts
        How often it is needed, seen in the same three ways: 0, 1, or a chance between.
    """

    kind: str
    group: str
    id: str
    what: str
    cheap: Money3
    usual: Money3
    dear: Money3
    counts: tuple[float, float, float]
    quantity: str = ""
    rate: str = ""
    perhaps: bool = False
    source: str = ""

    def alone(self) -> Money3:
        """Return its least, its usual and its most: 0 where it may not be needed at all."""
        least = self.cheap[0] if self.counts[0] >= 1 else ZERO
        return least, self.usual[1] * Decimal(repr(self.counts[1])), self.dear[2]


class CostLines:
    """Makes the lines of a job.

    Parameters
    ----------
    shop
        Rates, prices, chances.
    triggers
        Tells what counts on this job.
    called
        Operations of the plan, in working order.
    """

    def __init__(self, shop: Shop, triggers: Triggers, called: Mapping[str, Called]) -> None:
        self.shop, self.triggers, self.called = shop, triggers, called
        self.not_priced: list[str] = []

    def lines(self, needs: Iterable[PartNeed], done: frozenset[str]) -> list[RawLine]:
        """Return every line: work and outside service, then parts, then what may go wrong."""
        found = [line for each in self.called.values() for line in self.of_step(each)]
        for need in needs:
            found += self._part(need)
        for risk in self.shop.contingencies:
            found += self._risk(risk, done)
        return [line for line in found if line.dear[2] > 0]

    def of_step(self, called: Called) -> Iterator[RawLine]:
        """Yield the lines of one operation: its hours, and the outside service's price."""
        operation = called.operation
        counts = self._counts(Sure.PERHAPS if called.perhaps else Sure.YES)
        station = self.shop.stations.get(operation.station)
        title = called.texts.get("does", operation.does)
        if station is None:
            self.not_priced.append(f"{operation.name}: no rate for {operation.station}")
            return
        band = _hours_price(station, Span(*operation.hours))
        low, likely, high = (f"{each:g}" for each in operation.hours)
        yield RawLine(
            kind="work",
            group=operation.lane,
            id=operation.name,
            what=title,
            cheap=band,
            usual=band,
            dear=band,
            counts=counts,
            quantity=f"{low} to {high} h, usually {likely} h",
            rate=f"{plain(station.rate)} for 1 h",
            perhaps=called.perhaps,
            source="demo",
        )
        turn = self.shop.turn_rounds.get(operation.name)
        if turn is not None and turn.price is not None:
            band = _band(turn.price)
            yield RawLine(
                kind="outside",
                group=operation.lane,
                id=f"{operation.name} outside",
                what=f"{title}: the service's own price",
                cheap=band,
                usual=band,
                dear=band,
                counts=counts,
                perhaps=called.perhaps,
                source="demo",
            )

    def _part(self, need: PartNeed) -> list[RawLine]:
        title = need.line.called
        bands = _unit_bands(need)
        if not bands:
            self.not_priced.append(f"{need.line.id}: no price in the catalogs")
            return []
        cheap, dear = _over(min, bands, need.least), _over(max, bands, need.most)
        least, most = min(each[0] for each in bands), max(each[2] for each in bands)
        pieces = Decimal(need.least + need.most) / 2
        usual = (cheap[0], (least + most) / 2 * pieces, dear[2])
        return [
            RawLine(
                kind="part",
                group="parts",
                id=need.line.id,
                what=f"{title}: {need.rows[0].id}" if len(need.rows) == 1 else title,
                cheap=cheap,
                usual=usual,
                dear=dear,
                counts=self._counts(need.sure),
                quantity=_pieces(need),
                rate=f"{plain(least)} to {plain(most)} for 1",
                perhaps=need.sure != Sure.YES,
                source="demo",
            )
        ]

    def _risk(self, risk: Contingency, done: frozenset[str]) -> list[RawLine]:
        if self._is_over(risk, done):
            return []
        called_for = self.triggers.any_of(risk.with_)
        ruled_out = self.triggers.any_of(risk.unless) if risk.unless else Sure.NO
        if called_for == Sure.NO or ruled_out == Sure.YES:
            return []
        may_end = STAGES.index(risk.until) > self._stage() and risk.until != "built"
        sure = called_for == Sure.YES and ruled_out == Sure.NO and not may_end
        usual = risk.chance if sure else risk.chance * self.shop.perhaps_share
        band = self._risk_band(risk)
        if band is None:
            self.not_priced.append(f"{risk.id}: no rate for {risk.station}")
            return []
        return [
            RawLine(
                kind="risk",
                group="if it goes wrong",
                id=risk.id,
                what=risk.id,
                cheap=band,
                usual=band,
                dear=band,
                counts=(risk.chance if sure else 0.0, usual, risk.chance),
                quantity=f"chance {risk.chance:.0%}",
                perhaps=True,
                source="demo",
            )
        ]

    def _risk_band(self, risk: Contingency) -> Money3 | None:
        price = _band(risk.price) if risk.price else (ZERO, ZERO, ZERO)
        if not risk.station:
            return price
        station = self.shop.stations.get(risk.station)
        if station is None:
            return None
        hours = _hours_price(station, risk.hours)
        return (price[0] + hours[0], price[1] + hours[1], price[2] + hours[2])

    def _is_over(self, risk: Contingency, done: frozenset[str]) -> bool:
        steps = [name for name in risk.with_ if name in self.called]
        if steps and all(name in done for name in steps):
            return True
        return STAGES.index(risk.until) <= self._stage()

    def _stage(self) -> int:
        return STAGES.index(self.triggers.names.world.facts.stage)

    def _counts(self, sure: Sure) -> tuple[float, float, float]:
        return (1.0, 1.0, 1.0) if sure == Sure.YES else (0.0, self.shop.perhaps_share, 1.0)


def _hours_price(station: Station, hours: Span) -> Money3:
    low, likely, high = (
        Decimal(f"{each:.6g}") * station.rate for each in (hours.low, hours.likely, hours.high)
    )
    return low, likely, high


def _band(price: Prices) -> Money3:
    return price[0], (price[0] + price[1]) / 2, price[1]


def _unit_bands(need: PartNeed) -> list[Money3]:
    """Return the price band of each row it may still be; one for a part with its own price."""
    if need.line.price is not None:
        return [_band(need.line.price)]
    return [_band(price) for row in need.rows if (price := price_of(row)) is not None]


def _over(pick: Callable[[Iterable[Decimal]], Decimal], bands: list[Money3], count: int) -> Money3:
    """Pick the least or the most of each part of several bands, for some pieces."""
    low, likely, high = (pick(each[part] for each in bands) * count for part in range(3))
    return low, likely, high


def _pieces(need: PartNeed) -> str:
    count = str(need.most) if need.least == need.most else f"{need.least} to {need.most}"
    return f"{count} pc"
