"""What a name of the rulebook can hold while a job is worked out."""

from collections.abc import Mapping
from dataclasses import field
from enum import IntEnum

from planner.records import record

Item = str
"""One item of a set: ``"3"`` for cylinder 3, a row id for a stocked part."""

Key = tuple[Item, ...]
"""Items a value belongs to, in the order of its ``per``; ``()`` for the whole engine."""

Grid = tuple[tuple[float, ...], ...]
"""Readings of one item: one row of numbers for each depth or plane, SI."""


@record
class Interval:
    """A number known only to lie between two ends (SI, both ends possible)."""

    low: float
    high: float


@record
class Shifted:
    """Readings that may all move together, by any one amount between two ends. SI."""

    readings: Grid
    low: float
    high: float

    def at(self, shift: float) -> Grid:
        """Return the readings moved by one amount."""
        return tuple(tuple(cell + shift for cell in row) for row in self.readings)


Number = float | Interval


@record
class Band:
    """What to work to (low, target, high), or with no target what is allowed. SI."""

    low: Number
    high: Number
    target: Number | None = None

    def parts(self) -> tuple[Number, ...]:
        """Return the numbers of the band from low to high."""
        if self.target is None:
            return (self.low, self.high)
        return (self.low, self.target, self.high)


@record
class OneOf:
    """A choice of which only some words are left."""

    words: tuple[str, ...]


@record
class Names:
    """Operations, parts or findings called, or perhaps called, and by which items."""

    called: tuple[str, ...] = ()
    perhaps: tuple[str, ...] = ()
    by_items: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@record
class Several:
    """Several named numbers that one formula gives."""

    results: Mapping[str, Number]


Value = float | Interval | Shifted | Band | str | OneOf | Names | Grid | Several


class Status(IntEnum):
    """How settled an answer is; the larger the less settled."""

    FIRM = 0
    PROVISIONAL = 1
    WAITING = 2
    REFUSED = 3
    NOT_APPLICABLE = 4

    @property
    def word(self) -> str:
        """The word the plan prints."""
        return self.name.lower().replace("_", " ")


@record
class Entry:
    """One value with what it rests on.

    ``assumed`` holds the names of assumed inputs (and the texts of reasons to stay
    provisional); ``waiting_for`` the names of what is missing; ``refused`` says why there is no
    answer and what would give one. ``unproved`` marks a given value outside the declared range:
    it stands, but what reads it is refused. ``loose`` holds the names of inputs known only to
    lie between two ends: they leave provisional only what comes out unsettled. ``overdue``
    holds those of them that should have been measured by now: what comes out unsettled waits.
    ``may_refuse`` marks a value that some of what is still open would turn into a refusal.
    """

    value: Value | None = None
    status: Status = Status.FIRM
    assumed: tuple[str, ...] = ()
    waiting_for: tuple[str, ...] = ()
    refused: str | None = None
    unproved: bool = False
    loose: tuple[str, ...] = ()
    may_refuse: bool = False
    overdue: tuple[str, ...] = ()

    @property
    def settled(self) -> bool:
        """Whether there is a value to go on with."""
        return self.value is not None
