"""A rulebook after reading: frozen records, one for each thing a rule author writes."""

from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING, Any, Literal

from planner.errors import Place
from planner.records import record
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Value

if TYPE_CHECKING:
    from planner.rulebook.pieces import Comparison, Formula
    from planner.rulebook.refs import Ref
    from planner.rulebook.tables import Table

STAGES = ("enquiry", "inspected", "released", "built")
SOURCE_STATUSES = ("published", "common practice", "from memory", "derived", "demo")
SEVERITIES = ("danger", "warning", "caution", "notice")
AUDIENCES = ("builder", "machinist", "customer")
CONFIDENCE = ("likely", "possible", "no")
"""How sure a cause is, the gravest first."""


@record
class Source:
    """Where figures come from: a status mark, and for a published one what to cite."""

    name: str
    status: str
    cite: str = ""
    note: str = ""
    place: Place | None = None


@record
class Assume:
    """What is taken for an input that is not there, with its reason.

    Attributes
    ----------
    value, between, words
        One value; two ends; or the words of a choice that are left.
    base, below
        Figure of the engine that the ends are counted from, up or down.
    """

    because: str
    source: str
    value: Value | None = None
    between: tuple[float, float] | None = None
    until: str | None = None
    words: tuple[str, ...] = ()
    base: str = ""
    below: bool = False
    place: Place | None = None


@record
class Field:
    """One declared value: an input, or a field of a record or of stock."""

    name: str
    type: ValueType
    place: Place
    ask: str = ""
    how: str = ""
    stage: str = "enquiry"
    job: str = ""
    optional: bool = False
    assume: Assume | None = None
    unlisted: Value | None = None
    unlisted_because: str = ""
    finding: str = ""
    grid_axes: tuple[str, ...] = ()
    points: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@record
class Record:
    """One entry of a catalog that the job names (``engine``)."""

    name: str
    catalog: str
    fields: Mapping[str, Field]
    place: Place
    job: str = ""


@record
class Stock:
    """A set whose items are rows: of a catalog, or of a list inside the chosen record."""

    name: str
    catalog: str
    owner: str | None
    fields: Mapping[str, Field]
    place: Place


@record
class ItemSet:
    """A set of numbered items; ``of`` names the set that owns them in equal groups."""

    name: str
    count: tuple[str, str]
    of: str | None
    called: str
    place: Place


@record
class StockRow:
    """One row of stock with its values.

    ``lists`` holds the stock listed inside it (an engine's oversizes): list, row, field, value.
    ``marks`` names the source of a field that has another than the row.
    """

    id: str
    values: Mapping[str, Value]
    source: str
    place: Place
    lists: Mapping[str, Mapping[str, Mapping[str, Value]]] = field(default_factory=dict)
    marks: Mapping[str, str] = field(default_factory=dict)


@record
class Condition:
    """Cells that must all hold: the resolved name, how items count, and the table cell."""

    ref: Any
    every: Literal["one", "some", "every"]
    cell: Any
    text: str
    place: Place


When = tuple[tuple[Condition, ...], ...]
"""Any of the groups must hold; in a group every condition. Empty: always."""


@record
class Give:
    """One result of a decision."""

    name: str
    type: ValueType
    place: Place


@record
class ValueBody:
    """A decision that is one value."""

    value: Value


@record
class Row:
    """One row of a table: its results, or why there is none."""

    results: Mapping[str, Value]
    source: str
    place: Place
    text: str
    impossible: str | None = None


@record
class TableBody:
    """A decision table; ``table`` is what was proved and what runs."""

    columns: tuple[str, ...]
    hit: str
    rows: tuple[Row, ...]
    table: "Table"
    refs: "tuple[Ref, ...]"


@record
class ComputeBody:
    """A formula, or one for each part of a band (low, target, high)."""

    formulas: Mapping[str, "Formula"]
    function_results: tuple[str, ...] = ()


@record
class Preference:
    """Least or most of a formula."""

    most: bool
    formula: "Formula"


@record
class ChooseBody:
    """One row of stock: named needs, preferences, and what to say when none passes."""

    stock: str
    needs: Mapping[str, "Comparison"]
    prefer: tuple[Preference, ...]
    none: str
    calls: tuple[str, ...] = ()


@record
class Outside:
    """When a voice is outside its range: shown with the reason, and never governing."""

    when: "When"
    because: str


@record
class WeighBody:
    """Voices and which of them governs."""

    says: Mapping[str, "Ref"]
    governs: str
    ask_if: tuple[str, str] | None = None
    question_over: float | None = None
    outside: Mapping[str, Outside] = field(default_factory=dict)


@record
class Sign:
    """One finding for or against a cause: in words, and when it holds."""

    text: str
    when: When
    place: Place


@record
class EvidenceBody:
    """A cause: independent findings for and against it, and what follows from it."""

    speaking: tuple[Sign, ...]
    against: tuple[Sign, ...]
    then: str

    @property
    def signs(self) -> tuple[Sign, ...]:
        """All findings, those that speak for it first."""
        return (*self.speaking, *self.against)

    @property
    def refs(self) -> "tuple[Ref, ...]":
        """Every name that a finding looks at."""
        return tuple(each.ref for sign in self.signs for group in sign.when for each in group)


Body = ValueBody | TableBody | ComputeBody | ChooseBody | WeighBody | EvidenceBody


@record
class NotApplicable:
    """When a decision has no meaning for a job, and why."""

    when: When
    because: str


@record
class Decision:
    """One decision: what it means, what it gives and how it is reached."""

    name: str
    means: str
    gives: Mapping[str, Give]
    per: tuple[str, ...]
    body: Body
    source: str
    place: Place
    given_allowed: bool = False
    given_question_over: float | None = None
    not_applicable: NotApplicable | None = None
    firm_from: tuple[str, str] | None = None
    reads: tuple[str, ...] = ()

    @property
    def form(self) -> str:
        """The word of the language: value, table, compute, choose, weigh or evidence."""
        return type(self.body).__name__.removesuffix("Body").lower()


@record
class Caution:
    """A caution with its condition."""

    severity: str
    text: str
    when: When
    place: Place


@record
class Advice:
    """What to tell the three people about some decisions."""

    name: str
    about: tuple[str, ...]
    when: When
    voices: Mapping[str, str]
    cautions: tuple[Caution, ...]
    source: str
    place: Place
    conflict_between: tuple[str, ...] = ()
    ways_out: tuple[str, ...] = ()


@record
class Inspect:
    """What is measured at an operation: a decision as target, or a text."""

    measure: str
    target: str | None
    text: str
    instrument: str
    place: Place


@record
class Operation:
    """One step of the work with its order, targets, reasons and cautions."""

    name: str
    does: str
    lane: str
    station: str
    hours: tuple[float, float, float]
    work_class: str
    when: When
    called_only: bool
    optional: bool
    needs: tuple[str, ...]
    after: Mapping[str, str]
    implied: Mapping[str, str]
    inspect: tuple[Inspect, ...]
    hold: str
    why: Mapping[str, str]
    if_skipped: str
    rework: str
    cautions: tuple[Caution, ...]
    source: str
    place: Place


@record
class Rulebook:
    """A rulebook that was read and proved.

    ``order`` lists decisions so that each comes after all it reads.
    """

    edition: str
    sha256: str
    sources: Mapping[str, Source]
    inputs: Mapping[str, Field]
    records: Mapping[str, Record]
    stocks: Mapping[str, Stock]
    sets: Mapping[str, ItemSet]
    stock_rows: Mapping[str, Mapping[str, StockRow]]
    decisions: Mapping[str, Decision]
    results: Mapping[str, tuple[str, str]]
    """Result name -> (decision, result)."""
    order: tuple[str, ...]
    advice: Mapping[str, Advice]
    operations: Mapping[str, Operation]
    overridden: tuple[str, ...] = field(default=())
