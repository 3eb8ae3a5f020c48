"""Formulas of the rule language: a whitelisted syntax tree, checked, then run. Never ``eval``."""

import ast
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Protocol

from planner.errors import KindClash, Place, Problem
from planner.rulebook.literals import Unreadable
from planner.rulebook.scope import Ref, Scope
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Entry, Value
from planner.units.dimension import NONE, Dimension
from planner.units.kinds import Operation, sum_kind
from planner.units.table import Unit

_DECIMAL_COMMA = re.compile(r"(?<![\w.])\d+,\d+")


class Env(Protocol):
    """Where a formula finds values while it runs."""

    def entry(self, ref: Ref) -> Entry:
        """Return what a name holds for the items bound here."""

    def bind(self, name: str, item: str) -> "Env":
        """Return the same with one more item bound."""

    def items(self, name: str) -> tuple[str, ...]:
        """Return the items of a set, of the bound owner's group where it has an owner."""


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class Node:
    """One checked piece of a formula."""

    type: Typed
    run: Run
    gather: Gather
    results: tuple[tuple[str, Typed], ...] = ()


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class Comparison:
    """A need: two formulas and a sign, or a choice against a word or another choice."""

    text: str
    place: Place
    left: Formula
    sign: str
    right: Formula


class Checker:
    """What the pieces of one formula share while they are checked."""

    def __init__(self, text: str, place: Place, scope: Scope) -> None:
        self.text, self.place, self.scope = text, place, scope
        self.reads: list[Ref] = []

    def bad(self, what: str, fix: str) -> Unreadable:
        """Word a problem in this formula."""
        return Unreadable(Problem(f"{what}, in: {self.text}", fix, self.place))

    def same(self, op: Operation, left: Typed, right: Typed) -> str | None:
        """Return the kind of a sum, or refuse dimensions and kinds that do not go together."""
        if left.dimension != right.dimension:
            raise self.bad(
                f"{_spoken(left)} and {_spoken(right)} cannot go together under {op}",
                "bring both to one unit",
            )
        try:
            return sum_kind(op, left.kind, right.kind)
        except KindClash as clash:
            raise self.bad(clash.problem.rstrip("."), clash.remedy) from clash


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


def _spoken(typed: Typed) -> str:
    return (
        f"a value in {typed.unit.name}"
        if typed.unit
        else ("a plain number" if typed.dimension == NONE else "a value of another unit")
    )


def parse_formula(text: str, place: Place, scope: Scope) -> Formula:
    """Read and check one formula.

    Parameters
    ----------
    text
        The formula as written.
    place
        Where it stands.
    scope
        Names it may use.

    Returns
    -------
    Formula
        Ready to run.

    Raises
    ------
    Unreadable
        With the first thing wrong.
    """
    from planner.rulebook.expressions import check

    tree = _tree(text, place)
    checker = Checker(text, place, scope)
    node = check(tree, checker)
    return Formula(text, place, node, tuple(checker.reads))


SIGNS: dict[type[ast.cmpop], str] = {
    ast.GtE: ">=",
    ast.LtE: "<=",
    ast.Lt: "<",
    ast.Gt: ">",
    ast.Eq: "==",
    ast.NotEq: "!=",
}


def parse_comparison(text: str, place: Place, scope: Scope) -> Comparison:
    """Read and check one comparison of a ``needs``."""
    from planner.rulebook.expressions import check, word_node

    tree = _tree(text, place)
    if not isinstance(tree, ast.Compare) or len(tree.ops) != 1:
        raise Unreadable(
            Problem(
                f"a need is one comparison, not: {text}",
                "write LEFT >= RIGHT; give each condition its own need",
                place,
            )
        )
    checker = Checker(text, place, scope)
    left = check(tree.left, checker)
    sign = SIGNS.get(type(tree.ops[0]), "")
    word = word_node(tree.comparators[0], left) if left.type.form == "choice" else None
    right = word or check(tree.comparators[0], checker)
    _comparable(checker, left.type, sign, right.type)
    reads = tuple(checker.reads)
    return Comparison(
        text, place, Formula(text, place, left, reads), sign, Formula(text, place, right, reads)
    )


def _comparable(checker: Checker, left: Typed, sign: str, right: Typed) -> None:
    if not sign:
        raise checker.bad("that sign is not one of >= <= < > ==", "use one of them")
    if left.form == "choice" or right.form == "choice":
        if left.form != right.form or sign not in ("==", "!="):
            raise checker.bad(
                "a choice can only be compared with == to a word or a choice",
                "compare numbers with numbers, choices with choices",
            )
        return
    for side in (left, right):
        if side.form != "number":
            raise checker.bad(
                f"a {side.form} stands where one number is needed",
                "name the part: low, target or high",
            )
    checker.same("compare", left, right)


def _tree(text: str, place: Place) -> ast.expr:
    if not text.strip():
        raise Unreadable(Problem("the formula is empty", "write it", place))
    comma = _DECIMAL_COMMA.search(text)
    if comma:
        raise Unreadable(
            Problem(
                f"{comma[0]} is written with a comma, in: {text}",
                "write decimals with a point, 0.85; a formula gives one value",
                place,
            )
        )
    try:
        return ast.parse(text.strip(), mode="eval").body
    except (SyntaxError, ValueError, MemoryError, RecursionError) as error:
        detail = error.msg if isinstance(error, SyntaxError) else "too deep"
        raise Unreadable(
            Problem(
                f"the formula cannot be read ({detail}): {text}",
                "use names, numbers, 'quoted quantities', + - * / **, min, max and functions; "
                "words in a quantity need quotes, as in '0.05 mm'",
                place,
            )
        ) from error
