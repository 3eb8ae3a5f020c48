"""The records of a compiled rulebook, each class after those that its fields hold."""

from collections.abc import Callable, Sequence
from dataclasses import fields
from operator import attrgetter
from typing import Any

from planner.errors import Place
from planner.rulebook import syntax, tables
from planner.rulebook.cells import ChoiceCell, NumberCell
from planner.rulebook.columns import ChoiceColumn, NumberColumn, Span
from planner.rulebook.formulas import parse_comparison, parse_formula
from planner.rulebook.hits import Hit
from planner.rulebook.packing import Kind
from planner.rulebook.pieces import Comparison, Formula
from planner.rulebook.refs import Ref
from planner.rulebook.scope import Scope
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Band, Interval, Names, OneOf
from planner.units.dimension import Dimension
from planner.units.table import Unit

DECLARED = (
    Place,
    Dimension,
    Unit,
    ValueType,
    Interval,
    Band,
    OneOf,
    Names,
    syntax.Source,
    syntax.Assume,
    syntax.Field,
    syntax.Record,
    syntax.Stock,
    syntax.ItemSet,
    syntax.StockRow,
    syntax.Give,
)
DECLARES = ("inputs", "records", "stocks", "sets", "results", "chosen")
"""The fields of a scope; nothing of a proved rulebook is broken."""
DECIDED = (
    Ref,
    Span,
    NumberCell,
    ChoiceCell,
    NumberColumn,
    ChoiceColumn,
    syntax.Condition,
    tables.Row,
    syntax.Row,
)
BODIES = (
    syntax.ValueBody,
    syntax.TableBody,
    syntax.ComputeBody,
    syntax.Preference,
    syntax.ChooseBody,
    syntax.Outside,
    syntax.WeighBody,
    syntax.Sign,
    syntax.EvidenceBody,
    syntax.NotApplicable,
    syntax.Decision,
    syntax.Caution,
    syntax.Advice,
    syntax.Inspect,
    syntax.Operation,
    syntax.Rulebook,
)


def kinds() -> tuple[Kind, ...]:
    """Return every kind; a set of kinds is used for one rulebook only."""
    formulas = _Formulas()
    written = (
        Kind(Scope, attrgetter(*DECLARES), formulas.open),
        Kind(Formula, attrgetter("text", "place"), formulas.formula),
        Kind(Comparison, attrgetter("text", "place"), formulas.comparison),
    )
    table = Kind(tables.Table, _apart, _together)
    return (
        *map(_kind, DECLARED),
        *written,
        *map(_kind, DECIDED),
        table,
        *map(_kind, BODIES),
    )


class _Formulas:
    """Checks formulas once more against the names of the rulebook they stand in."""

    def __init__(self) -> None:
        self.scope = Scope()

    def open(self, *held: Any) -> Scope:  # noqa: ANN401 - the fields of a scope
        """Take the names that formulas may use."""
        self.scope = Scope(*held)
        return self.scope

    def formula(self, text: str, place: Place) -> Formula:
        """Read and check a formula."""
        return parse_formula(text, place, self.scope)

    def comparison(self, text: str, place: Place) -> Comparison:
        """Read and check a comparison."""
        return parse_comparison(text, place, self.scope)


def _kind(made_of: type) -> Kind:
    return Kind(made_of, _taker(_names(made_of)), made_of)


def _names(made_of: type) -> tuple[str, ...]:
    if issubclass(made_of, tuple):
        named: tuple[str, ...] = made_of._fields  # type: ignore[attr-defined]  # a NamedTuple
        return named
    return tuple(each.name for each in fields(made_of))  # type: ignore[arg-type]  # a dataclass


def _taker(names: tuple[str, ...]) -> Callable[[Any], Sequence[Any]]:
    if len(names) == 1:
        return lambda record: (getattr(record, names[0]),)
    return attrgetter(*names)


def _apart(table: tables.Table) -> tuple[Any, ...]:
    return table.columns, table.rows, table.hit.value


def _together(columns: Any, rows: Any, hit: str) -> tables.Table:  # noqa: ANN401 - checked by use
    return tables.Table(columns, rows, Hit(hit))
