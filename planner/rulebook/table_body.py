"""Bodies of decision tables: columns resolved, rows read, and the whole proved."""

from collections.abc import Mapping as AMapping

from planner.datafiles.nodes import Mapping, Node, Sequence
from planner.errors import Problem
from planner.rulebook.cells import Cell, parse_cell
from planner.rulebook.columns import Column
from planner.rulebook.conditions import cell_text, column_of
from planner.rulebook.gives import Outline
from planner.rulebook.hits import Hit, parse_hit
from planner.rulebook.inputs import unknown_source
from planner.rulebook.keys import check_keys, text_of, texts_of
from planner.rulebook.literals import read_literal
from planner.rulebook.ranges import Unreadable, bad
from planner.rulebook.refs import Ref
from planner.rulebook.scope import Scope
from planner.rulebook.syntax import Row, Source, TableBody
from planner.rulebook.table_proof import prove
from planner.rulebook.tables import Row as TableRow
from planner.rulebook.tables import Table
from planner.rulebook.values import Value

ROW_EXTRAS = ("source", "impossible", "because", "note")


def read_table_body(
    outline: Outline,
    scope: Scope,
    sources: AMapping[str, Source],
    source: str,
    problems: list[Problem],
) -> tuple[TableBody, list[Ref]]:
    """Read and prove ``table:``.

    Parameters
    ----------
    outline
        The decision.
    scope
        Names its columns may be.
    sources
        Known sources.
    source
        The decision's own source, for rows that name none.
    problems
        Where to put what is found; a table with a bad cell is not proved.

    Returns
    -------
    tuple of TableBody and list of Ref
        The body, and the names it reads.
    """
    node = outline.node.get("table")
    if not isinstance(node, Mapping):
        raise bad(
            f"{outline.name}: table is not a block", "write columns: and rows:", outline.entry.key
        )
    odd = check_keys(node, ("hit", "columns", "rows", "source"), f"{outline.name}: table")
    if odd:
        raise Unreadable(odd[0])
    refs, columns = _columns(outline, node, scope)
    hit = _hit(outline, node)
    rows_node = node.get("rows")
    if not isinstance(rows_node, Sequence) or not rows_node.items:
        raise bad(f"{outline.name}: the table has no rows", "list them under rows:", node.place)
    common = text_of(node.get("source"), outline.name) or source
    read = [_row(outline, columns, item, sources, common) for item in _blocks(rows_node, outline)]
    found = [problem for _, _, problem in read if problem is not None]
    problems += found
    rows = tuple(row for row, _, _ in read)
    table = Table(
        columns,
        [
            TableRow(cells, _comparable(row), row.place, _rank(outline, row))
            for row, cells, _ in read
            if cells is not None
        ],
        hit,
    )
    if not found:
        problems += prove(table).problems(rows_node.place)
    return TableBody(tuple(ref.text for ref in refs), hit.value, rows, table, refs), list(refs)


def _columns(
    outline: Outline, node: Mapping, scope: Scope
) -> tuple[tuple[Ref, ...], tuple[Column, ...]]:
    place = node.key_place("columns")
    names = texts_of(node.get("columns"), f"{outline.name}: columns")
    if not names:
        raise bad(f"{outline.name}: the table has no columns", "list them under columns:", place)
    refs = tuple(scope.resolve(name, place) for name in names)
    for ref in refs:
        if ref.optional:
            raise bad(
                f"{outline.name}: {ref.text} is optional, so it may not be stated",
                "only a weigh decision may read it",
                place,
            )
    per = scope.joined([ref.type.per for ref in refs])
    if set(per) != set(outline.per):
        comes = f"per: {per[0] if len(per) == 1 else list(per)}" if per else "no per"
        raise bad(
            f"{outline.name}: its columns stand per {', '.join(per) or 'nothing'}",
            f"write {comes}",
            place,
        )
    return refs, tuple(column_of(ref, place) for ref in refs)


def _hit(outline: Outline, node: Mapping) -> Hit:
    text = text_of(node.get("hit"), f"{outline.name}: hit") or "unique"
    hit = parse_hit(text, node.key_place("hit"))
    if isinstance(hit, Problem):
        raise Unreadable(hit)
    names = [give.name for give in outline.gives.values() if give.type.form == "names"]
    if hit is Hit.COLLECT and len(names) != len(outline.gives):
        raise bad(
            f"{outline.name}: collect gathers names, and it gives a value",
            "use hit: collect min, max, sum or count, or another hit",
            node.key_place("hit"),
        )
    if names and hit is not Hit.COLLECT:
        raise bad(
            f"{outline.name}: {names[0]} is a list of names, gathered from every row",
            "add hit: collect",
            node.place,
        )
    return hit


def _blocks(node: Sequence, outline: Outline) -> list[Mapping]:
    blocks = []
    for item in node.items:
        if not isinstance(item, Mapping):
            raise bad(
                f"{outline.name}: a row is not a block of cells",
                "write {NAME: cell, ...}",
                item.place,
            )
        blocks.append(item)
    return blocks


Read = tuple[Row, tuple[Cell, ...] | None, Problem | None]


def _row(
    outline: Outline,
    columns: tuple[Column, ...],
    node: Mapping,
    sources: AMapping[str, Source],
    common: str,
) -> Read:
    blank = Row({}, common, node.place, "")
    try:
        cells = _cells(outline, columns, node)
        results, impossible = _results(outline, node)
        source = text_of(node.get("source"), outline.name) or common
    except Unreadable as error:
        return blank, None, error.problem
    if source not in sources:
        return blank, None, unknown_source(source, node.place, dict(sources))
    text = ", ".join(f"{column.name} {cell_text(_given(node, column.name))}" for column in columns)
    return Row(results, source, node.place, text, impossible), cells, None


def _given(node: Mapping, key: str) -> Node:
    found = node.get(key)
    if found is None:
        raise bad(
            f"this row says nothing of {key}",
            f"write {key}: any if it does not matter",
            node.place,
        )
    return found


def _cells(outline: Outline, columns: tuple[Column, ...], node: Mapping) -> tuple[Cell, ...]:
    names = [column.name for column in columns]
    odd = check_keys(node, (*names, *outline.gives, *ROW_EXTRAS), f"a row of {outline.name}")
    if odd:
        raise Unreadable(odd[0])
    cells = []
    for column in columns:
        given = _given(node, column.name)
        cell = parse_cell(cell_text(given), column, given.place)
        if isinstance(cell, Problem):
            raise Unreadable(cell)
        cells.append(cell)
    return tuple(cells)


def _results(outline: Outline, node: Mapping) -> tuple[dict[str, Value], str | None]:
    impossible = node.get("impossible")
    if impossible is not None:
        return {}, text_of(impossible, f"{outline.name}: impossible")
    results: dict[str, Value] = {}
    for name, give in outline.gives.items():
        given = node.get(name)
        if given is None:
            raise bad(
                f"this row gives no {name}",
                f"add {name}:, or impossible: with the reason",
                node.place,
            )
        results[name] = read_literal(given, give.type, name)
    return results, None


def _comparable(row: Row) -> object:
    return (
        row.impossible,
        tuple(sorted((name, repr(value)) for name, value in row.results.items())),
    )


def _rank(outline: Outline, row: Row) -> int:
    """Place of the row's word in its ``one_of``, for hit priority."""
    if row.impossible is not None:
        return -1
    for name, give in outline.gives.items():
        word = row.results.get(name)
        if give.type.form == "choice" and isinstance(word, str) and word in give.type.words:
            return give.type.words.index(word)
    return 0
