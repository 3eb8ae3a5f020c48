"""What evaluating a rulebook on a job gives: an answer with its reasons for every decision."""

from collections.abc import Mapping
from dataclasses import field

from planner.errors import Place
from planner.records import record
from planner.rulebook.facts import Answer, Fact, Facts, Given
from planner.rulebook.syntax import Decision, Operation, Rulebook
from planner.rulebook.values import Entry, Key, Status
from planner.rulebook.world import World

__all__ = ["Answer", "Fact", "Facts", "Given"]


@record
class Rejected:
    """A stocked row or rule row that was not chosen, and the need it failed."""

    choice: str
    failed: str
    why: str


@record
class Voice:
    """One voice of a ``weigh`` decision: practice, physics, maker or given.

    A voice outside its range is shown with the reason, ``outside_because``; it neither governs
    nor counts as a conflict.
    """

    name: str
    kind: str
    entry: Entry
    governs: bool
    source: str
    outside_range: bool = False
    outside_because: str = ""


@record
class Trace:
    """Why one item of a decision came out as it did.

    Attributes
    ----------
    rows
        Table rows that applied, each with its place.
    read
        Names read and what they held for this item.
    rejected, passed
        For ``choose``: rows that failed a need, rows that would also do; ``margins`` holds the
        comparisons of the chosen row.
    voices
        For ``weigh``: each voice.
    own
        For a given value: what the rules alone would have said.
    source
        Name of the source that carries the answer.
    """

    rows: tuple[tuple[str, Place], ...] = ()
    read: Mapping[str, Entry] = field(default_factory=dict)
    rejected: tuple[Rejected, ...] = ()
    passed: tuple[str, ...] = ()
    margins: tuple[str, ...] = ()
    voices: tuple[Voice, ...] = ()
    own: Entry | None = None
    formula: str | None = None
    source: str = ""
    decided_by: str | None = None


@record
class Question:
    """Something the builder should confirm."""

    about: str
    text: str


@record
class Outcome:
    """A decision with its answers and the trace of each item."""

    decision: Decision
    answers: Mapping[str, Answer]
    traces: Mapping[Key, Trace]
    given: Given | None = None
    not_applicable: str | None = None
    questions: tuple[Question, ...] = ()
    conflicts: tuple[Question, ...] = ()

    @property
    def status(self) -> Status:
        """The least settled status of its answers."""
        if self.not_applicable is not None:
            return Status.NOT_APPLICABLE
        return max((answer.status for answer in self.answers.values()), default=Status.WAITING)


@record
class Missing:
    """A reading that is not there: what it is, how to take it, what it blocks."""

    name: str
    what: str
    how: str
    blocks: tuple[str, ...]
    due: bool


@record
class CautionLine:
    """A caution that applies, or may apply while something is not settled."""

    severity: str
    text: str
    may_apply: bool = False


@record
class Advised:
    """An advice whose condition holds, with its texts filled in."""

    name: str
    about: tuple[str, ...]
    voices: Mapping[str, str]
    cautions: tuple[CautionLine, ...]
    conflict_between: tuple[str, ...] = ()
    ways_out: tuple[str, ...] = ()
    may_apply: bool = False
    source: str = ""


@record
class Called:
    """An operation that is in the plan, or perhaps is, with the items that called it."""

    operation: Operation
    perhaps: bool
    where: tuple[str, ...]
    because: tuple[str, ...]
    cautions: tuple[CautionLine, ...]
    texts: Mapping[str, str]


@record
class Results:
    """Everything a rulebook says about a job."""

    rulebook: Rulebook
    facts: Facts
    outcomes: Mapping[str, Outcome]
    advice: tuple[Advised, ...]
    called: tuple[Called, ...]
    missing: tuple[Missing, ...]
    assumptions: tuple[tuple[str, str, str], ...]
    """Each assumed input: name, what is assumed in shop words, because."""
    world: World
    """Where texts look names up once more when they are printed."""
