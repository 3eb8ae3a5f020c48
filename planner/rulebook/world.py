"""Where names get their values while a job is worked out, and for which items."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cached_property
from itertools import product
from typing import Literal

from planner.records import record
from planner.rulebook.assumptions import assumed_value
from planner.rulebook.facts import Answer, Facts
from planner.rulebook.hulls import joined
from planner.rulebook.intervals import unsettled
from planner.rulebook.refs import Ref
from planner.rulebook.scope import Scope, scope_of
from planner.rulebook.syntax import STAGES, Field, Rulebook
from planner.rulebook.values import Band, Entry, Item, Key, OneOf, Status, Value

NOT_STATED = "not stated"
System = Literal["metric", "inch", "both"]


class World:
    """The job's facts and every answer found so far.

    Parameters
    ----------
    rulebook
        The proved rulebook.
    facts
        What the job says.
    system
        Units that texts are filled in.
    """

    def __init__(self, rulebook: Rulebook, facts: Facts, system: System = "metric") -> None:
        self.rulebook, self.facts, self.system = rulebook, facts, system
        self.answers: dict[str, Answer] = {}
        self.assumed: dict[str, Field] = {}
        self._inputs: dict[tuple[str, Key], Entry] = {}
        self._stage = STAGES.index(facts.stage)

    @cached_property
    def scope(self) -> Scope:
        """The names of the proved rulebook, to resolve what stands in texts."""
        return scope_of(self.rulebook)

    def items(self, name: str) -> tuple[Item, ...]:
        """Return every item of a set, or row id of a stock."""
        if name in self.facts.sets:
            return self.facts.sets[name]
        stock = self.rulebook.stocks[name]
        if stock.owner is not None:
            return tuple(self.facts.owned.get(stock.catalog, {}))
        return tuple(self.rulebook.stock_rows.get(stock.catalog, {}))

    def owner_item(self, name: str, item: Item) -> Item:
        """Return the owner's item that an item belongs to: equal groups, in order."""
        owner = self.rulebook.sets[name].of or name
        items, owners = self.items(name), self.items(owner)
        share = max(1, len(items) // max(1, len(owners)))
        return owners[min(items.index(item) // share, len(owners) - 1)]

    def group(self, name: str, owner_item: Item) -> tuple[Item, ...]:
        """Return the items of a set that belong to one item of its owner."""
        return tuple(
            each for each in self.items(name) if self.owner_item(name, each) == owner_item
        )

    def keys(self, per: tuple[str, ...]) -> Iterator[Key]:
        """List every combination of items of some sets."""
        return product(*(self.items(name) for name in per))

    def label(self, per: tuple[str, ...], key: Key) -> str:
        """Say which items a key means: ``main 3``, ``exhaust valve 5``."""
        return " ".join(self._one_label(name, item) for name, item in zip(per, key, strict=True))

    def _one_label(self, name: str, item: Item) -> str:
        if name in self.rulebook.sets:
            return f"{self.rulebook.sets[name].called} {item}"
        return item

    def entry(self, ref: Ref, bound: Mapping[str, Item]) -> Entry:
        """Return what a name holds for the items bound."""
        key = self._key(ref.type.per, bound)
        found = self._whole(ref, key)
        band = found.value
        if ref.part is None or not isinstance(band, Band):
            return found
        return replace(found, value=getattr(band, ref.part))

    def entries(self, ref: Ref) -> dict[Key, Entry]:
        """Return what a name holds for every item."""
        return {
            key: self.entry(ref, dict(zip(ref.type.per, key, strict=True)))
            for key in self.keys(ref.type.per)
        }

    def _key(self, per: tuple[str, ...], bound: Mapping[str, Item]) -> Key:
        return tuple([self._bound_item(name, bound) for name in per]) if per else ()

    def _bound_item(self, name: str, bound: Mapping[str, Item]) -> Item:
        if name in bound:
            return bound[name]
        for other, item in bound.items():
            if other in self.rulebook.sets and self.rulebook.sets[other].of == name:
                return self.owner_item(other, item)
        raise LookupError(name)

    def _whole(self, ref: Ref, key: Key) -> Entry:
        if ref.origin == "input":
            return self.input(self.rulebook.inputs[ref.name], key)
        if ref.origin == "record":
            return self._record(ref)
        if ref.origin == "stock":
            return self._row_field(ref.name, key[0], ref.field or "")
        answer = self.answers.get(ref.name)
        if answer is None or key not in answer.entries:
            return Entry(status=Status.WAITING, waiting_for=(ref.name,))
        entry = answer.entries[key]
        return entry if ref.origin == "result" else self._chosen(ref, answer, entry)

    def _record(self, ref: Ref) -> Entry:
        value = self.facts.records.get(ref.name, {}).get(ref.field or "")
        if value is not None:
            return Entry(value)
        if ref.optional:
            return Entry(status=Status.NOT_APPLICABLE, refused=NOT_STATED)
        return Entry(status=Status.WAITING, waiting_for=(f"{ref.name}.{ref.field}",))

    def _row_field(self, stock: str, row: Item, name: str) -> Entry:
        declared = self.rulebook.stocks[stock]
        if declared.owner is not None:
            value = self.facts.owned.get(declared.catalog, {}).get(row, {}).get(name)
        else:
            value = self.rulebook.stock_rows[declared.catalog][row].values.get(name)
        if value is None:
            return Entry(status=Status.NOT_APPLICABLE, refused=NOT_STATED)
        return Entry(value)

    def _chosen(self, ref: Ref, answer: Answer, entry: Entry) -> Entry:
        stock = answer.type.catalog or ""
        if isinstance(entry.value, OneOf):
            fields = [self._row_field(stock, row, ref.field or "") for row in entry.value.words]
            sure = tuple(name for name in entry.assumed if name not in entry.loose)
            status = Status.PROVISIONAL if sure else Status.FIRM
            return with_value(
                replace(entry, status=status, assumed=sure),
                joined(
                    [field.value for field in fields if field.value is not None], ref.type.words
                ),
            )
        if not isinstance(entry.value, str):
            return entry
        found = self._row_field(stock, entry.value, ref.field or "")
        return replace(entry, value=found.value) if found.value is not None else found

    def input(self, field: Field, key: Key) -> Entry:
        """Return an input's entry: typed, unlisted, assumed, not stated, or waiting."""
        cached = self._inputs.get((field.name, key))
        if cached is None:
            cached = self._inputs[field.name, key] = self._read_input(field, key)
        return cached

    def _read_input(self, field: Field, key: Key) -> Entry:
        fact = self.facts.inputs.get(field.name)
        if fact is not None and key in fact.entries:
            return fact.entries[key]
        label = self.label(field.type.per, key)
        name = f"{field.name} of {label}" if label and fact is not None else field.name
        value, still = self.assumption(field)
        if value is not None and (still or unsettled(value)):
            self.assumed[field.name] = field
            loose = (field.name,) if unsettled(value) else ()
            overdue = () if still else (name,)
            return Entry(value, Status.PROVISIONAL, (field.name,), loose=loose, overdue=overdue)
        if field.optional:
            return Entry(status=Status.NOT_APPLICABLE, refused=NOT_STATED)
        return Entry(status=Status.WAITING, waiting_for=(name,))

    def assumption(self, field: Field) -> tuple[Value | None, bool]:
        """Return what is assumed for an input on this engine, and whether it still holds.

        Two ends outlive their stage for what comes out the same between them; what does not
        waits for the reading.
        """
        assume = field.assume
        if assume is None:
            return None, False
        value = assumed_value(assume, field.type, self.facts.records)
        return value, self._still(assume.until)

    def _still(self, until: str | None) -> bool:
        return until is None or self._stage < STAGES.index(until)

    def env(self, bound: Mapping[str, Item]) -> "Bound":
        """Open an environment for a formula."""
        return Bound(self, dict(bound))


@record
class Bound:
    """A world with some items bound; the environment formulas run in."""

    world: World
    bound: dict[str, Item]

    def entry(self, ref: Ref) -> Entry:
        """Return what a name holds here."""
        return self.world.entry(ref, self.bound)

    def bind(self, name: str, item: Item) -> "Bound":
        """Bind one more item."""
        return Bound(self.world, {**self.bound, name: item})

    def items(self, name: str) -> tuple[Item, ...]:
        """Return the items of a set, of the bound owner's group where it has one."""
        owner = self.world.rulebook.sets[name].of if name in self.world.rulebook.sets else None
        if owner is not None and owner in self.bound:
            return self.world.group(name, self.bound[owner])
        return self.world.items(name)

    def keys(self, per: tuple[str, ...]) -> Iterator[Key]:
        """List every combination of items of some sets, of a bound owner its own only."""
        return product(*(self.items(name) for name in per))


def combine(read: Mapping[str, Entry]) -> Entry:
    """Say what an answer rests on: the least settled of what it reads.

    Returns
    -------
    Entry
        Without a value; firm or provisional when the answer can be worked out.
    """
    plain = True
    for name, entry in read.items():
        if entry.status or entry.assumed or entry.loose or entry.overdue or entry.may_refuse:
            plain = False
        if entry.unproved:
            told = (
                f"{name} was given outside the range its rules were proved for; "
                "give this value too, or bring that one into its range"
            )
            return Entry(status=Status.REFUSED, refused=told)
    return _SETTLED if plain else _combined(read)


_SETTLED = Entry()
"""What most answers rest on: nothing assumed, nothing open. Made once, for speed."""


def _combined(read: Mapping[str, Entry]) -> Entry:
    worst = max((_standing(entry) for entry in read.values()), default=Status.FIRM)
    if worst in (Status.NOT_APPLICABLE, Status.REFUSED):
        why = next(entry.refused for entry in read.values() if entry.status == worst)
        lead = next(name for name, entry in read.items() if entry.status == worst)
        if worst == Status.NOT_APPLICABLE and why == NOT_STATED:
            return Entry(status=Status.WAITING, waiting_for=(lead,))
        return Entry(status=worst, refused=why)
    if worst == Status.WAITING:
        return Entry(status=worst, waiting_for=_joined(e.waiting_for for e in read.values()))
    # what is overdue but lies between two ends may still settle what it is read for
    loose = _joined(entry.loose for entry in read.values())
    assumed = _joined(
        tuple(name for name in entry.assumed if name not in entry.loose) for entry in read.values()
    )
    overdue = _joined(entry.overdue for entry in read.values())
    status = Status.PROVISIONAL if assumed else Status.FIRM
    may_refuse = any(entry.may_refuse for entry in read.values())
    return Entry(
        status=status, assumed=assumed, loose=loose, overdue=overdue, may_refuse=may_refuse
    )


def _standing(entry: Entry) -> Status:
    """Return how settled an entry counts where it is read; what lies between ends can be used."""
    if entry.status == Status.WAITING and entry.value is not None:
        return Status.PROVISIONAL
    return entry.status


def _joined(parts: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    filled = [part for part in parts if part]
    if len(filled) < 2:
        return filled[0] if filled else ()
    return tuple(dict.fromkeys([name for part in filled for name in part]))


def with_value(base: Entry, value: Value) -> Entry:
    """Put a value on what it rests on; what is known only loosely counts if the value is open."""
    if not unsettled(value):
        # written out, as it is done for nearly every answer and replace() is slow
        return Entry(
            value,
            base.status,
            base.assumed,
            base.waiting_for,
            base.refused,
            base.unproved,
            may_refuse=base.may_refuse,
        )
    status = Status.WAITING if base.overdue else Status.PROVISIONAL
    return replace(
        base,
        value=value,
        status=max(base.status, status),
        assumed=_joined((base.assumed, base.loose)),
        waiting_for=base.overdue,
    )
