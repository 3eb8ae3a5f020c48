"""The shop's work calendar: hours into working days and dates, delivery days into hours."""

from bisect import bisect_right
from collections.abc import Collection
from dataclasses import dataclass, field
from datetime import date, timedelta

from planner.errors import BorewrightError

WEEK = 7
# Hours are sums of decimal figures; below this two of them are the same moment.
SAME = 1e-9
_LONGEST_SEARCH = 3660


class NoWorkingDayError(BorewrightError):
    """A calendar that is closed for years on end."""


@dataclass(frozen=True, slots=True)
class WorkCalendar:
    """When the shop works.

    Time runs in working hours from the start of the first working day. A day is the number of
    whole working days before an hour: hour 0 falls on day 0.

    Attributes
    ----------
    hours_per_day
        Hours worked on a working day. [h]
    days_per_week
        Working days of a week, counted from Monday.
    closed
        Dates on which nobody works.
    """

    hours_per_day: float
    days_per_week: int = 5
    closed: Collection[date] = field(default=frozenset())

    def working_days(self, calendar_days: float) -> int:
        """Return the most working days that some days of the calendar can hold.

        Which weekday the count starts on does not matter and closed days only make it fewer, so
        a part is never taken to be there before it is.

        Examples
        --------
        >>> week = WorkCalendar(8.0)
        >>> [week.working_days(days) for days in (0, 3, 6, 7, 10, 70)]
        [0, 3, 5, 5, 8, 50]
        """
        weeks, rest = divmod(_whole(calendar_days), WEEK)
        return weeks * self.days_per_week + min(rest, self.days_per_week)

    def lead(self, calendar_days: float) -> float:
        """Return the hours [h] to allow for some days of the calendar."""
        return self.working_days(calendar_days) * self.hours_per_day

    def day(self, hour: float, *, ends: bool = False) -> int:
        """Return the working day an hour falls on.

        Parameters
        ----------
        hour
            Working hours from the start. [h]
        ends
            Whether something ends then: the last moment of a day belongs to that day.

        Returns
        -------
        int
            Whole working days before it.
        """
        days = hour / self.hours_per_day
        if ends:
            return max(0, _whole(days) - 1)
        return int(days + SAME)

    def days_used(self, hours: float) -> int:
        """Return how many working days some hours reach into."""
        return _whole(hours / self.hours_per_day)

    def is_open(self, day: date) -> bool:
        """Tell whether the shop works on a date."""
        return day.weekday() < self.days_per_week and day not in self.closed

    def dates(self, start: date, count: int) -> tuple[date, ...]:
        """List the first working dates from a start on.

        Raises
        ------
        NoWorkingDayError
            When ten years hold fewer.
        """
        found: list[date] = []
        for ahead in range(_LONGEST_SEARCH):
            if len(found) == count:
                break
            day = start + timedelta(days=ahead)
            if self.is_open(day):
                found.append(day)
        if len(found) < count:
            raise NoWorkingDayError(
                problem=f"Only {len(found)} working days follow {start} in ten years.",
                reason="A finish date cannot be worked out.",
                remedy="Take some dates out of the shop's closed days.",
            )
        return tuple(found)

    def date_of(self, start: date, hour: float, *, ends: bool = False) -> date:
        """Return the date an hour falls on, when work starts on or after a date."""
        day = self.day(hour, ends=ends)
        return self.dates(start, day + 1)[-1]

    def hour_of(self, start: date, day: date) -> float:
        """Return the first working hour on or after a date; zero before the start."""
        if day <= start:
            return 0.0
        ahead = (day - start).days
        opened = self.dates(start, ahead + 1)
        return bisect_right(opened, day - timedelta(days=1)) * self.hours_per_day


def _whole(number: float) -> int:
    """Round up to whole days, but not over a rounding error."""
    return -int(-(number - SAME) // 1)
