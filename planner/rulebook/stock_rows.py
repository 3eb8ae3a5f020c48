"""Rows of stock: their fields, the lists inside them, and the marks of single fields."""

from collections.abc import Mapping as AMapping
from collections.abc import Sequence as AnySequence

from planner.datafiles.nodes import Mapping, Node
from planner.errors import Problem
from planner.rulebook.files import StockBlock
from planner.rulebook.inputs import unknown_source
from planner.rulebook.keys import check_keys, text_of, texts_of
from planner.rulebook.literals import read_literal
from planner.rulebook.ranges import Unreadable
from planner.rulebook.syntax import Field, Source, Stock, StockRow
from planner.rulebook.values import Value

Lists = dict[str, dict[str, dict[str, Value]]]


def read_stock_rows(
    rows: AMapping[str, StockBlock],
    fields: AMapping[str, Field],
    sources: AMapping[str, Source],
    problems: list[Problem],
    owned: AnySequence[Stock] = (),
) -> dict[str, StockRow]:
    """Read the rows of one catalog by the fields its set declares.

    Parameters
    ----------
    rows
        Row id to its block, with the catalog's source and marks.
    fields
        Fields the rulebook declares for it.
    sources
        Known sources.
    problems
        Where to put what is found.
    owned
        Stock listed inside a row, as an engine lists its oversizes.

    Returns
    -------
    dict of str to StockRow
        The rows that could be read.
    """
    found = {}
    for name, block in rows.items():
        node = block.entry.node
        if not isinstance(node, Mapping):
            told = f"row {name} is not a block of fields"
            problems.append(Problem(told, "write {field: value, ...}", node.place))
            continue
        allowed = (*fields, "source", "note", *(each.catalog for each in owned))
        problems += check_keys(node, allowed, f"row {name}")
        source = text_of(node.get("source"), name) or block.source
        if source not in sources:
            problems.append(unknown_source(source, block.entry.key, dict(sources)))
        found[name] = StockRow(
            name,
            read_row(name, node, fields, problems),
            source,
            block.entry.key,
            {each.catalog: _listed(each, node.get(each.catalog), problems) for each in owned},
            _marks(block, fields, sources, problems),
        )
    return found


def _listed(
    stock: Stock, node: Node | None, problems: list[Problem]
) -> dict[str, dict[str, Value]]:
    """Read the rows of stock listed inside an entry."""
    if node is None:
        return {}
    if not isinstance(node, Mapping):
        problems.append(
            Problem(
                f"{stock.catalog} is not a block of rows", "write ROW: {field: value}", node.place
            )
        )
        return {}
    rows = {}
    for key, inner in node.entries:
        if not isinstance(inner, Mapping):
            problems.append(
                Problem(
                    f"{stock.catalog} {key.text} is not a block of fields",
                    "write {field: value}",
                    inner.place,
                )
            )
            continue
        problems += check_keys(inner, tuple(stock.fields), f"{stock.catalog} {key.text}")
        rows[key.text] = read_row(key.text, inner, stock.fields, problems)
    return rows


def _marks(
    block: StockBlock,
    fields: AMapping[str, Field],
    sources: AMapping[str, Source],
    problems: list[Problem],
) -> dict[str, str]:
    """Name the source of fields that have another than their row; told once for a catalog."""
    marks: dict[str, str] = {}
    if not isinstance(block.marks, Mapping):
        return marks
    for key, inner in block.marks.entries:
        told: list[Problem] = []
        if key.text not in sources:
            told.append(unknown_source(key.text, key.place, dict(sources)))
        for name in texts_of(inner, "marks"):
            if name not in fields:
                told.append(
                    Problem(
                        f"marks names {name!r}, which is no field",
                        f"fields: {', '.join(fields)}",
                        inner.place,
                    )
                )
            marks[name] = key.text
        problems += [each for each in told if each not in problems]
    return marks


def read_row(
    name: str,
    node: Mapping,
    fields: AMapping[str, Field],
    problems: list[Problem],
    *,
    complete: bool = True,
) -> dict[str, Value]:
    """Read one row's fields; a field without a value is a problem unless it is optional."""
    values: dict[str, Value] = {}
    for key, field in fields.items():
        inner = node.get(key)
        if inner is None:
            if complete and not field.optional:
                problems.append(
                    Problem(
                        f"{name} lacks {key}",
                        f"add {key}: to it ({field.ask or 'a field'})",
                        node.place,
                    )
                )
            continue
        try:
            values[key] = read_literal(inner, field.type, f"{name}.{key}")
        except Unreadable as error:
            problems.append(error.problem)
    return values
