"""What evaluating a rulebook on a job gives: an answer with its reasons for every decision."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from planner.errors import Place
from planner.rulebook.syntax import Decision, Operation, Rulebook
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Entry, Key, Status, Value

if TYPE_CHECKING:
    from planner.rulebook.world import World


@dataclass(frozen=True, slots=True)
class Rejected:
    """A stocked row or rule row that was not chosen, and the need it failed."""

    choice: str
    failed: str
    why: str


@dataclass(frozen=True, slots=True)
class Voice:
    """One voice of a ``weigh`` decision: practice, physics, maker or given."""

    name: str
    kind: str
    entry: Entry
    governs: bool
    source: str
    outside_range: bool = False


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class Answer:
    """One named result: its type and its entry for every item."""

    name: str
    type: ValueType
    entries: Mapping[Key, Entry]

    @property
    def status(self) -> Status:
        """The least settled status of its items."""
        return max((entry.status for entry in self.entries.values()), default=Status.WAITING)

    def value(self, key: Key = ()) -> Value | None:
        """Return the value of one item, or nothing when it is not settled."""
        entry = self.entries.get(key)
        return None if entry is None else entry.value


@dataclass(frozen=True, slots=True)
class Given:
    """A value the job gives for a decision, whole or by item."""

    name: str
    entries: Mapping[Key, Value]
    origin: str
    place: Place | None = None


@dataclass(frozen=True, slots=True)
class Question:
    """Something the builder should confirm."""

    about: str
    text: str


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class Fact:
    """What the job says of one input: its entries and where they were typed."""

    name: str
    entries: Mapping[Key, Entry]
    places: Mapping[Key, Place] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Facts:
    """All that a job gives to a rulebook.

    Attributes
    ----------
    inputs
        Values of the inputs that are in the job.
    records
        For each record input (``engine``) the fields of the chosen entry.
    sets
        Items of each numbered or engine-owned set.
    owned
        Rows of sets listed inside the engine: set, row, field, value.
    stage
        enquiry, inspected, released or built.
    given
        Values given for decisions.
    """

    inputs: Mapping[str, Fact]
    records: Mapping[str, Mapping[str, Value]]
    sets: Mapping[str, tuple[str, ...]]
    owned: Mapping[str, Mapping[str, Mapping[str, Value]]] = field(default_factory=dict)
    stage: str = "inspected"
    given: Mapping[str, Given] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Missing:
    """A reading that is not there: what it is, how to take it, what it blocks."""

    name: str
    what: str
    how: str
    blocks: tuple[str, ...]
    due: bool


@dataclass(frozen=True, slots=True)
class CautionLine:
    """A caution that applies, or may apply while something is not settled."""

    severity: str
    text: str
    may_apply: bool = False


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class Called:
    """An operation that is in the plan, or perhaps is, with the items that called it."""

    operation: Operation
    perhaps: bool
    where: tuple[str, ...]
    because: tuple[str, ...]
    cautions: tuple[CautionLine, ...]
    texts: Mapping[str, str]


@dataclass(frozen=True, slots=True)
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
    world: "World"
    """Where texts look names up once more when they are printed."""
