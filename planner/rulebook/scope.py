"""Names a rule may use: what each holds, and where its value comes from."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from planner.errors import Place, Problem, nearest
from planner.records import record
from planner.rulebook.ranges import Unreadable
from planner.rulebook.refs import PARTS, Origin, Ref
from planner.rulebook.syntax import Field, ItemSet, Record, Rulebook, Stock
from planner.rulebook.value_type import ValueType


@record
class Holder:
    """A name that has fields: what it is, its fields, and the sets it stands for."""

    name: str
    origin: Origin
    fields: Mapping[str, Field]
    per: tuple[str, ...]


class AlreadyTold(Exception):  # noqa: N818 - nothing is wrong here that was not told
    """The name itself was reported before; what follows from it stays quiet."""


@dataclass(slots=True)
class Scope:
    """Everything declared so far, to resolve names against."""

    inputs: Mapping[str, Field] = field(default_factory=dict)
    records: Mapping[str, Record] = field(default_factory=dict)
    stocks: Mapping[str, Stock] = field(default_factory=dict)
    sets: Mapping[str, ItemSet] = field(default_factory=dict)
    results: dict[str, tuple[str, ValueType]] = field(default_factory=dict)
    chosen: dict[str, tuple[str, tuple[str, ...]]] = field(default_factory=dict)
    broken: set[str] = field(default_factory=set)

    def names(self) -> list[str]:
        """List every name a formula may start with."""
        return sorted({*self.inputs, *self.records, *self.stocks, *self.results, *self.chosen})

    def known_set(self, name: str) -> bool:
        """Tell whether there is a set of that name."""
        return name in self.sets or name in self.stocks

    def owner(self, name: str) -> str | None:
        """Return the set that owns a set's items in groups, if any."""
        return self.sets[name].of if name in self.sets else None

    def joined(self, sets: list[tuple[str, ...]]) -> tuple[str, ...]:
        """Join sets; an owner is dropped where the set it owns is there too."""
        found: list[str] = []
        for each in sets:
            found.extend(name for name in each if name not in found)
        owners = {self.owner(name) for name in found}
        return tuple(name for name in found if name not in owners)

    def resolve(self, text: str, place: Place) -> Ref:
        """Resolve a dotted name.

        Parameters
        ----------
        text
            The name as written: ``boost``, ``engine.bore``, ``pins.wall``, ``ring_gap.low``.
        place
            Where it stands, for messages.

        Returns
        -------
        Ref
            The resolved name.

        Raises
        ------
        Unreadable
            When there is no such name, with the nearest.
        AlreadyTold
            When the name failed to read itself.
        """
        head, *rest = text.split(".")
        if head in self.broken:
            raise AlreadyTold
        holder = self._holder(head, fields_wanted=bool(rest))
        if holder is not None:
            return self._field(text, rest, holder, place)
        if head in self.results:
            decision, declared = self.results[head]
            ref = Ref(text, "result", head, declared, decision=decision)
            return self._part(ref, rest, place)
        if head in self.inputs:
            given = self.inputs[head]
            ref = Ref(text, "input", head, given.type, optional=given.optional)
            return self._part(ref, rest, place)
        raise self._unknown(head, self.names(), place, "there is no name")

    def _holder(self, head: str, *, fields_wanted: bool) -> "Holder | None":
        """Return what has fields under a name: a record, a stock, or a chosen row."""
        if head in self.records:
            return Holder(head, "record", self.records[head].fields, ())
        if head in self.stocks:
            return Holder(head, "stock", self.stocks[head].fields, (head,))
        if head in self.chosen and fields_wanted:
            stock, per = self.chosen[head]
            return Holder(head, "chosen", self.stocks[stock].fields, per)
        return None

    def _field(self, text: str, rest: list[str], holder: "Holder", place: Place) -> Ref:
        head, fields = holder.name, holder.fields
        if not rest:
            raise Unreadable(
                Problem(
                    f"{head} is a whole {holder.origin} and no one value",
                    f"name one of its fields, for example {head}.{next(iter(fields), 'field')}",
                    place,
                )
            )
        if rest[0] not in fields:
            options = [f"{head}.{name}" for name in fields]
            raise self._unknown(f"{head}.{rest[0]}", options, place, "there is no field")
        declared = fields[rest[0]]
        ref = Ref(
            text,
            holder.origin,
            head,
            declared.type.over(holder.per),
            field=rest[0],
            optional=declared.optional,
            decision=head if holder.origin == "chosen" else None,
        )
        return self._part(ref, rest[1:], place)

    def _part(self, ref: Ref, rest: list[str], place: Place) -> Ref:
        if not rest:
            return ref
        allowed = {"band": PARTS, "limits": ("low", "high")}.get(ref.type.form, ())
        if len(rest) == 1 and rest[0] in allowed:
            return replace(ref, part=rest[0], type=ref.type.as_number())
        parts = f"its parts are {', '.join(allowed)}" if allowed else "it has no parts"
        raise Unreadable(Problem(f"{ref.text}: {'.'.join(rest)} means nothing here", parts, place))

    def _unknown(self, text: str, options: list[str], place: Place, lead: str) -> Unreadable:
        offer = nearest(text, options)
        fix = f"did you mean {offer}?" if offer else "see borewright rules names"
        return Unreadable(Problem(f"{lead} {text!r}", fix, place))


def scope_of(book: Rulebook) -> Scope:
    """Return the names of a proved rulebook."""
    results = {
        name: (decision.name, give.type)
        for decision in book.decisions.values()
        for name, give in decision.gives.items()
    }
    chosen = {
        decision.name: (give.type.catalog, decision.per)
        for decision in book.decisions.values()
        for give in decision.gives.values()
        if give.type.catalog and decision.form == "choose"
    }
    return Scope(book.inputs, book.records, book.stocks, book.sets, results, chosen)
