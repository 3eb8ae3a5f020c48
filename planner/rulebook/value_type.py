"""What kind of value a name of the rulebook holds, as declared by the rule's author."""

from dataclasses import replace
from typing import Literal

from planner.records import record
from planner.units.dimension import NONE, Dimension
from planner.units.table import Unit

Form = Literal["number", "band", "limits", "choice", "names", "grid"]


@record
class ValueType:
    """Form, unit, kind, range and sets of one name.

    Attributes
    ----------
    form
        Number, band, limits, choice, names or grid.
    unit
        Shop unit the author declared, for reading and printing; none for a plain number.
    dimension
        Exponents of length, mass, time and temperature.
    kind
        Gauge, diameter, clearance on diameter and so on; none where only the unit matters.
    per
        Sets over which there is one value for each item, at most two.
    low, high, low_open, high_open
        Declared range in SI; open ends do not belong to it.
    words
        Words of a choice, worst or most careful first.
    step
        Rounding step for print, SI.
    catalog
        Stock a choice's words are the rows of, if they are.
    """

    form: Form
    unit: Unit | None = None
    dimension: Dimension = NONE
    kind: str | None = None
    per: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    low_open: bool = False
    high_open: bool = False
    words: tuple[str, ...] = ()
    step: float | None = None
    catalog: str | None = None

    @property
    def numeric(self) -> bool:
        """Whether the value is made of numbers."""
        return self.form in ("number", "band", "limits", "grid")

    def over(self, per: tuple[str, ...]) -> "ValueType":
        """Return the same type for the given sets."""
        return self if per == self.per else replace(self, per=per)

    def as_number(self) -> "ValueType":
        """Return the type of one number of this band, limits or grid."""
        return self if self.form == "number" else replace(self, form="number")

    def holds(self, si: float) -> bool:
        """Tell whether a number lies in the declared range (twelve digits decide)."""
        if self.low is not None:
            low = float(f"{self.low:.12g}")
            if si < low or (self.low_open and si == low):
                return False
        if self.high is not None:
            high = float(f"{self.high:.12g}")
            if si > high or (self.high_open and si == high):
                return False
        return True
