"""What a rule says, apart from where it stands: to tell edited rules from moved ones."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from typing import Any

from planner.errors import Place
from planner.rulebook.pieces import Comparison, Formula
from planner.rulebook.refs import Ref
from planner.rulebook.syntax import ChooseBody, Decision, Rulebook
from planner.rulebook.tables import Table


def said(rule: Any) -> Any:  # noqa: ANN401, PLR0911 - any part of a rulebook, a line each
    """Return what a rule or a part of it says, as tuples that compare; places are left out."""
    if isinstance(rule, Place):
        return None
    if isinstance(rule, (Formula, Comparison)):
        return rule.text
    if isinstance(rule, Table):
        return tuple(said(row.cells) for row in rule.rows), rule.hit.value
    if isinstance(rule, Mapping):
        return tuple((said(key), said(value)) for key, value in rule.items())
    if isinstance(rule, (tuple, list)):
        return tuple(map(said, rule))
    if isinstance(rule, frozenset):
        return tuple(sorted(rule))
    if is_dataclass(rule):
        told = (said(getattr(rule, each.name)) for each in fields(rule))
        return type(rule).__name__, *told
    return rule.value if isinstance(rule, Enum) else rule


class Edited:
    """What two rulebooks say differently.

    Parameters
    ----------
    old, new
        Two proved rulebooks.

    Attributes
    ----------
    decisions
        Decisions that are new, gone or say something else, or read what does.
    rows
        Rows of catalogs that are new, gone or other, as ``catalog ROW``, by catalog.
    elsewhere
        Whether anything else differs that a plan can show: operations, advice, sources.
    """

    def __init__(self, old: Rulebook, new: Rulebook) -> None:
        self.old, self.new = old, new
        self.rows = dict(_rows(old, new))
        self.inputs = set(_differing(old.inputs, new.inputs))
        written = set(_differing(old.decisions, new.decisions))
        touched = {
            name
            for book in (old, new)
            for name, each in book.decisions.items()
            if self.behind(each)
        }
        self.decisions = frozenset(written | touched)
        self.written = frozenset(written)
        self.operations = frozenset(_differing(old.operations, new.operations))
        self.elsewhere = bool(
            self.operations
            or self.rows
            or any(_differing(old.advice, new.advice))
            or any(_differing(old.sources, new.sources))
        )

    @property
    def nothing(self) -> bool:
        """Whether no job can come out another way."""
        return not (self.decisions or self.inputs or self.elsewhere)

    def behind(self, decision: Decision) -> tuple[str, ...]:
        """Name the edited catalog rows and inputs that a decision reads itself."""
        body = decision.body
        read = {ref.name: ref for ref in references(decision)}
        stocks = {body.stock} if isinstance(body, ChooseBody) else set()
        stocks |= {name for name, ref in read.items() if ref.origin in ("stock", "chosen")}
        found = [name for name in read if name in self.inputs]
        for name in sorted(stocks | (read.keys() & self.new.records.keys())):
            found += self.rows.get(self._catalog(name), ())
        return tuple(dict.fromkeys(found))

    def _catalog(self, name: str) -> str:
        known = self.new.stocks.get(name) or self.new.records.get(name)
        return known.catalog if known is not None else name


def references(part: Any) -> Iterator[Ref]:  # noqa: ANN401 - any part of a rulebook
    """Find every resolved name in a part of a rulebook."""
    if isinstance(part, Ref):
        yield part
    for each in _inside(part):
        yield from references(each)


def _inside(part: Any) -> Iterable[Any]:  # noqa: ANN401 - any part of a rulebook
    if isinstance(part, (Ref, Place)):
        return ()
    if isinstance(part, Formula):
        return part.reads
    if isinstance(part, Mapping):
        return part.values()
    if isinstance(part, (tuple, list)):
        return part
    return (getattr(part, each.name) for each in fields(part)) if is_dataclass(part) else ()


def _differing(old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[str]:
    for name in {**old, **new}:
        if name not in old or name not in new or said(old[name]) != said(new[name]):
            yield name


def _rows(old: Rulebook, new: Rulebook) -> Iterator[tuple[str, tuple[str, ...]]]:
    for catalog in {**old.stock_rows, **new.stock_rows}:
        rows = tuple(
            f"{catalog} {row}"
            for row in _differing(old.stock_rows.get(catalog, {}), new.stock_rows.get(catalog, {}))
        )
        if rows:
            yield catalog, rows
