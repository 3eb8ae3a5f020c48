"""Values and blocks of readings of a job, each read by the input that it stands for."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from planner.datafiles.nodes import Mapping, Node, Scalar, Sequence
from planner.errors import BorewrightError, Place, Problem, nearest
from planner.planning.job_items import Items, called, span_of
from planner.planning.job_keys import BLOCK_KEYS, Branch, allowed_keys
from planner.planning.job_nodes import UNKNOWN, is_unknown, scalars, unknown_keys
from planner.records import record
from planner.rulebook.literals import read_literal
from planner.rulebook.ranges import Unreadable
from planner.rulebook.results import Fact
from planner.rulebook.syntax import Field, Rulebook
from planner.rulebook.values import Entry, Key, Value
from planner.units import NONE, Unit, parse_quantity


@record
class Reading:
    """What one input found in the job: the node, and the unit that bare numbers take."""

    input: Field
    node: Node
    unit: Unit | None
    branch: Branch
    parent: Mapping | None = None


@dataclass(slots=True)
class Reader:
    """Reads the inputs of a job, collecting every problem.

    Attributes
    ----------
    rulebook
        Declares the inputs.
    sets
        Items of this engine.
    problems
        What was found wrong or must be asked.
    """

    rulebook: Rulebook
    sets: Items
    problems: list[Problem] = field(default_factory=list)

    def read(self, reading: Reading) -> Fact | None:
        """Read one input; nothing when the job holds no value for it."""
        node = self._values_of(reading)
        if node is None or is_unknown(node, reading.input):
            return None
        before = len(self.problems)
        if self._lacks_unit(node, reading):
            return None
        fact = self._fact(node, reading)
        self._fold(before)
        return fact if fact is not None and fact.entries else None

    def _fact(self, node: Node, reading: Reading) -> Fact | None:
        each = reading.input
        if not each.type.per:
            value = self._one(node, reading, "")
            if value is None:
                return None
            return Fact(each.name, {(): Entry(value)}, {(): node.place})
        entries: dict[Key, Entry] = {}
        places: dict[Key, Place] = {}
        for item, inner in self._items(node, reading):
            value = self._one(inner, reading, f" {self._called(each)} {item}")
            if value is not None:
                entries[(item,)] = Entry(value)
                places[(item,)] = inner.place
        return Fact(each.name, entries, places)

    def _one(self, node: Node, reading: Reading, item: str) -> Value | None:
        if is_unknown(node, reading.input):
            return None
        declared = replace(reading.input.type, per=())
        label = f"{reading.branch.path}{item}"
        if self._leaves_kind_open(node, reading, label):
            return None
        try:
            value = read_literal(node, declared, label, reading.unit)
        except Unreadable as error:
            self.problems.append(error.problem)
            return None
        self._check_shape(value, node, reading, label)
        return value

    def _items(self, node: Node, reading: Reading) -> Iterator[tuple[str, Node]]:
        """Pair items with their nodes: a mapping by item, or a list in item order."""
        known = self.sets.get(reading.input.type.per[0], ())
        if not known:
            return
        if isinstance(node, Sequence):
            yield from self._listed(node, reading, known)
        elif isinstance(node, Mapping):
            yield from self._named(node, reading, known)
        else:
            spoken = self._called(reading.input)
            self._problem(
                f"{reading.branch.path} is one value, where each {spoken} has its own",
                f"write {{{known[0]}: {node.text}, ...}} for {spoken} {span_of(known)}",
                node.place,
            )

    def _listed(
        self, node: Sequence, reading: Reading, known: tuple[str, ...]
    ) -> Iterator[tuple[str, Node]]:
        if len(node.items) != len(known):
            spoken = self._called(reading.input)
            self._problem(
                f"{reading.branch.path} lists {len(node.items)} values for {len(known)} items",
                f"write one for each {spoken}, {span_of(known)}; "
                f"write {UNKNOWN} for one that was not measured",
                node.place,
            )
            return
        yield from zip(known, node.items, strict=True)

    def _named(
        self, node: Mapping, reading: Reading, known: tuple[str, ...]
    ) -> Iterator[tuple[str, Node]]:
        spoken = self._called(reading.input)
        for key, inner in node.entries:
            if key.text in known:
                yield key.text, inner
            else:
                offer = nearest(key.text, allowed_keys(reading.branch))
                hint = f"did you mean {offer}? " if offer else ""
                fix = f"{hint}this engine has {spoken} {span_of(known)}"
                self._problem(f"{reading.branch.path} has no {spoken} {key.text}", fix, key.place)
        absent = [item for item in known if node.get(item) is None]
        some = len(absent) < len(known)
        if absent and some and reading.input.unlisted is None:
            self._problem(
                f"{reading.branch.path} has no reading for {spoken} {', '.join(absent)}",
                f"measure it, or write {absent[0]}: {UNKNOWN} and what needs it waits",
                node.place,
            )

    def _values_of(self, reading: Reading) -> Node | None:
        """Find the values in a block that may also hold a unit, notes and other inputs."""
        node, each = reading.node, reading.input
        if not isinstance(node, Mapping):
            return node
        if node.get("readings") is not None:
            self._refuse_others(node, reading, (*BLOCK_KEYS, *reading.branch.children))
            return node.get("readings")
        known = (*BLOCK_KEYS, *reading.branch.children)
        if not each.type.per and not any(key.text in known for key, _ in node.entries):
            return node  # a band by its parts, or a block where one value belongs
        own = [(key, inner) for key, inner in node.entries if key.text not in known]
        if each.type.per:
            return Mapping(tuple(own), node.place, node.span) if own else None
        self._refuse_others(node, reading, known)
        return None

    def _refuse_others(self, node: Mapping, reading: Reading, allowed: tuple[str, ...]) -> None:
        self.problems += unknown_keys(node, reading.branch.path, allowed)

    def _lacks_unit(self, node: Node, reading: Reading) -> bool:
        """Say once for a whole block that its bare numbers have no unit."""
        declared = reading.input.type
        unit = reading.unit
        if declared.unit is None or (unit and unit.dimension == declared.dimension):
            return False
        bare = [each for each in scalars(node) if isinstance(each.value, int | float)]
        several = declared.per or declared.form == "grid"
        if not bare or not several or isinstance(bare[0].value, bool):
            return False
        why = f" (the block's {unit.name} does not fit)" if unit else ""
        self._problem(
            f"{reading.branch.path}: the readings have no unit{why}",
            f"add unit: {declared.unit.name} to the block, if that is what was measured",
            bare[0].place,
        )
        return True

    def _leaves_kind_open(self, node: Node, reading: Reading, label: str) -> bool:
        """Refuse a pressure that says neither gauge nor absolute; boost alone is read as gauge."""
        kind = reading.input.type.kind
        if kind not in NAMED_PRESSURES or reading.input.name == BOOST:
            return False
        if not isinstance(node, Scalar) or _kind_said(node, reading.unit):
            return False
        self._problem(
            f"{label} is {node.text}, which does not say gauge or absolute",
            f"write {node.text} gauge for a gauge reading: above the air around",
            node.place,
        )
        return True

    def _check_shape(self, value: Value, node: Node, reading: Reading, label: str) -> None:
        """Hold a grid against the depths and axes that its block lists."""
        block = reading.node
        if not isinstance(value, tuple) or not isinstance(block, Mapping):
            return
        for keys, found, what in (
            (("depths", "planes"), len(value), "rows"),
            (("axes",), len(value[0]), "readings in a row"),
        ):
            listed = next((block.get(key) for key in keys if block.get(key) is not None), None)
            if isinstance(listed, Sequence) and len(listed.items) != found:
                self._problem(
                    f"{label} has {found} {what}, but the block lists "
                    f"{len(listed.items)} {keys[0] if keys[0] == 'axes' else 'of them'}",
                    "give every reading that the block lists, or take the one out that "
                    "was not measured",
                    node.place,
                )

    def _fold(self, before: int) -> None:
        """Tell a slip that runs through a whole block once, with how often it occurs."""
        found = self.problems[before:]
        kept: list[Problem] = []
        for problem in found:
            like = [each for each in found if _shape(each) == _shape(problem)]
            if len(like) < MANY:
                kept.append(problem)
            elif problem is like[0]:
                more = f"{problem.what}, and {len(like) - 1} more like it in this block"
                kept.append(replace(problem, what=more))
        self.problems[before:] = kept

    def _called(self, each: Field) -> str:
        return called(self.rulebook, each.type.per[0])

    def _problem(self, what: str, fix: str, place: Place) -> None:
        self.problems.append(Problem(what, fix, place))


MANY = 3
BOOST = "boost"
NAMED_PRESSURES = ("gauge", "absolute")
_FIGURES = re.compile(r"[\d.]+")


def _kind_said(node: Scalar, unit: Unit | None) -> bool:
    """Tell whether a pressure says its kind, itself or through the unit of its block."""
    try:
        quantity = parse_quantity(node.text)
    except BorewrightError:
        return True  # unreadable, and told when it is read
    if quantity.unit.dimension == NONE:
        return unit is None or unit.kind is not None
    return quantity.kind is not None


def _shape(problem: Problem) -> str:
    """Return what a problem says without its figures."""
    return _FIGURES.sub("", problem.what)
