"""Operations, parts and schedule as the plan document carries them."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from planner.models.amount import Amount


@dataclass(frozen=True, kw_only=True)
class CautionDoc:
    """A caution by signal word: danger, warning and caution for people, notice for property."""

    severity: str
    text: str
    may_apply: bool = False


@dataclass(frozen=True, kw_only=True)
class Target(Amount):
    """What is measured at an operation and what it must come to.

    Attributes
    ----------
    measure
        What to measure.
    decision
        The decision that gives the target; empty when the rule states it in words.
    per
        Targets by item, as printed, where items differ.
    status
        Status of the decision behind it.
    """

    measure: str
    decision: str = ""
    instrument: str = ""
    per: Mapping[str, str] = field(default_factory=dict)
    status: str = ""


@dataclass(frozen=True, kw_only=True)
class Step:
    """One operation of the plan, in its place in the order.

    Attributes
    ----------
    perhaps
        The operation depends on something that is not yet known.
    because
        What called it into the plan.
    after
        Operations of this plan that must stand before it, each with the reason.
    hold
        What must be signed before the next step, framed by the sheets as a hold point.
    rework
        What to repeat when the check fails.
    done
        When and by whom it was done, empty while it is open.
    """

    step: int
    id: str
    title: str
    lane: str
    station: str
    work_class: str = "work"
    hours: tuple[float, float, float]
    perhaps: bool = False
    where: tuple[str, ...] = ()
    because: tuple[str, ...] = ()
    after: Mapping[str, str] = field(default_factory=dict)
    targets: tuple[Target, ...] = ()
    hold: str = ""
    why: Mapping[str, str] = field(default_factory=dict)
    if_skipped: str = ""
    rework: str = ""
    cautions: tuple[CautionDoc, ...] = ()
    optional: bool = False
    done: str = ""
    source: str = ""


@dataclass(frozen=True, kw_only=True)
class Part:
    """Something to order, or to hold, and why.

    Attributes
    ----------
    part_class
        The catalog it is chosen from.
    must_have
        Its figures, as printed.
    price, lead_days
        Low and high, where the catalog states them; prices in the catalog's own currency.
    order
        now or hold.
    """

    id: str
    title: str
    part_class: str
    grade: str
    where: Mapping[str, str] = field(default_factory=dict)
    must_have: Mapping[str, str] = field(default_factory=dict)
    price: tuple[str, str] | None = None
    lead_days: tuple[float, float] | None = None
    order: str = "hold"
    because: str = ""
    source: str = ""


@dataclass(frozen=True, kw_only=True)
class Schedule:
    """What can start now, which hold points are open, and the hours in all.

    Attributes
    ----------
    hours, hours_perhaps
        Low, likely and high over all operations that are surely in the plan, and over those
        that perhaps are. Plain sums: lanes run side by side, so days are fewer.
    """

    can_start_now: tuple[str, ...] = ()
    done: tuple[str, ...] = ()
    hold_points: tuple[str, ...] = ()
    hours: tuple[float, float, float] = (0.0, 0.0, 0.0)
    hours_perhaps: tuple[float, float, float] = (0.0, 0.0, 0.0)
