"""Values that a maker or the builder gives for a decision: they win, and say where from."""

from dataclasses import dataclass, field, replace
from itertools import product
from typing import cast

from planner.datafiles.nodes import Mapping, Node, Scalar
from planner.errors import Problem, nearest
from planner.planning.job_items import Items, called, span_of
from planner.planning.job_nodes import unit_of_block, unknown_keys
from planner.rulebook.literals import read_literal
from planner.rulebook.ranges import Unreadable
from planner.rulebook.results import Given, Question
from planner.rulebook.syntax import Rulebook
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Band, Key, Value
from planner.units.table import Unit

PARTS = ("low", "target", "high")
KEYS = (*PARTS, "value", "from", "per", "unit", "note")
SAMPLE = "write {low: 0.085 mm, high: 0.095 mm, from: piston drawing}"


@dataclass(slots=True)
class GivenValues:
    """Reads the given block of a job.

    Attributes
    ----------
    rulebook, sets
        The names that may be given, and the items of this engine.
    rows
        Rows of the sets listed inside the engine, for choices among them.
    problems, questions
        What was wrong, and what the plan must say.
    doubts
        Values outside what their decision was proved for: they stand, and are asked about.
    """

    rulebook: Rulebook
    sets: Items
    rows: dict[str, tuple[str, ...]]
    problems: list[Problem]
    questions: list[Question]
    doubts: list[Problem] = field(default_factory=list)

    def read(self, node: Node | None) -> dict[str, Given]:
        """Read every given value."""
        if node is None or (isinstance(node, Scalar) and node.value is None):
            return {}
        if not isinstance(node, Mapping):
            self.problems.append(Problem("given is not a block of decisions", SAMPLE, node.place))
            return {}
        found = {}
        for key, inner in node.entries:
            if key.text not in self.rulebook.results:
                self._unknown(key)
                continue
            given = self._one(key.text, inner)
            if given is not None:
                found[key.text] = given
        return found

    def _unknown(self, key: Scalar) -> None:
        offer = nearest(key.text, self.rulebook.results)
        hint = f"did you mean {offer}? " if offer else ""
        what = f"there is no decision {key.text!r} to give a value for"
        self.problems.append(Problem(what, f"{hint}see borewright rules names", key.place))

    def _one(self, name: str, node: Node) -> Given | None:
        decision, result = self.rulebook.results[name]
        declared = self.rulebook.decisions[decision].gives[result].type
        origin = _text(node.get("from")) if isinstance(node, Mapping) else ""
        if not isinstance(node, Mapping) or not origin:
            what = f"given.{name} does not say where the value comes from"
            self.problems.append(Problem(what, "add from: to its block; " + SAMPLE, node.place))
            return None
        entries = self._entries(name, node, replace(declared, per=()), declared.per)
        return Given(name, entries, origin, node.place) if entries else None

    def _entries(
        self, name: str, node: Mapping, declared: ValueType, per: tuple[str, ...]
    ) -> dict[Key, Value]:
        by_item = node.get("per")
        if by_item is None:
            value = self._value(f"given.{name}", name, node, declared)
            return {} if value is None else dict.fromkeys(self._keys(per), value)
        if not per or not isinstance(by_item, Mapping):
            what = f"given.{name} is written per item, but it has one value for the engine"
            self.problems.append(Problem(what, "write value: or low: and high:", by_item.place))
            return {}
        found: dict[Key, Value] = {}
        items, spoken = self.sets.get(per[0], ()), called(self.rulebook, per[0])
        for key, inner in by_item.entries:
            if key.text not in items:
                what = f"given.{name} has no {spoken} {key.text}"
                fix = f"this engine has {spoken} {span_of(items)}"
                self.problems.append(Problem(what, fix, key.place))
                continue
            value = self._value(f"given.{name} {spoken} {key.text}", name, inner, declared)
            if value is not None:
                found[(key.text,)] = value
        return found

    def _keys(self, per: tuple[str, ...]) -> list[Key]:
        """List every item that a value given for all of them stands for."""
        return list(product(*(self.sets.get(name, self.rows.get(name, ())) for name in per)))

    def _value(self, label: str, name: str, node: Node, declared: ValueType) -> Value | None:
        try:
            return self._read(label, name, node, declared)
        except Unreadable as error:
            self.problems.append(error.problem)
            return None

    def _read(self, label: str, name: str, node: Node, declared: ValueType) -> Value:
        inner = node
        unit = None
        if isinstance(node, Mapping):
            self._check_keys(label, node)
            unit = unit_of_block(node, self.problems)
            inner = node.get("value") or node.get("target") or node
            if declared.form == "band" and (node.get("low") or node.get("high")):
                return self._band(label, name, node, declared)
        if declared.form == "choice":
            return self._word(label, inner, declared)
        if isinstance(inner, Mapping) and declared.form == "number":
            raise Unreadable(Problem(f"{label} holds no value", "write value:", node.place))
        return self._literal(inner, declared, label, unit)

    def _literal(self, node: Node, declared: ValueType, label: str, unit: Unit | None) -> Value:
        """Read a value; one outside the range of its decision stands, and is asked about."""
        value = read_literal(node, replace(declared, low=None, high=None), label, unit)
        try:
            read_literal(node, declared, label, unit)
        except Unreadable as error:
            fix = f"{error.problem.fix}; if it stands, what rests on it has no answer"
            self.doubts.append(replace(error.problem, fix=fix, kind="question"))
        return value

    def _band(self, label: str, name: str, node: Mapping, declared: ValueType) -> Band:
        """Read a band; the middle of low and high is the target when none is written."""
        unit = unit_of_block(node, self.problems)
        parts = {}
        for part in PARTS:
            inner = node.get(part)
            if inner is not None:
                number = self._literal(inner, declared.as_number(), f"{label}.{part}", unit)
                parts[part] = cast("float", number)
        if "low" not in parts or "high" not in parts:
            raise Unreadable(Problem(f"{label} has no low or no high", SAMPLE, node.place))
        if "target" not in parts:
            parts["target"] = (parts["low"] + parts["high"]) / 2
            text = "was given as low and high only; its middle was taken as the aim"
            self.questions.append(Question(name, f"{label} {text}"))
        if not parts["low"] <= parts["target"] <= parts["high"]:
            what = f"{label} does not rise from low over target to high"
            raise Unreadable(Problem(what, "write the smallest as low", node.place))
        return Band(parts["low"], parts["high"], parts["target"])

    def _word(self, label: str, node: Node, declared: ValueType) -> str:
        words = declared.words or self.rows.get(declared.catalog or "", ())
        return str(read_literal(node, replace(declared, words=words), label))

    def _check_keys(self, label: str, node: Mapping) -> None:
        self.problems += unknown_keys(node, label, KEYS)


def _text(node: Node | None) -> str:
    return node.text.strip() if isinstance(node, Scalar) and node.value is not None else ""
