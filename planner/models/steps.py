"""Operations, parts and schedule as the plan document carries them."""

from collections.abc import Mapping
from dataclasses import field

from planner.models.amount import Amount
from planner.records import record


@record(kw_only=True, slots=False)
class CautionDoc:
    """A caution by signal word: danger, warning and caution for people, notice for property."""

    severity: str
    text: str
    may_apply: bool = False


@record(kw_only=True, slots=False)
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
    source
        Mark of its figures: published, common practice, from memory, derived or demo.
    """

    measure: str
    decision: str = ""
    instrument: str = ""
    per: Mapping[str, str] = field(default_factory=dict)
    status: str = ""
    source: str = ""


@record(kw_only=True, slots=False)
class Step:
    """One operation of the plan, in its place in the order.

    Attributes
    ----------
    perhaps
        The operation depends on something that is not yet known.
    because
        What called it into the plan.
    found
        Readings and findings of this job that called for it.
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
    found: tuple[str, ...] = ()
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


@record(kw_only=True, slots=False)
class Part:
    """Something to order, or to hold, and why.

    Attributes
    ----------
    part_class
        The catalog it is chosen from.
    must_have
        What the order must state, as printed: decisions first, then the catalog's figures.
    quantity, quantity_low
        Pieces to buy; the least of them where it is not yet known how many.
    price, lead_days
        Low and high, where the catalog states them; prices in the catalog's own currency, of
        one piece.
    could_be
        Rows still possible where the choice is not settled.
    ordered_at, needed_at
        Operations of the plan that place the order, and that cannot start without the part.
    order
        now, hold or in hand.
    """

    id: str
    title: str
    part_class: str
    grade: str = ""
    where: Mapping[str, str] = field(default_factory=dict)
    must_have: Mapping[str, str] = field(default_factory=dict)
    quantity: int = 1
    quantity_low: int = 1
    price: tuple[str, str] | None = None
    lead_days: tuple[float, float] | None = None
    could_be: tuple[str, ...] = ()
    perhaps: bool = False
    ordered_at: str = ""
    needed_at: tuple[str, ...] = ()
    says: str = ""
    order: str = "hold"
    because: str = ""
    source: str = ""


@record(kw_only=True, slots=False)
class Slot:
    """When one step is planned: working days from the start, and dates where they are known."""

    first_day: int
    last_day: int
    first_date: str = ""
    last_date: str = ""


@record(kw_only=True, slots=False)
class Finish:
    """The day the last step ends: if all goes fast, as usual, if all goes slowly."""

    earliest: str
    likely: str
    latest: str


@record(kw_only=True, slots=False)
class Schedule:
    """What can start now, what waits for what, and when the work is done.

    Attributes
    ----------
    hours, hours_perhaps
        Low, likely and high over all operations that are surely in the plan, and over those
        that perhaps are. Plain sums: lanes run side by side, so days are fewer. [h]
    reopened
        Steps that were done and must be looked at again, each with the reason.
    waits_for
        For each step that cannot start: the steps and the parts it waits for.
    critical_path
        The longest chain of what is left; no timetable is shorter.
    working_days, working_days_likely
        Least and most, and as a rule.
    over_longest_chain
        Share by which the timetable is longer than the longest chain.
    held_up
        Hours that steps stood ready and waited for a bench, a lane or a person. [h]
    """

    can_start_now: tuple[str, ...] = ()
    done: tuple[str, ...] = ()
    hold_points: tuple[str, ...] = ()
    hours: tuple[float, float, float] = (0.0, 0.0, 0.0)
    hours_perhaps: tuple[float, float, float] = (0.0, 0.0, 0.0)
    reopened: Mapping[str, str] = field(default_factory=dict)
    waits_for: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    critical_path: tuple[str, ...] = ()
    working_days: tuple[int, int] | None = None
    working_days_likely: int = 0
    longest_chain_days: int = 0
    over_longest_chain: float = 0.0
    held_up: Mapping[str, float] = field(default_factory=dict)
    start: str = ""
    finish: Finish | None = None
    slots: Mapping[str, Slot] = field(default_factory=dict)
    text: str = ""
