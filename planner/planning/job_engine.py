"""The engine of a job, and the other catalog entries it names: by id, or written inline."""

from collections.abc import Mapping as AnyMapping
from dataclasses import dataclass, field

from planner.datafiles.nodes import Mapping, Node, Scalar
from planner.errors import Place, Problem, nearest
from planner.planning.job_nodes import is_unknown
from planner.rulebook.syntax import Record, Rulebook, Stock
from planner.rulebook.values import Value

INLINE = "inline"
Rows = dict[str, dict[str, Value]]


@dataclass(slots=True)
class Chosen:
    """What the job's records hold.

    Attributes
    ----------
    name
        The engine's id, or ``inline``.
    records
        Fields of each chosen record.
    owned
        Rows of the sets listed inside a record: set, row, field.
    places
        Where each field of a record stands, for questions about it.
    """

    name: str = ""
    records: dict[str, AnyMapping[str, Value]] = field(default_factory=dict)
    owned: dict[str, Rows] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)


def choose_records(
    rulebook: Rulebook, nodes: AnyMapping[str, Node], problems: list[Problem]
) -> Chosen:
    """Find every record that the job names.

    Parameters
    ----------
    rulebook
        Declares the records and holds the catalogs.
    nodes
        For each record, the node in the job that names it or holds it.
    problems
        Where to put what is found.

    Returns
    -------
    Chosen
        The records; one that is not in the job is left out.
    """
    chosen = Chosen()
    for record in rulebook.records.values():
        node = nodes.get(record.name)
        if node is None or (isinstance(node, Scalar) and node.value is None):
            continue
        if isinstance(node, Mapping):
            _inline(record, node, rulebook, chosen, problems)
        elif isinstance(node, Scalar):
            _named(record, node, rulebook, chosen, problems)
        else:
            what = f"{record.name} is a list, where one entry belongs"
            problems.append(Problem(what, "name one entry of the catalog", node.place))
    return chosen


def _named(
    record: Record, node: Scalar, rulebook: Rulebook, chosen: Chosen, problems: list[Problem]
) -> None:
    rows = rulebook.stock_rows.get(record.catalog, {})
    row = rows.get(node.text)
    if row is None:
        if _worded_elsewhere(record, rulebook):
            return  # the choice at the same key reports its own unknown word
        offer = nearest(node.text, rows)
        hint = f"did you mean {offer}? " if offer else ""
        fix = f"{hint}known: {', '.join(rows) or 'none'}; or write the whole block inline"
        problems.append(Problem(f"there is no {record.name} {node.text!r}", fix, node.place))
        return
    if record.name == "engine":
        chosen.name = row.id
    chosen.records[record.name] = row.values
    chosen.places |= {f"{record.name}.{name}": row.place for name in row.values}
    chosen.owned |= {
        name: {k: dict(v) for k, v in rows.items()} for name, rows in row.lists.items()
    }


def _inline(
    record: Record, node: Mapping, rulebook: Rulebook, chosen: Chosen, problems: list[Problem]
) -> None:
    stocks = {stock.catalog: stock for stock in _owned_by(record, rulebook)}
    allowed = (*record.fields, *stocks, "name", "note")
    for key, inner in node.entries:
        if key.text not in allowed:
            offer = nearest(key.text, allowed)
            hint = f"did you mean {offer}? " if offer else ""
            fix = f"{hint}allowed: {', '.join(allowed)}"
            problems.append(Problem(f"{record.name} has no key {key.text!r}", fix, key.place))
        chosen.places[f"{record.name}.{key.text}"] = inner.place
    # few jobs write an engine out, and what reads one is slow to open
    from planner.rulebook.stock_rows import read_row

    if record.name == "engine":
        chosen.name = INLINE
    known = _without_unknown(node, record)
    chosen.records[record.name] = read_row(
        record.name, known, dict(record.fields), problems, complete=False
    )
    for listed, stock in stocks.items():
        chosen.owned[listed] = _rows(stock, node.get(listed), problems)


def _without_unknown(node: Mapping, record: Record) -> Mapping:
    """Leave out the figures that nobody knows; they are waited for, not zero."""
    kept = [
        (key, inner)
        for key, inner in node.entries
        if not is_unknown(inner, record.fields.get(key.text))
    ]
    return Mapping(tuple(kept), node.place, node.span)


def _rows(stock: Stock, node: Node | None, problems: list[Problem]) -> Rows:
    if node is None or is_unknown(node):
        return {}
    if not isinstance(node, Mapping):
        sample = f"write each {stock.name.removesuffix('s')} with its fields under it"
        problems.append(Problem(f"{stock.name} is not a block of rows", sample, node.place))
        return {}
    from planner.rulebook.stock_rows import read_row

    rows: Rows = {}
    for key, inner in node.entries:
        if not isinstance(inner, Mapping):
            fix = f"write {{{', '.join(stock.fields)}: ...}}"
            problems.append(Problem(f"{stock.name} {key.text} has no fields", fix, inner.place))
            continue
        label = f"{stock.name} {key.text}"
        rows[key.text] = read_row(label, inner, dict(stock.fields), problems)
    return rows


def _owned_by(record: Record, rulebook: Rulebook) -> list[Stock]:
    return [stock for stock in rulebook.stocks.values() if stock.owner == record.name]


def _worded_elsewhere(record: Record, rulebook: Rulebook) -> bool:
    return any(each.job == record.job and each.type.words for each in rulebook.inputs.values())
