"""The job as the shop wrote it: what no rule reads, and what the plan's head names."""

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from planner.records import record

SheetUnits = Literal["metric", "inch", "both"]
SHEET_UNITS: tuple[SheetUnits, ...] = ("metric", "inch", "both")


@record(kw_only=True, slots=False)
class FindingEntry:
    """A finding as the builder typed it."""

    id: str
    title: str
    where: str
    degree: str
    note: str = ""
    photo: str = ""


@record(kw_only=True, slots=False)
class Done:
    """When an operation was done, by whom, and to which specification.

    Attributes
    ----------
    spec
        Check code of what the plan asked of the operation when it was done.
    """

    day: str
    by: str = ""
    spec: str = ""


@record(kw_only=True, slots=False)
class QuoteKeys:
    """What the shop writes on a quote: its number, its date, and when work can start."""

    number: str = ""
    date: str = ""
    start: str = ""


@record(kw_only=True, slots=False)
class TypedTorque:
    """What a fastener maker's sheet says, typed into the job."""

    value: str
    origin: str


@record(kw_only=True, slots=False)
class Budget:
    """What the customer will spend, as typed, with the currency."""

    low: str
    high: str
    currency: str


@record(kw_only=True, slots=False)
class Job:
    """One job.

    Attributes
    ----------
    stage_held
        The stage the job is held back to; none when it is not held.
    engine
        Name of the catalog entry, or ``inline``.
    history
        What the customer told and the running tests showed, as typed.
    as_built
        Names of the decisions that finished measurements stand for.
    """

    name: str
    reference: str = ""
    sheet_units: SheetUnits = "metric"
    stage_held: str | None = None
    engine: str = ""
    complaint: str = ""
    budget: Budget | None = None
    deadline: str = ""
    accessories: str = ""
    history: Mapping[str, str] = field(default_factory=dict)
    findings: tuple[FindingEntry, ...] = ()
    progress: Mapping[str, Done] = field(default_factory=dict)
    as_built: tuple[str, ...] = ()
    quote: QuoteKeys = field(default_factory=QuoteKeys)
    torque_sheet: Mapping[str, TypedTorque] = field(default_factory=dict)
