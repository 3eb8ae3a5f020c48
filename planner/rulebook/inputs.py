"""Reading ``sources`` and ``inputs``: fields, records, sets and stock."""

from planner.datafiles.nodes import Mapping
from planner.errors import Place, Problem, nearest
from planner.rulebook.assumptions import check_bases
from planner.rulebook.declarations import read_field
from planner.rulebook.files import Entry
from planner.rulebook.keys import check_keys, text_of
from planner.rulebook.ranges import Unreadable, bad
from planner.rulebook.scope import Scope
from planner.rulebook.syntax import (
    SOURCE_STATUSES,
    Field,
    ItemSet,
    Record,
    Source,
    Stock,
)

SOURCE_KEYS = ("status", "cite", "note")


def read_sources(entries: dict[str, Entry], problems: list[Problem]) -> dict[str, Source]:
    """Read every source; a published one must say what to cite."""
    sources = {}
    for name, entry in entries.items():
        try:
            sources[name] = _source(name, entry, problems)
        except Unreadable as error:
            problems.append(error.problem)
    return sources


def _source(name: str, entry: Entry, problems: list[Problem]) -> Source:
    node = entry.node
    if not isinstance(node, Mapping):
        raise bad(f"source {name} is not a block", "write {status: ..., cite: ...}", node.place)
    problems += check_keys(node, SOURCE_KEYS, f"source {name}")
    status = text_of(node.get("status"), name)
    if status not in SOURCE_STATUSES:
        offer = nearest(status, SOURCE_STATUSES)
        hint = f"did you mean {offer}? " if offer else ""
        raise bad(
            f"source {name} has status {status!r}",
            f"{hint}allowed: {', '.join(SOURCE_STATUSES)}",
            node.place,
        )
    cite = text_of(node.get("cite"), name)
    if status == "published" and not cite:
        raise bad(
            f"source {name} is published, and cites nothing",
            "add cite: title, edition, table or equation",
            node.place,
        )
    return Source(name, status, cite, text_of(node.get("note"), name), entry.key)


class Inputs:
    """What ``inputs`` declares, by the four forms an input can take."""

    def __init__(self) -> None:
        self.fields: dict[str, Field] = {}
        self.records: dict[str, Record] = {}
        self.stocks: dict[str, Stock] = {}
        self.sets: dict[str, ItemSet] = {}
        self.broken: set[str] = set()

    def scope(self) -> Scope:
        """Open a scope over them."""
        return Scope(self.fields, self.records, self.stocks, self.sets, broken=set(self.broken))


def read_inputs(entries: dict[str, Entry], problems: list[Problem]) -> Inputs:
    """Read every input."""
    inputs = Inputs()
    for name, entry in entries.items():
        before = len(problems)
        try:
            _read_input(name, entry, inputs, problems)
        except Unreadable as error:
            problems.append(error.problem)
        if len(problems) > before:
            inputs.broken.add(name)
    _check_sets(inputs, problems)
    check_bases(inputs.fields, inputs.records, problems)
    return inputs


def _read_input(name: str, entry: Entry, inputs: Inputs, problems: list[Problem]) -> None:
    node = entry.node
    if not isinstance(node, Mapping):
        raise bad(
            f"input {name} is not a block of keys", "write {ask: ..., unit: ...}", node.place
        )
    if node.get("one_from") is not None:
        problems += check_keys(node, ("one_from", "fields", "job", "ask"), name)
        catalog = text_of(node.get("one_from"), name)
        inputs.records[name] = Record(
            name, catalog, _fields(name, node, problems), entry.key, text_of(node.get("job"), name)
        )
    elif node.get("all_of") is not None:
        problems += check_keys(node, ("all_of", "fields", "ask", "called"), name)
        catalog, _, listed = text_of(node.get("all_of"), name).partition(".")
        inputs.stocks[name] = Stock(
            name,
            listed or catalog,
            catalog if listed else None,
            _fields(name, node, problems),
            entry.key,
        )
    elif node.get("items") is not None:
        problems += check_keys(node, ("items", "of", "called", "ask"), name)
        record, _, field = text_of(node.get("items"), name).partition(".")
        inputs.sets[name] = ItemSet(
            name,
            (record, field),
            text_of(node.get("of"), name) or None,
            text_of(node.get("called"), name) or name.replace("_", " "),
            entry.key,
        )
    else:
        found = read_field(name, node, problems)
        if found is not None:
            inputs.fields[name] = found


def _fields(name: str, node: Mapping, problems: list[Problem]) -> dict[str, Field]:
    block = node.get("fields")
    if not isinstance(block, Mapping):
        raise bad(f"{name} lists no fields", "add fields: with a block for each", node.place)
    fields = {}
    for key, inner in block.entries:
        if not isinstance(inner, Mapping):
            problems.append(
                Problem(
                    f"{name}.{key.text} is not a block of keys",
                    "write {unit: ..., range: ...}",
                    inner.place,
                )
            )
            continue
        found = read_field(f"{name}.{key.text}", inner, problems)
        if found is not None:
            fields[key.text] = found
    return fields


def _check_sets(inputs: Inputs, problems: list[Problem]) -> None:
    known = {*inputs.sets, *inputs.stocks}
    for each in inputs.sets.values():
        record, field = each.count
        if record not in inputs.records or field not in inputs.records[record].fields:
            problems.append(
                Problem(
                    f"set {each.name} counts {record}.{field}, which is no field",
                    "write items: engine.FIELD",
                    each.place,
                )
            )
        if each.of is not None and each.of not in inputs.sets:
            problems.append(
                Problem(
                    f"set {each.name} belongs to {each.of}, which is no set",
                    f"known sets: {', '.join(sorted(inputs.sets))}",
                    each.place,
                )
            )
    for declared in inputs.fields.values():
        for name in declared.type.per:
            if name not in known:
                offer = nearest(name, known)
                hint = f"did you mean {offer}? " if offer else ""
                problems.append(
                    Problem(
                        f"{declared.name} stands per {name}, which is no set",
                        f"{hint}known: {', '.join(sorted(known))}",
                        declared.place,
                    )
                )


def unknown_source(name: str, place: Place, sources: dict[str, Source]) -> Problem:
    """Word a source that is not listed."""
    if not name:
        return Problem("no source is named", f"add source: one of {', '.join(sources)}", place)
    offer = nearest(name, sources)
    hint = f"did you mean {offer}? " if offer else ""
    return Problem(
        f"there is no source {name!r}", f"{hint}known: {', '.join(sorted(sources))}", place
    )
