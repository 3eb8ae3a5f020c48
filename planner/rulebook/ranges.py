"""Declared ranges: whether a number lies in one, and what was probably meant when not."""

import math

from planner.errors import Place, Problem
from planner.rulebook.value_type import ValueType
from planner.units.parse import to_unit
from planner.units.plausible import plausible_readings
from planner.units.table import Unit


class Unreadable(Exception):  # noqa: N818 - what it means, not that it is an error
    """A value could not be read; carries the problem to report."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.what)
        self.problem = problem


def bad(what: str, fix: str, place: Place | None) -> Unreadable:
    """Word an unreadable value."""
    return Unreadable(Problem(what, fix, place))


def inside(
    si: float,
    value: float,
    unit: Unit | None,
    place: Place | None,
    declared: ValueType,
    label: str,
) -> float:
    """Hold a number against the declared range; outside, offer plausible readings."""
    if declared.holds(si):
        return si
    typed = f"{value:g} {unit.name}" if unit and unit.name else f"{value:g}"
    offers = plausible(value, unit, declared)
    hint = f"did you mean {' or '.join(offers)}? " if offers else ""
    raise bad(
        f"{label} is {typed}, outside the range it can have",
        f"{hint}allowed: {range_text(declared)}",
        place,
    )


def plausible(value: float, unit: Unit | None, declared: ValueType) -> list[str]:
    """Offer what a number was probably meant to be."""
    if declared.unit is None or declared.low is None or declared.high is None:
        return []
    allowed = (declared.low, declared.high)
    found = plausible_readings(value, unit, allowed, declared.unit)
    return [f"{text} ({why})" for text, why in found]


def sample_text(declared: ValueType) -> str:
    """Write a value that would be in range, to show how it is written."""
    if declared.unit is None or declared.low is None or declared.high is None:
        return "1.0"
    middle = to_unit((declared.low + declared.high) / 2, declared.unit)
    digits = 2 - math.floor(math.log10(abs(middle))) if middle else 0
    return f"{round(middle, digits):.12g} {declared.unit.name}"


def range_text(declared: ValueType) -> str:
    """Say the declared range in the author's unit."""

    def end(si: float | None) -> str:
        if si is None:
            return "any"
        if declared.unit is None:
            return f"{si:g}"
        return f"{to_unit(si, declared.unit):.6g} {declared.unit.name}"

    return f"{end(declared.low)} to {end(declared.high)}"
