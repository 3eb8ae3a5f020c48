"""When the work can be done: steps, deliveries and outside services on the shop's calendar."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from planner.models.job import Job
from planner.planning.part_needs import PartNeed
from planner.planning.shop_data import Shop
from planner.planning.shop_rows import NOTHING, Span
from planner.planning.triggers import Sure
from planner.route.critical_path import Network
from planner.route.edges import Edges
from planner.route.schedule import Crew, Timetable, timetable
from planner.rulebook.results import Called

WAYS = ("low", "likely", "high")
HANDS = "people"


@dataclass(frozen=True, slots=True)
class Delivery:
    """A part on its way: which step orders it, which waits for it, and how long it takes.

    Attributes
    ----------
    days
        Days of the calendar from the order to the shelf.
    """

    part: str
    ordered_at: str
    needed_at: str
    days: Span


@dataclass(frozen=True, slots=True)
class Timing:
    """Three timetables of one plan: all goes fast, as usual, all goes slowly."""

    tables: Mapping[str, Timetable]
    deliveries: tuple[Delivery, ...]

    @property
    def likely(self) -> Timetable:
        """Return the usual one."""
        return self.tables["likely"]


class Timekeeper:
    """Puts a plan on the calendar.

    Parameters
    ----------
    shop
        Benches, lanes, people, hours and turn-rounds.
    called
        Operations of the plan in working order.
    edges
        What must stand before each, proved without a loop.
    job
        What is done, and when work can start.
    """

    def __init__(self, shop: Shop, called: Mapping[str, Called], edges: Edges, job: Job) -> None:
        self.shop, self.called, self.edges, self.job = shop, called, edges, job

    def timing(self, needs: Iterable[PartNeed]) -> Timing:
        """Return the three timetables."""
        deliveries = tuple(each for need in needs for each in self.deliveries(need))
        crew = self.crew()
        tables = {way: timetable(self.network(way, deliveries), crew) for way in WAYS}
        return Timing(tables, deliveries)

    def network(self, way: str, deliveries: Iterable[Delivery]) -> Network:
        """Return the operations and their waits, seen one way."""
        hours = {
            name: getattr(self._hours(name), way) for name in self.called if name in self.edges
        }
        links = {
            name: {before: self._wait(before, way) for before in self.edges[name]}
            for name in hours
        }
        ready: dict[str, float] = {}
        for each in deliveries:
            lead = getattr(each.days, way)
            if each.ordered_at in self.job.progress or not each.ordered_at:
                ready[each.needed_at] = max(
                    ready.get(each.needed_at, 0.0), self._arrival(each.ordered_at, lead)
                )
            else:
                waits = links[each.needed_at]
                wait = self.shop.calendar.lead(lead)
                waits[each.ordered_at] = max(waits.get(each.ordered_at, 0.0), wait)
        return Network(hours, links, ready)

    def crew(self) -> Crew:
        """Return what the operations share: a station, a lane and a pair of hands each."""
        stations = {name: each.count for name, each in self.shop.stations.items() if each.limited}
        lanes = {f"{name} lane": count for name, count in self.shop.lanes.items()}
        takes = {
            name: self._takes(each.operation.station, each.operation.lane)
            for name, each in self.called.items()
        }
        return Crew(takes, {**stations, **lanes, HANDS: self.shop.people})

    def _takes(self, station: str, lane: str) -> tuple[str, ...]:
        return (station, f"{lane} lane", HANDS)

    def deliveries(self, need: PartNeed) -> list[Delivery]:
        """Return what waits for a part that is not there yet."""
        if need.in_hand or need.lead_days is None:
            return []
        low, high = need.lead_days
        days = Span(low, (low + high) / 2, high)
        if need.sure != Sure.YES:
            days = Span(0.0, days.likely * self.shop.perhaps_share, days.high)
        return [
            Delivery(need.line.called, need.ordered_at, name, days)
            for name in need.needed_at
            if name not in self.job.progress
        ]

    def _hours(self, name: str) -> Span:
        """Return how long an operation takes; nothing when it is done."""
        if name in self.job.progress:
            return NOTHING
        return self._perhaps(name, Span(*self.called[name].operation.hours))

    def _perhaps(self, name: str, span: Span) -> Span:
        if not self.called[name].perhaps:
            return span
        return Span(0.0, span.likely * self.shop.perhaps_share, span.high)

    def _wait(self, name: str, way: str) -> float:
        """Return the hours after an operation until its part is back or the word is given."""
        turn = self.shop.turn_rounds.get(name)
        if turn is None or name in self.job.progress:
            return 0.0
        return self.shop.calendar.lead(getattr(self._perhaps(name, turn.days), way))

    def _arrival(self, ordered_at: str, lead: float) -> float:
        """Return the hour an ordered part comes, counted from the day the job goes on."""
        start = self.start()
        done = self.job.progress.get(ordered_at)
        if start is None or done is None or not done.day:
            return self.shop.calendar.lead(lead)
        comes = date.fromisoformat(done.day) + timedelta(days=-int(-lead // 1))
        return self.shop.calendar.hour_of(start, comes)

    def start(self) -> date | None:
        """Return the day the work that is left can start: as written, or after what is done."""
        days = [each.day for each in self.job.progress.values() if each.day]
        if self.job.quote.start:
            days.append(self.job.quote.start)
        return date.fromisoformat(max(days)) if days else None
