"""The plan document, `borewright.plan/1`: what a job and a rulebook lead to, with reasons."""

from collections.abc import Mapping
from dataclasses import field

from planner.models.amount import Amount, PerItem, Result
from planner.models.cost import Cost
from planner.models.steps import CautionDoc, Part, Schedule, Step
from planner.models.work import RunInStep, TorqueLine
from planner.records import record

SCHEMA = "borewright.plan/1"


@record(kw_only=True, slots=False)
class Stamp:
    """Which rules and which program made the plan."""

    rules_edition: str
    rules_sha256: str
    version: str
    overridden: tuple[str, ...] = ()


@record(kw_only=True, slots=False)
class JobHeader:
    """The job as the head of a sheet names it."""

    name: str
    reference: str = ""
    engine: str = ""
    stage: str = "enquiry"
    stage_because: str = ""
    units: str = "metric"
    complaint: str = ""
    budget: str = ""
    deadline: str = ""


@record(kw_only=True, slots=False)
class Evidence(Amount):
    """What one voice says: practice, physics, maker or given; and whether it governs."""

    name: str = ""
    kind: str = "practice"
    source: str = ""
    governs: bool = False
    refused: str | None = None
    outside_range: bool = False
    outside_because: str = ""


@record(kw_only=True, slots=False)
class RejectedChoice:
    """A stocked row or an alternative that was not chosen, with the need it failed."""

    choice: str
    failed: str
    why: str


@record(kw_only=True, slots=False)
class SourceMark:
    """The mark that every figure carries, and what to cite for a published one."""

    name: str
    status: str
    cite: str = ""


@record(kw_only=True, slots=False)
class Titled:
    """What every decision has whatever its value."""

    title: str
    status: str
    given: bool = False


@record(kw_only=True, slots=False)
class DecisionDoc(Amount, Titled):
    """One decision of the plan: value, status, what it rests on, what it was chosen over.

    Attributes
    ----------
    fields
        Figures of the chosen row, for a choice from stock: `size` of an oversize.
    results
        Values by name for a decision that gives several.
    per
        Values by set and item.
    inputs
        Names read, with what they held, in shop words.
    assumed
        Assumed inputs it rests on, with what is assumed and why.
    governed_because
        How the governing voice was picked, in words.
    also_fit
        Rows that would do too but were not preferred; `margins` holds the comparisons of the
        chosen row.
    """

    fields: Mapping[str, Amount] = field(default_factory=dict)
    results: Mapping[str, Result] = field(default_factory=dict)
    per: PerItem = field(default_factory=dict)
    rule: str = ""
    form: str = ""
    at: str = ""
    inputs: Mapping[str, str] = field(default_factory=dict)
    assumed: Mapping[str, str] = field(default_factory=dict)
    waiting_for: tuple[str, ...] = ()
    refused: str | None = None
    not_applicable: str | None = None
    evidence: tuple[Evidence, ...] = ()
    governed_because: str = ""
    rejected: tuple[RejectedChoice, ...] = ()
    also_fit: tuple[str, ...] = ()
    margins: tuple[str, ...] = ()
    because: Mapping[str, str] = field(default_factory=dict)
    sources: tuple[SourceMark, ...] = ()
    cautions: tuple[CautionDoc, ...] = ()


@record(kw_only=True, slots=False)
class Finding:
    """What the teardown showed at one place."""

    id: str
    title: str = ""
    where: str = ""
    evidence: str = ""
    severity: str | None = None


@record(kw_only=True, slots=False)
class Cause:
    """A possible root cause with what speaks for and against it."""

    cause: str
    confidence: str
    evidence_for: tuple[str, ...] = ()
    against: tuple[str, ...] = ()
    then: str = ""


@record(kw_only=True, slots=False)
class Conflict:
    """Goals or voices that pull apart, and the ways out."""

    between: tuple[str, ...]
    text: str
    ways_out: tuple[str, ...] = ()


@record(kw_only=True, slots=False)
class QuestionDoc:
    """Something the builder should confirm before relying on the plan."""

    about: str
    text: str
    at: str = ""
    fix: str = ""


@record(kw_only=True, slots=False)
class MissingDoc:
    """A reading that is not there: how to take it and what waits for it."""

    name: str
    what: str
    how: str = ""
    due: bool = True
    blocks: tuple[str, ...] = ()


@record(kw_only=True, slots=False)
class Assumption:
    """What is taken for an input that nobody gave, and why."""

    name: str
    text: str
    because: str


@record(kw_only=True, slots=False)
class Plan:
    """The whole plan."""

    schema: str = SCHEMA
    stamp: Stamp
    job: JobHeader
    decisions: Mapping[str, DecisionDoc]
    findings: tuple[Finding, ...] = ()
    diagnosis: tuple[Cause, ...] = ()
    conflicts: tuple[Conflict, ...] = ()
    questions: tuple[QuestionDoc, ...] = ()
    operations: tuple[Step, ...] = ()
    parts: tuple[Part, ...] = ()
    cost: Cost | None = None
    schedule: Schedule
    torque_sheet: tuple[TorqueLine, ...] = ()
    run_in: tuple[RunInStep, ...] = ()
    cautions: tuple[CautionDoc, ...] = ()
    assumptions: tuple[Assumption, ...] = ()
    missing: tuple[MissingDoc, ...] = ()
