"""A reading of the finished engine with how it was taken, and a signature for one not proved."""

from collections.abc import Mapping
from dataclasses import dataclass

from planner.errors import Place
from planner.rulebook.values import Grid


@dataclass(frozen=True, slots=True)
class Measured:
    """One item as it was read. SI.

    Attributes
    ----------
    uncertainty
        Standard uncertainty stated with the reading, or of the gauge named; none for the usual.
    worked_out
        From what, where nobody typed it.
    """

    grid: Grid
    uncertainty: float | None = None
    gauge: str = ""
    instrument: str = ""
    by: str = ""
    on: str = ""
    note: str = ""
    worked_out: str = ""
    confirmed: str = ""
    confirmed_by: str = ""
    place: Place | None = None

    @property
    def holds_from(self) -> str:
        """The day from which the reading holds: taken, or looked at again and left to stand."""
        return max(self.on, self.confirmed)

    @property
    def low(self) -> float:
        """The smallest reading."""
        return min(min(row) for row in self.grid)

    @property
    def high(self) -> float:
        """The largest reading."""
        return max(max(row) for row in self.grid)

    @property
    def mean(self) -> float:
        """The mean of all readings."""
        cells = [cell for row in self.grid for cell in row]
        return sum(cells) / len(cells)


Readings = Mapping[str, Measured]
"""Readings of one fit by item; the item of the whole engine is the empty word."""


@dataclass(frozen=True, slots=True)
class Acceptance:
    """Somebody's signature for a reading that is not proved."""

    fit: str
    item: str
    by: str
    on: str
    because: str
