"""A schedule held against the day the car must run: what can be done, and the honest date."""

from datetime import date
from itertools import pairwise

from planner.models.job import Job
from planner.models.plan import Conflict
from planner.models.steps import Schedule
from planner.planning.schedule_docs import ScheduleDocs


class Deadline:
    """Holds a schedule against the day the car must run.

    Parameters
    ----------
    docs
        The schedule with its timing.
    job
        The deadline as typed.
    """

    def __init__(self, docs: ScheduleDocs, job: Job) -> None:
        self.docs, self.job = docs, job

    def days_there_are(self) -> int | None:
        """Return the working days until the deadline, or nothing when none is known."""
        calendar, start = self.docs.calendar, self.docs.keeper.start()
        found = []
        if self.docs.weeks is not None:
            found.append(int(self.docs.weeks * calendar.days_per_week))
        if self.job.deadline and start is not None:
            day = date.fromisoformat(self.job.deadline)
            ahead = max(0, (day - start).days)
            opened = calendar.dates(start, ahead + 1)
            found.append(sum(each <= day for each in opened))
        return min(found) if found else None

    def conflict(self, schedule: Schedule) -> Conflict | None:
        """Say what a deadline that is too early leaves, and the honest date.

        The order of the work is never changed to meet one.
        """
        there = self.days_there_are()
        if there is None or schedule.working_days is None:
            return None
        low, high = schedule.working_days
        if high <= there:
            return None
        likely = schedule.working_days_likely
        return Conflict(
            between=("goals.deadline" if self.job.deadline else "goals.weeks", "schedule"),
            text=f"{self._head(there, low, likely, high)} {self._sets_it()}",
            ways_out=self._ways(there, schedule),
        )

    def _head(self, there: int, low: int, likely: int, high: int) -> str:
        if low > there:
            verdict = "It cannot be done in that time, even if all goes fast."
        elif likely > there:
            verdict = "It can be done only if all goes fast."
        else:
            verdict = "It is likely, but not sure."
        days = f"{there} working days are there, {low} to {high} are needed, usually {likely}."
        return f"{days} {verdict}"

    def _sets_it(self) -> str:
        """Name the deliveries on the longest chain: they set the date, not the hours."""
        path = self.docs.critical_path()
        pairs = set(pairwise(path))
        told = {}
        for each in self.docs.timing.deliveries:
            if (each.ordered_at, each.needed_at) in pairs and each.days.high > 0:
                span = f"{each.days.low:g} to {each.days.high:g} days"
                told[each.part] = f"{each.part} ({span})"
        if not told:
            return "The hours of the work itself set the date."
        return f"What sets the date: {', '.join(told.values())}."

    def _ways(self, there: int, schedule: Schedule) -> tuple[str, ...]:
        honest = self._honest(schedule)
        ready = [name for name, slot in schedule.slots.items() if slot.last_day <= there]
        last = ready[-1] if ready else ""
        done = (
            f"in {there} working days {len(ready)} of {len(schedule.slots)} steps can be done, as "
            f"far as {last.replace('_', ' ')}; the order stays as it is"
            if ready
            else "no step can be finished by then"
        )
        return (
            f"tell the owner the honest date: {honest}",
            done,
            "take parts that are on a shelf where the readings allow them, and price them again",
            "nothing is left out and nothing is done out of turn to win days",
        )

    def _honest(self, schedule: Schedule) -> str:
        if schedule.finish is not None:
            return f"{schedule.finish.likely}, at the latest {schedule.finish.latest}"
        week = self.docs.calendar.days_per_week
        likely = -(-schedule.working_days_likely // week)
        most = (schedule.working_days or (0, 0))[1]
        return f"{likely} weeks after the start, at the most {-(-most // week)}"
