"""What a job gives to a rulebook, and the answers found from it."""

from collections.abc import Mapping
from dataclasses import field

from planner.errors import Place
from planner.records import record
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Entry, Key, Status, Value


@record
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


@record
class Given:
    """A value the job gives for a decision, whole or by item."""

    name: str
    entries: Mapping[Key, Value]
    origin: str
    place: Place | None = None


@record
class Fact:
    """What the job says of one input: its entries and where they were typed."""

    name: str
    entries: Mapping[Key, Entry]
    places: Mapping[Key, Place] = field(default_factory=dict)


@record
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
