"""The schedule of the plan document: longest chain, finish, what can start and what waits."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date

from planner.models.steps import Finish, Schedule, Slot
from planner.models.work import TorqueLine
from planner.planning.part_needs import PartNeed
from planner.planning.shop_data import Shop
from planner.planning.timing import WAYS, Timekeeper, Timing
from planner.planning.triggers import Sure
from planner.route.edges import Edges

_MOST_TOLD = 3


class ScheduleDocs:
    """Tells a timing as the plan document carries it.

    Parameters
    ----------
    shop
        Its calendar.
    keeper
        Knows operations, edges, progress and the start.
    timing
        The three timetables.
    weeks
        Weeks the owner has, where he said so.
    """

    def __init__(
        self, shop: Shop, keeper: Timekeeper, timing: Timing, weeks: float | None
    ) -> None:
        self.shop, self.keeper, self.timing, self.weeks = shop, keeper, timing, weeks
        self.calendar = shop.calendar

    def schedule(
        self, base: Schedule, needs: Iterable[PartNeed], sheet: Iterable[TorqueLine] = ()
    ) -> Schedule:
        """Return the schedule with times, the progress part of it taken over.

        Parameters
        ----------
        base
            Progress: what is done, reopened, and could start for all that stands before it.
        needs
            Parts; a step waits for those that are not there.
        sheet
            The torque sheet; a step waits for the figures nobody has typed in.
        """
        table = self.timing.likely
        missing = self._missing(needs)
        for line in sheet:
            for name in line.tightened_at if line.blocked else ():
                if name not in self.keeper.job.progress:
                    figure = f"figure: {line.title}, from the maker, typed into the torque sheet"
                    missing.setdefault(name, []).append(figure)
        start = self.keeper.start()
        days = [self._days(way) for way in WAYS]
        return replace(
            base,
            can_start_now=tuple(each for each in base.can_start_now if each not in missing),
            waits_for=self._waits(base, missing),
            critical_path=self.critical_path(),
            working_days=(days[0], days[2]),
            working_days_likely=days[1],
            longest_chain_days=self.calendar.days_used(table.chain.finish),
            over_longest_chain=round(table.over_bound, 4),
            held_up={name: round(hours, 2) for name, hours in table.held_up.items()},
            start=start.isoformat() if start else "",
            finish=self._finish(start, days),
            slots=self._slots(start),
            text=self._text(days),
        )

    def critical_path(self) -> tuple[str, ...]:
        """Return the longest chain of what is still to be done."""
        done = self.keeper.job.progress
        return tuple(name for name in self.timing.likely.chain.path if name not in done)

    def _days(self, way: str) -> int:
        return self.calendar.days_used(self.timing.tables[way].finish)

    def _finish(self, start: date | None, days: list[int]) -> Finish | None:
        if start is None:
            return None
        dates = self.calendar.dates(start, max(1, *days))
        low, likely, high = (dates[max(0, each - 1)].isoformat() for each in days)
        return Finish(earliest=low, likely=likely, latest=high)

    def _slots(self, start: date | None) -> Mapping[str, Slot]:
        table = self.timing.likely
        done = self.keeper.job.progress
        last = self.calendar.days_used(table.finish)
        dates = self.calendar.dates(start, last + 1) if start else ()
        found = {}
        for name, begins in table.starts.items():
            if name in done:
                continue
            first = self.calendar.day(begins)
            final = max(first, self.calendar.day(table.ends[name], ends=True))
            found[name] = Slot(
                first_day=first + 1,
                last_day=final + 1,
                first_date=dates[first].isoformat() if dates else "",
                last_date=dates[final].isoformat() if dates else "",
            )
        return found

    def _missing(self, needs: Iterable[PartNeed]) -> dict[str, list[str]]:
        """Name the parts that are not there, by the operation that cannot start without them."""
        found: dict[str, list[str]] = {}
        for need in needs:
            if need.in_hand or need.lead_days is None or need.sure == Sure.NO:
                continue
            for name in need.needed_at:
                if name not in self.keeper.job.progress:
                    found.setdefault(name, []).append(self._part_words(need))
        return found

    def _part_words(self, need: PartNeed) -> str:
        name = need.line.called
        low, high = need.lead_days or (0, 0)
        ordered = self.keeper.job.progress.get(need.ordered_at)
        if ordered is not None:
            return f"part: {name}, ordered {ordered.day}, {low:g} to {high:g} days"
        by = f" at {need.ordered_at}" if need.ordered_at else ""
        return f"part: {name}, to be ordered{by}, {low:g} to {high:g} days"

    def _waits(
        self, base: Schedule, missing: Mapping[str, list[str]]
    ) -> Mapping[str, tuple[str, ...]]:
        """Say what each operation that cannot start waits for."""
        edges: Edges = self.keeper.edges
        done = set(base.done) - set(base.reopened)
        found = {}
        for name in self.timing.likely.starts:
            if name in done or (name in base.can_start_now and name not in missing):
                continue
            steps = [each for each in edges[name] if each not in done]
            found[name] = (*steps, *missing.get(name, ()))
        return {name: waits for name, waits in found.items() if waits}

    def _text(self, days: list[int]) -> str:
        table = self.timing.likely
        bound = self.calendar.days_used(table.chain.finish)
        held = sorted(table.held_up.items(), key=lambda each: (-each[1], each[0]))[:_MOST_TOLD]
        text = (
            f"{days[0]} to {days[2]} working days, usually {days[1]}. The longest chain alone is "
            f"{bound}; the timetable is {table.over_bound:.0%} longer, and none can be shorter "
            "than the chain."
        )
        if held:
            told = ", ".join(f"{name} {hours:.0f} h" for name, hours in held)
            text += f" Work stood waiting for: {told}."
        return text
