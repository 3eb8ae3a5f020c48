"""Checked pieces of formulas: what they come to, how they run, what they read."""

from collections.abc import Callable, Iterator
from typing import Protocol

from planner.errors import Place
from planner.records import record
from planner.rulebook.refs import Ref
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Entry, Value
from planner.units.dimension import NONE, Dimension
from planner.units.table import Unit


class Env(Protocol):
    """Where a formula finds values while it runs."""

    def entry(self, ref: Ref) -> Entry:
        """Return what a name holds for the items bound here."""

    def bind(self, name: str, item: str) -> "Env":
        """Return the same with one more item bound."""

    def items(self, name: str) -> tuple[str, ...]:
        """Return the items of a set, of the bound owner's group where it has an owner."""


@record
class Typed:
    """What an expression comes to: form, dimension, kind, sets, unit for print, and bounds."""

    form: str
    dimension: Dimension = NONE
    kind: str | None = None
    per: tuple[str, ...] = ()
    unit: Unit | None = None
    plain: bool = False
    low: float | None = None
    high: float | None = None
    words: tuple[str, ...] = ()

    @property
    def banded(self) -> bool:
        """Whether it has a low and a high part."""
        return self.form in ("band", "limits")


Run = Callable[[Env], Value]
Gather = Callable[[Env], Iterator[tuple[str, Entry]]]


@record
class Node:
    """One checked piece of a formula."""

    type: Typed
    run: Run
    gather: Gather
    results: tuple[tuple[str, Typed], ...] = ()


@record
class Formula:
    """A checked formula: its text, the names it reads, its type, and how it runs."""

    text: str
    place: Place
    node: Node
    reads: tuple[Ref, ...]

    @property
    def type(self) -> Typed:
        """What the formula comes to."""
        return self.node.type

    def run(self, env: Env) -> Value:
        """Work it out; every name must be settled."""
        return self.node.run(env)

    def gather(self, env: Env) -> dict[str, Entry]:
        """Collect what every name read holds here."""
        return dict(self.node.gather(env))


@record
class Comparison:
    """A need: two formulas and a sign, or a choice against a word or another choice."""

    text: str
    place: Place
    left: Formula
    sign: str
    right: Formula


def of_type(declared: ValueType) -> Typed:
    """Turn a declared type into the type of an expression."""
    return Typed(
        form=declared.form,
        dimension=declared.dimension,
        kind=declared.kind,
        per=declared.per,
        unit=declared.unit,
        low=declared.low,
        high=declared.high,
        words=declared.words,
    )
