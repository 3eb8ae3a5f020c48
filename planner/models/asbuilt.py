"""The as-built record, `borewright.record/1`: readings, verdicts, cures, signatures."""

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from planner.records import record

SCHEMA = "borewright.record/1"

State = Literal[
    "pass",
    "fail",
    "indeterminate",
    "gauge too coarse",
    "accepted",
    "out of date",
    "missing",
    "no limits",
]
"""accepted: not proved, and signed for; out of date: work was done after the reading."""

SETTLED: tuple[State, ...] = ("pass", "accepted")
UNPROVED: tuple[State, ...] = ("indeterminate", "gauge too coarse")


@record(kw_only=True, slots=False)
class Taken:
    """How a reading was taken, and by whom.

    Attributes
    ----------
    uncertainty
        Standard uncertainty, as printed.
    worked_out
        From what, where nobody typed the reading itself.
    confirmed
        Who let it stand after later work, when and why.
    """

    gauge: str = ""
    instrument: str = ""
    uncertainty: str = ""
    by: str = ""
    on: str = ""
    note: str = ""
    worked_out: str = ""
    confirmed: str = ""


@record(kw_only=True, slots=False)
class ItemVerdict:
    """One reading held against its limits.

    Attributes
    ----------
    where
        The item in shop words; empty for the whole engine.
    low, high
        The smallest and the largest reading, in the unit of the fit.
    limit_low, limit_high, target
        What it is held to, in the same unit.
    verdict
        ISO 14253-1: conform, nonconform, indeterminate or gauge too coarse.
    inside_limit
        The shop's plain acceptance.
    probability
        That the size truly lies inside, where the verdict is open.
    """

    where: str
    state: State
    item: str = ""
    low: float | None = None
    high: float | None = None
    limit_low: float | None = None
    limit_high: float | None = None
    target: float | None = None
    reading: str = ""
    limits: str = ""
    verdict: str = ""
    inside_limit: bool | None = None
    probability: float | None = None
    side: str = ""
    because: str = ""
    taken: Taken = field(default_factory=Taken)


@record(kw_only=True, slots=False)
class FitDoc:
    """One thing measured of the finished engine.

    Attributes
    ----------
    at
        The operation it is measured at.
    limits_from
        The decision, or field of the engine, that gives the limits.
    """

    id: str
    title: str
    clearance: bool
    unit: str
    at: str
    limits_from: str
    items: tuple[ItemVerdict, ...]


@record(kw_only=True, slots=False)
class Cure:
    """One way to put a failed reading right.

    Attributes
    ----------
    metal
        none, exchange, polish, hone, cut or replace; least metal first.
    amount
        How far the reading is from its limit and its aim.
    repeat_from
        The operation to do again.
    reopens
        Operations of the plan that follow it and are open again, it included.
    reopens_done
        Those of them that were already done.
    parts
        Parts in hand that would do, with what each would come to.
    """

    fit: str
    where: str
    id: str
    metal: str
    says: str
    amount: str = ""
    repeat_from: str = ""
    reopens: tuple[str, ...] = ()
    reopens_done: tuple[str, ...] = ()
    rework: str = ""
    parts: tuple[str, ...] = ()


@record(kw_only=True, slots=False)
class HoldDoc:
    """A hold point: signed, ready to sign, blocked, or signed without being measured."""

    operation: str
    hold: str
    state: Literal["signed", "ready to sign", "blocked", "signed but not proved"]
    day: str = ""
    by: str = ""
    open: tuple[str, ...] = ()


@record(kw_only=True, slots=False)
class Verification:
    """Everything measured of a finished engine.

    Attributes
    ----------
    counts
        How many readings stand in each state.
    not_applicable
        Fits that this build does not have, with the reason.
    problems
        Readings that have no date, and the like.
    """

    fits: tuple[FitDoc, ...]
    counts: Mapping[str, int]
    cures: tuple[Cure, ...] = ()
    holds: tuple[HoldDoc, ...] = ()
    not_applicable: Mapping[str, str] = field(default_factory=dict)
    questions: tuple[str, ...] = ()

    @property
    def settled(self) -> bool:
        """Whether every reading passed or was signed for."""
        return all(each.state in SETTLED for fit in self.fits for each in fit.items)


@record(kw_only=True, slots=False)
class SignedStep:
    """One operation of the build with who did it and when."""

    id: str
    title: str
    day: str = ""
    by: str = ""


@record(kw_only=True, slots=False)
class BuildRecord:
    """The final record of a build.

    Attributes
    ----------
    revision, job_sha256
        The state of the job file that it was made from.
    sha256
        Check code of the record itself, over everything else in it.
    """

    schema: str = SCHEMA
    name: str
    reference: str
    engine: str
    rules_edition: str
    rules_sha256: str
    version: str
    revision: int
    job_sha256: str
    specification: Mapping[str, str]
    fits: tuple[FitDoc, ...]
    not_applicable: Mapping[str, str]
    holds: tuple[HoldDoc, ...]
    steps: tuple[SignedStep, ...]
    sha256: str = ""
