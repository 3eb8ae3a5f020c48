"""Columns of a decision table: what values a cell may speak of, and the range declared."""

import re

from planner.errors import BorewrightError, Place, Problem
from planner.records import record
from planner.units.dimension import NONE, Dimension, dimension_name
from planner.units.kinds import sum_kind
from planner.units.parse import parse_quantity, round_significant, to_unit
from planner.units.table import Unit


class BadCell(BorewrightError):  # noqa: N818 - named like the other errors told to a user
    """A cell, or a declared range, that cannot be read or cannot hold."""


class OutsideDeclaredRange(BorewrightError):  # noqa: N818 - named like the other errors told to a user
    """A table was asked about a value it was not proved for."""


@record
class Span:
    """A stretch of numbers, SI; an open end does not belong to it."""

    low: float
    high: float
    low_open: bool = False
    high_open: bool = False

    @property
    def empty(self) -> bool:
        """Whether no number is left in the span."""
        edge_out = self.low_open or self.high_open
        return self.low > self.high or (self.low == self.high and edge_out)

    def contains(self, si: float) -> bool:
        """Tell whether a number lies in the span."""
        after = si > self.low or (si == self.low and not self.low_open)
        before = si < self.high or (si == self.high and not self.high_open)
        return after and before

    def shared(self, other: "Span") -> "Span":
        """Give what two spans have in common; it may be empty."""
        low = max(self.low, other.low)
        high = min(self.high, other.high)
        return Span(
            low,
            high,
            any(each.low == low and each.low_open for each in (self, other)),
            any(each.high == high and each.high_open for each in (self, other)),
        )

    def covers(self, other: "Span") -> bool:
        """Tell whether every number of another span lies in this one."""
        return self.shared(other) == other


@record
class NumberColumn:
    """A column of numbers over a declared range.

    Attributes
    ----------
    name
        The input or decision the column reads.
    span
        The declared range, SI.
    unit
        The declared unit; None for a plain number.
    kind
        Gauge, diameter and so on; None where only the unit matters.
    declared
        The range as the rulebook wrote it, for messages.
    """

    name: str
    span: Span
    unit: Unit | None
    kind: str | None
    declared: str

    def number(self, si: float) -> str:
        """Give a number in the column's unit, without the unit."""
        return f"{si if self.unit is None else to_unit(si, self.unit):.10g}"

    def show(self, si: float) -> str:
        """Give a number with the column's unit."""
        return f"{self.number(si)}{self.suffix}"

    @property
    def suffix(self) -> str:
        """The unit with a space before it, or nothing for a plain number."""
        return f" {self.unit.name}" if self.unit is not None and self.unit.name else ""


@record
class ChoiceColumn:
    """A column of words, in the order the choice declares them."""

    name: str
    words: tuple[str, ...]


Column = NumberColumn | ChoiceColumn

_ENDS = re.compile(r"([\[\](])\s*(.+?)\s*\.\.\s*(.+?)\s*([\[\])])", re.ASCII)
_BARE = re.compile(r"[+\-\N{MINUS SIGN}]?[\d.]+(?:[eE][+-]?\d+)?", re.ASCII)
_LOW_OPEN = {"[": False, "(": True, "]": True}
_HIGH_OPEN = {"]": False, ")": True, "[": True}


def parse_range(
    text: str, place: Place | None, *, unit: Unit | None, kind: str | None = None
) -> Span | Problem:
    """Read a declared range such as ``[0 bar .. 4 bar]``.

    Parameters
    ----------
    text
        The range as written; a round bracket leaves that end out. The unit may stand once or
        at both ends.
    place
        Where it is written.
    unit
        The unit declared beside it, which fixes what is measured; None for a plain number.
    kind
        The kind declared beside it; the range may not say another one.

    Returns
    -------
    Span or Problem
        The range in SI, or what is wrong with it.
    """
    try:
        span = read_ends(text, unit, kind)
    except BorewrightError as error:
        return Problem(f"range {text!r}: {error.problem} ({error.reason})", error.remedy, place)
    if span is None:
        example = "[0 .. 4]" if unit is None else f"[0 {unit.name} .. 4 {unit.name}]"
        return Problem(
            f"range {text!r} is not written as a range",
            f'write both ends in brackets, for example "{example}"',
            place,
        )
    return span


def read_ends(text: str, unit: Unit | None, kind: str | None) -> Span | None:
    """Read ``[low .. high]`` with any mix of brackets; None when it is not written so."""
    found = _ENDS.fullmatch(text.strip())
    if found is None:
        return None
    opening, low_text, high_text, closing = found.groups()
    low, high = read_pair(low_text, high_text, unit, kind)
    span = Span(low, high, _LOW_OPEN[opening], _HIGH_OPEN[closing])
    refuse_empty(span, low_text, high_text)
    return span


def read_pair(
    low_text: str, high_text: str, unit: Unit | None, kind: str | None
) -> tuple[float, float]:
    """Read two ends, SI; where one end has no unit it takes the other's."""
    low_bare, high_bare = _BARE.fullmatch(low_text), _BARE.fullmatch(high_text)
    if low_bare and not high_bare:
        low_text = f"{low_text} {_unit_part(high_text)}"
    if high_bare and not low_bare:
        high_text = f"{high_text} {_unit_part(low_text)}"
    return read_value(low_text, unit, kind), read_value(high_text, unit, kind)


def read_value(text: str, unit: Unit | None, kind: str | None) -> float:
    """Read one value of the right unit and kind, SI.

    Raises
    ------
    BorewrightError
        When the number, its unit or its kind is not what is due.
    """
    dimension: Dimension = NONE if unit is None else unit.dimension
    if unit is not None and not _is_ratio(unit) and _BARE.fullmatch(text.strip()):
        raise BadCell(
            problem=f"{text} has no unit.",
            reason=f"A {dimension_name(dimension)} is due; a guessed unit would be wrong.",
            remedy=f"Write the value with its unit, for example {text} {unit.name}.",
        )
    quantity = parse_quantity(text, dimension)
    sum_kind("compare", quantity.kind, kind)
    return round_significant(quantity.si)


def refuse_empty(span: Span, low_text: str, high_text: str) -> None:
    """Raise when the ends stand the wrong way round, or leave nothing between them."""
    if span.low > span.high:
        raise BadCell(
            problem=f"the low end {low_text} is above the high end {high_text}.",
            reason="No value lies between them.",
            remedy=f"Write the smaller end first: {high_text} and then {low_text}.",
        )
    if span.empty:
        raise BadCell(
            problem=f"nothing lies between {low_text} and {high_text}.",
            reason="The ends are equal and one of them is left out.",
            remedy=f"Write the value alone, {low_text}, or move one end.",
        )


def _is_ratio(unit: Unit) -> bool:
    """Whether a plain number means the same with and without the unit, as for mm/mm."""
    return unit.dimension == NONE and unit.factor == 1.0


def _unit_part(text: str) -> str:
    """Give what follows the number: ``psi`` of ``15 psi``."""
    return _BARE.sub("", text, count=1).strip()
