"""A value as the plan document carries it: numbers in a shop unit, a word, or names."""

from collections.abc import Mapping
from dataclasses import field

from planner.records import record


@record(kw_only=True, slots=False)
class Bounds:
    """The two ends between which something unsettled surely lies."""

    low: float
    high: float


@record(kw_only=True, slots=False)
class Amount:
    """One value of a decision.

    Attributes
    ----------
    low, target, high
        The band to work to, in `unit`; a single number is `target` alone, limits have no target.
    unit
        Shop unit of the numbers; none for a plain number.
    bounds
        Ends of a number that is not settled.
    value
        The word of a choice, or the row of a catalog.
    could_be
        Words still possible for a choice that is not settled.
    called, perhaps
        For a list of operations or parts: those called, and those perhaps called.
    text
        The value as a person reads it.
    """

    low: float | None = None
    target: float | None = None
    high: float | None = None
    unit: str | None = None
    bounds: Bounds | None = None
    value: str | None = None
    could_be: tuple[str, ...] = ()
    called: tuple[str, ...] = ()
    perhaps: tuple[str, ...] = ()
    text: str = ""


@record(kw_only=True, slots=False)
class ItemAmount(Amount):
    """The value of one item, with its own status where it differs from the whole.

    Attributes
    ----------
    status
        firm, provisional, waiting, refused or not applicable.
    refused
        Why this item has no answer.
    waiting_for
        Names of what this item waits for.
    """

    status: str = "firm"
    refused: str | None = None
    waiting_for: tuple[str, ...] = ()


PerItem = Mapping[str, Mapping[str, ItemAmount]]
"""Set name, item, value. Two sets stand as `rod, shell_pairs` with items `1, standard`."""


@record(kw_only=True, slots=False)
class Result(Amount):
    """One named result of a decision that gives several."""

    per: PerItem = field(default_factory=dict)
