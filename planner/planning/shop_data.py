"""What the shop says of itself: money, hours, benches, parts to buy and what may go wrong."""

from collections.abc import Mapping
from datetime import date
from decimal import Decimal

from planner.errors import Problem, ProblemsFound
from planner.planning.shop_rows import SECONDS, Prices, Row, Span, rows_of
from planner.records import record
from planner.route.calendar import WorkCalendar
from planner.rulebook.syntax import Rulebook

THIS_SHOP = "this_shop"


@record
class Station:
    """Where work is done: price of an hour, how many there are, whether they can run short."""

    rate: Decimal
    count: int
    limited: bool


@record
class TurnRound:
    """A step that leaves the shop or waits for a word: days of the calendar, and a price."""

    days: Span
    price: Prices | None
    source: str


@record
class PartLine:
    """Something to buy; see `rules/inputs_shop.yaml`."""

    id: str
    called: str
    each: str
    number: int
    with_: tuple[str, ...]
    must_have: tuple[str, ...]
    states: tuple[str, ...]
    ordered_at: tuple[str, ...]
    needed_at: tuple[str, ...]
    in_hand: tuple[str, ...]
    price: Prices | None
    lead_days: tuple[float, float] | None
    says: str
    source: str


@record
class Contingency:
    """Something that may go wrong."""

    id: str
    with_: tuple[str, ...]
    unless: tuple[str, ...]
    chance: float
    until: str
    station: str
    hours: Span
    price: Prices | None
    source: str


@record
class PricedOption:
    """Work that is a choice."""

    id: str
    operations: tuple[str, ...]
    chosen_at: tuple[str, ...]
    price: Prices | None


@record
class CutRow:
    """What a short budget gives up at a rank, or never does."""

    id: str
    rank: int | None
    says: str


@record
class Shop:
    """Everything the shop says of itself."""

    currency: str
    decimals: int
    people: int
    calendar: WorkCalendar
    tax_share: Decimal
    tax_on: str
    deposit_share: Decimal
    valid_days: int
    approval_over: Decimal
    perhaps_share: float
    low_share: float
    high_share: float
    common_share: float
    trials: int
    seed: int
    stations: Mapping[str, Station]
    lanes: Mapping[str, int]
    turn_rounds: Mapping[str, TurnRound]
    part_lines: Mapping[str, PartLine]
    contingencies: tuple[Contingency, ...]
    options: tuple[PricedOption, ...]
    cuts: tuple[CutRow, ...]
    exclusions: tuple[str, ...]


def read_shop(rulebook: Rulebook) -> Shop | None:
    """Read the shop's own data out of a rulebook.

    Parameters
    ----------
    rulebook
        A rulebook whose stock the reader has checked.

    Returns
    -------
    Shop or None
        Nothing when the rulebook declares no shop.

    Raises
    ------
    ProblemsFound
        When the row of the shop is not there, or a closed day is no date.
    """
    if "shop" not in rulebook.stocks:
        return None
    own = rows_of(rulebook, "shop").get(THIS_SHOP)
    if own is None:
        fix = f"add a row {THIS_SHOP} to catalogs/shop.yaml"
        raise ProblemsFound([Problem("the catalog shop has no row for the shop", fix)])
    return Shop(
        currency=own.word("currency"),
        decimals=own.whole("decimals"),
        people=own.whole("people"),
        calendar=WorkCalendar(
            own.hours("hours_per_day"), own.whole("days_per_week"), _closed(rulebook)
        ),
        tax_share=own.money("tax_share") if own.word("tax_on") != "nothing" else Decimal(0),
        tax_on=own.word("tax_on"),
        deposit_share=own.money("deposit_share"),
        valid_days=own.whole("valid_days"),
        approval_over=own.money("approval_over"),
        perhaps_share=own.number("perhaps_share"),
        low_share=own.number("low_share"),
        high_share=own.number("high_share"),
        common_share=own.number("common_share"),
        trials=own.whole("trials"),
        seed=own.whole("seed"),
        stations={name: _station(each) for name, each in rows_of(rulebook, "stations").items()},
        lanes={name: each.whole("at_once") for name, each in rows_of(rulebook, "lanes").items()},
        turn_rounds={
            name: TurnRound(each.span("days"), each.price(), each.source)
            for name, each in rows_of(rulebook, "turn_rounds").items()
        },
        part_lines={name: _part(each) for name, each in rows_of(rulebook, "part_lines").items()},
        contingencies=tuple(map(_contingency, rows_of(rulebook, "contingencies").values())),
        options=tuple(map(_option, rows_of(rulebook, "priced_options").values())),
        cuts=tuple(map(_cut, rows_of(rulebook, "cuts").values())),
        exclusions=tuple(each.text("says") for each in rows_of(rulebook, "exclusions").values()),
    )


def _closed(rulebook: Rulebook) -> frozenset[date]:
    found, problems = set(), []
    for name, row in rows_of(rulebook, "closed_days").items():
        try:
            found.add(date.fromisoformat(name))
        except ValueError:
            what = f"closed_days: {name!r} is no date"
            problems.append(Problem(what, 'write "2027-12-24" in quotes', row.place))
    if problems:
        raise ProblemsFound(problems)
    return frozenset(found)


def _station(row: Row) -> Station:
    return Station(row.money("rate"), row.whole("count"), row.word("limited") == "yes")


def _part(row: Row) -> PartLine:
    lead = row.number("lead_days_low", -1.0), row.number("lead_days_high", -1.0)
    return PartLine(
        id=row.id,
        called=row.text("called") or row.id.replace("_", " "),
        each=row.word("each"),
        number=row.whole("number", 1),
        with_=row.names("with"),
        must_have=row.names("must_have"),
        states=row.names("states"),
        ordered_at=row.names("ordered_at"),
        needed_at=row.names("needed_at"),
        in_hand=row.names("in_hand"),
        price=row.price(),
        lead_days=None if lead[0] < 0 else (lead[0], max(lead)),
        says=row.text("says"),
        source=row.source,
    )


def _contingency(row: Row) -> Contingency:
    at = row.names("at")
    return Contingency(
        id=row.id,
        with_=row.names("with"),
        unless=row.names("unless"),
        chance=row.number("chance"),
        until=row.word("until"),
        station=at[0] if at else "",
        hours=row.span("hours").times(1 / SECONDS),
        price=row.price(),
        source=row.source,
    )


def _option(row: Row) -> PricedOption:
    return PricedOption(row.id, row.names("operations"), row.names("chosen_at"), row.price())


def _cut(row: Row) -> CutRow:
    rank = row.whole("rank", 0)
    return CutRow(row.id, rank or None, row.text("says"))
