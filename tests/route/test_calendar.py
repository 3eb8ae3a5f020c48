from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.route.calendar import NoWorkingDayError, WorkCalendar

MONDAY = date(2027, 1, 4)


def test_a_delivery_never_counts_as_earlier_than_it_is_whatever_day_it_starts():
    week = WorkCalendar(8.0)
    for first in range(7):
        ordered = MONDAY + timedelta(days=first)
        for days in range(80):
            passed = sum(week.is_open(ordered + timedelta(days=ahead)) for ahead in range(days))
            assert week.working_days(days) >= passed


def test_a_week_of_delivery_is_a_week_of_work():
    assert WorkCalendar(8.0).lead(14) == 80.0
    assert WorkCalendar(7.5, days_per_week=6).lead(7) == 45.0


def test_the_last_hour_of_a_day_ends_on_that_day_and_starts_the_next():
    week = WorkCalendar(8.0)
    assert week.day(8.0) == 1
    assert week.day(8.0, ends=True) == 0
    assert week.date_of(MONDAY, 40.0) == date(2027, 1, 11)
    assert week.date_of(MONDAY, 40.0, ends=True) == date(2027, 1, 8)


def test_sums_of_tenths_do_not_spill_into_the_next_day():
    assert WorkCalendar(0.3).days_used(0.1 + 0.2) == 1


def test_closed_days_are_skipped():
    week = WorkCalendar(8.0, closed=frozenset({date(2027, 1, 5)}))
    assert week.dates(MONDAY, 3) == (MONDAY, date(2027, 1, 6), date(2027, 1, 7))


def test_a_shop_that_never_opens_is_told_so():
    week = WorkCalendar(8.0, closed={MONDAY + timedelta(days=each) for each in range(4000)})
    with pytest.raises(NoWorkingDayError, match="Only 0 working days follow 2027-01-04"):
        week.dates(MONDAY, 1)


@given(st.integers(0, 40), st.sampled_from([5, 6, 7]))
def test_an_hour_of_a_date_falls_on_that_date_or_the_next_open_one(ahead, days):
    week = WorkCalendar(8.0, days)
    day = MONDAY + timedelta(days=ahead)
    found = week.date_of(MONDAY, week.hour_of(MONDAY, day))
    assert found >= day
    assert not any(week.is_open(day + timedelta(days=each)) for each in range((found - day).days))
