"""The schedule as text: the finish as a range, the longest chain, what starts and what waits."""

from planner.models.plan import Plan
from planner.models.steps import Schedule, Slot
from planner.sheets.layout import Lines, heading, table, wrapped

_MOST_WAITS = 4


def schedule_lines(plan: Plan, audience: str) -> Lines:
    """Tell when the work can be done.

    Parameters
    ----------
    plan
        The plan document.
    audience
        The customer reads the finish and what sets it; the others every step.

    Returns
    -------
    list of str
        Lines; none when the plan has no timetable.
    """
    schedule = plan.schedule
    if schedule.working_days is None:
        return []
    lines = [*heading("Schedule", "="), *_finish(schedule), *wrapped(schedule.text)]
    numbers = {each.id: each.step for each in plan.operations}
    chain = " > ".join(_named(name, numbers) for name in schedule.critical_path)
    lines += ["", *wrapped(chain, "", "Longest chain: ")]
    lines += _reopened(schedule)
    if audience == "customer":
        return lines
    start = ", ".join(_named(name, numbers) for name in schedule.can_start_now) or "nothing"
    lines += ["", *wrapped(start, "", "Can start now: "), *_waits(schedule, numbers)]
    return [*lines, "", "Planned, when all goes as usual:", *_slots(schedule, numbers)]


def _finish(schedule: Schedule) -> Lines:
    if schedule.finish is None:
        return wrapped(
            "No start date is known, so days are counted from the start; write quote.start."
        )
    finish = schedule.finish
    return table(
        [
            ("Start", schedule.start),
            ("Finish", f"{finish.likely} as a rule"),
            ("", f"{finish.earliest} if all goes fast, {finish.latest} if all goes slowly"),
        ]
    )


def _reopened(schedule: Schedule) -> Lines:
    if not schedule.reopened:
        return []
    lines = ["", "REOPENED by what was learned since:"]
    for name, reason in schedule.reopened.items():
        lines += wrapped(f"{name}: {reason}", "  ", "- ")
    return lines


def _waits(schedule: Schedule, numbers: dict[str, int]) -> Lines:
    if not schedule.waits_for:
        return []
    lines = ["", "Waits for:"]
    for name, waits in schedule.waits_for.items():
        told = [_named(each, numbers) for each in waits[:_MOST_WAITS]]
        more = len(waits) - len(told)
        rest = f" and {more} more" if more else ""
        lines += wrapped(f"{', '.join(told)}{rest}", "  ", f"{_named(name, numbers)}: ")
    return lines


def _slots(schedule: Schedule, numbers: dict[str, int]) -> Lines:
    rows = [
        (_span((slot.first_day, slot.last_day), (slot.first_date, slot.last_date)), name)
        for name, slot in _by_day(schedule)
    ]
    return table([(span, _named(name, numbers)) for span, name in rows], "  ")


def _by_day(schedule: Schedule) -> list[tuple[str, Slot]]:
    return sorted(schedule.slots.items(), key=lambda each: (each[1].first_day, each[1].last_day))


def _span(days: tuple[int, int], dates: tuple[str, str]) -> str:
    first, last = dates if dates[0] else (f"day {days[0]}", f"{days[1]}")
    return first if days[0] == days[1] else f"{first} to {last}"


def _named(name: str, numbers: dict[str, int]) -> str:
    return f"{numbers[name]} {name.replace('_', ' ')}" if name in numbers else name
