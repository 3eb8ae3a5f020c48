"""Cases of a rulebook: given these values, expect those answers; and which rows they reach.

A case file stands under ``rules/cases``::

    cases:
      pump petrol at 1.1 bar:
        engine: larch-2.0                      # optional: an entry of the catalog
        given: {boost: 1.1 bar, use: street, cap_verdict: {1: good, 3: cut}}
        expect: {ratio_practice: 8.3 / 8.5 / 8.8, calls: "line_hone, deck_block"}

``given`` names inputs, fields of the engine (``engine.bore``) or results of other decisions, so
that a table can be tried by itself. A single value stands for every item. ``expect`` may also
say ``refused``, ``waiting`` or ``not applicable``.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from planner.datafiles.nodes import Mapping, Node, Scalar
from planner.datafiles.reader import read_yaml_text
from planner.errors import Place, Problem, ProblemsFound, nearest
from planner.records import record
from planner.rulebook.evaluate import decide_only
from planner.rulebook.evidence import place_of_signs
from planner.rulebook.facts import Fact, Facts, Given
from planner.rulebook.intervals import low
from planner.rulebook.keys import check_keys, text_of
from planner.rulebook.literals import read_literal
from planner.rulebook.printing import show_entry
from planner.rulebook.ranges import Unreadable, bad
from planner.rulebook.results import Outcome
from planner.rulebook.source_files import shown
from planner.rulebook.syntax import EvidenceBody, Rulebook, StockRow, TableBody
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Band, Entry, Key, Names, Status, Value
from planner.rulebook.world import World

CASE_KEYS = ("engine", "items", "stage", "given", "expect", "note")
STATUSES = {
    "refused": Status.REFUSED,
    "waiting": Status.WAITING,
    "not applicable": Status.NOT_APPLICABLE,
}


@record
class CaseReport:
    """How the cases of a rulebook came out.

    Attributes
    ----------
    passed
        How many cases gave what they expect.
    problems
        What did not, and what could not be read, each at its place.
    rows, reached
        Table rows of the rulebook, and those that some case reached.
    unreached
        Places of rows that no case reached, by decision.
    """

    passed: int
    problems: tuple[Problem, ...]
    rows: int
    reached: int
    unreached: tuple[tuple[str, Place], ...]


def run_cases(rulebook: Rulebook, folders: Sequence[Path]) -> CaseReport:
    """Run every case under the folders' ``cases``.

    Parameters
    ----------
    rulebook
        The proved rulebook.
    folders
        Rule folders, each with a ``cases`` folder or without.

    Returns
    -------
    CaseReport
        Passes, problems, and the rows reached.
    """
    problems: list[Problem] = []
    reached: set[Place] = set()
    passed = 0
    for name, node in _cases(folders, problems):
        before = len(problems)
        try:
            outcomes = _run(rulebook, name, node, problems)
        except Unreadable as error:
            problems.append(error.problem)
            continue
        for outcome in outcomes.values():
            for trace in outcome.traces.values():
                reached.update(place for _, place in trace.rows)
        passed += len(problems) == before
    rows = [
        (decision.name, row.place)
        for decision in rulebook.decisions.values()
        if isinstance(decision.body, TableBody)
        for row in decision.body.rows
    ]
    rows += [
        (decision.name, place)
        for decision in rulebook.decisions.values()
        if isinstance(decision.body, EvidenceBody)
        for place in place_of_signs(decision.body)
    ]
    unreached = tuple(each for each in rows if each[1] not in reached)
    return CaseReport(passed, tuple(problems), len(rows), len(rows) - len(unreached), unreached)


def _cases(folders: Sequence[Path], problems: list[Problem]) -> Iterator[tuple[str, Mapping]]:
    for folder in folders:
        for path in sorted((folder / "cases").rglob("*.yaml")):
            try:
                node = read_yaml_text(path.read_text(encoding="utf-8"), shown(path))
            except ProblemsFound as found:
                problems.extend(found.problems)
                continue
            block = node.get("cases") if isinstance(node, Mapping) else None
            if not isinstance(block, Mapping):
                problems.append(
                    Problem("a case file has no cases:", "write cases: NAME: {...}", node.place)
                )
                continue
            for key, inner in block.entries:
                if isinstance(inner, Mapping):
                    yield key.text, inner
                else:
                    problems.append(
                        Problem(
                            f"case {key.text} is not a block",
                            "write {given: ..., expect: ...}",
                            inner.place,
                        )
                    )


def _run(
    rulebook: Rulebook, name: str, node: Mapping, problems: list[Problem]
) -> dict[str, Outcome]:
    problems += check_keys(node, CASE_KEYS, f"case {name}")
    facts = _facts(rulebook, name, node)
    expect = node.get("expect")
    if not isinstance(expect, Mapping):
        raise bad(f"case {name} expects nothing", "add expect: {NAME: answer}", node.place)
    wanted = {}
    for key, inner in expect.entries:
        if key.text not in rulebook.results:
            raise _no_result(rulebook, key)
        wanted[key.text] = inner
    world = World(rulebook, facts)
    outcomes = decide_only(world, [rulebook.results[each][0] for each in wanted])
    for result, inner in wanted.items():
        decision = rulebook.results[result][0]
        problems += _compare(world, name, outcomes[decision], result, inner)
    return outcomes


def _no_result(rulebook: Rulebook, key: Scalar) -> Unreadable:
    offer = nearest(key.text, rulebook.results)
    return bad(
        f"no decision gives {key.text!r}",
        f"did you mean {offer}?" if offer else "see borewright rules names",
        key.place,
    )


def _facts(rulebook: Rulebook, name: str, node: Mapping) -> Facts:
    engine = text_of(node.get("engine"), name)
    records: dict[str, dict[str, Value]] = {each: {} for each in rulebook.records}
    owned: dict[str, dict[str, dict[str, Value]]] = {}
    if engine:
        row = _engine(rulebook, engine, node)
        records["engine"] = dict(row.values)
        owned = {name: {k: dict(v) for k, v in rows.items()} for name, rows in row.lists.items()}
    sets = _sets(rulebook, node, records)
    facts = Facts({}, records, sets, owned, text_of(node.get("stage"), name) or "inspected")
    given_node = node.get("given")
    inputs: dict[str, Fact] = {}
    given: dict[str, Given] = {}
    world = World(rulebook, facts)
    for key, inner in given_node.entries if isinstance(given_node, Mapping) else ():
        _take(world, key, inner, inputs, given, records)
    return replace(facts, inputs=inputs, given=given)


def _engine(rulebook: Rulebook, engine: str, node: Mapping) -> StockRow:
    rows = rulebook.stock_rows.get(rulebook.records["engine"].catalog, {})
    if engine not in rows:
        offer = nearest(engine, rows)
        raise bad(
            f"there is no engine {engine!r}", f"did you mean {offer}?", node.key_place("engine")
        )
    return rows[engine]


def _sets(
    rulebook: Rulebook, node: Mapping, records: dict[str, dict[str, Value]]
) -> dict[str, tuple[str, ...]]:
    """Count items: as the case says, else from the engine, else four."""
    sets = {}
    stated = node.get("items")
    for name, each in rulebook.sets.items():
        record, field = each.count
        number = records.get(record, {}).get(field, 4.0)
        inner = stated.get(name) if isinstance(stated, Mapping) else None
        count = int(text_of(inner, name)) if inner is not None else int(_float(number))
        sets[name] = tuple(str(at) for at in range(1, count + 1))
    return sets


def _float(value: Value) -> float:
    return value if isinstance(value, float) else 4.0


def _take(
    world: World,
    key: Scalar,
    node: Node,
    inputs: dict[str, Fact],
    given: dict[str, Given],
    records: dict[str, dict[str, Value]],
) -> None:
    book, name = world.rulebook, key.text
    head, _, field = name.partition(".")
    if head in book.records and field in book.records[head].fields:
        records[head][field] = read_literal(node, book.records[head].fields[field].type, name)
    elif name in book.inputs:
        entries = _entries(world, book.inputs[name].type, node, name)
        inputs[name] = Fact(name, {at: Entry(value) for at, value in entries.items()})
    elif name in book.results:
        decision, result = book.results[name]
        declared = book.decisions[decision].gives[result].type
        given[name] = Given(name, _entries(world, declared, node, name), "the case")
    else:
        known = [*book.inputs, *book.results]
        offer = nearest(name, known)
        raise bad(
            f"there is no input or result {name!r}",
            f"did you mean {offer}?" if offer else "see borewright rules names",
            key.place,
        )


def _entries(world: World, declared: ValueType, node: Node, name: str) -> dict[Key, Value]:
    keys = list(world.keys(declared.per))
    if isinstance(node, Mapping) and declared.per:
        return {
            tuple(key.text.split(",")): read_literal(inner, declared, f"{name} {key.text}")
            for key, inner in node.entries
        }
    value = read_literal(node, declared, name)
    return dict.fromkeys(keys, value)


def _compare(
    world: World, case: str, outcome: Outcome, result: str, node: Node
) -> Iterator[Problem]:
    answer = outcome.answers[result]
    for key, inner in _expected(node, list(answer.entries)):
        entry = answer.entries.get(key)
        if entry is None:
            yield Problem(
                f"case {case}: {result} has no item {','.join(key)}",
                "name an item there is",
                inner.place,
            )
            continue
        if not _matches(entry, inner, answer.type, result):
            shown_entry = show_entry(world, entry, answer.type)
            label = world.label(answer.type.per, key)
            where = f" for {label}" if label else ""
            yield Problem(
                f"case {case}: {result}{where} comes to {shown_entry}, "
                f"and {text_of(inner, result)} was expected",
                "correct the rule or the case",
                inner.place,
            )


def _expected(node: Node, keys: list[Key]) -> Iterator[tuple[Key, Node]]:
    if isinstance(node, Mapping):
        for name, inner in node.entries:
            yield tuple(name.text.split(",")), inner
        return
    for key in keys:
        yield key, node


def _matches(entry: Entry, node: Node, declared: ValueType, label: str) -> bool:
    text = text_of(node, label).strip()
    if text in STATUSES:
        return entry.status is STATUSES[text]
    if entry.value is None:
        return False
    wanted = read_literal(node, replace(declared, low=None, high=None), label)
    return _same(entry.value, wanted, _half_digit(text, declared))


def _half_digit(text: str, declared: ValueType) -> float:
    """Half of the last digit written, in SI: what a printed figure can tell."""
    number = text.split("/")[-1].split()[0] if text else "0"
    decimals = len(number.partition(".")[2])
    factor = declared.unit.factor if declared.unit else 1.0
    return 0.5000001 * 10.0**-decimals * factor


def _same(value: Value, wanted: Value, tolerance: float) -> bool:
    if isinstance(value, Band) and isinstance(wanted, Band):
        return all(
            abs(low(a) - low(b)) <= tolerance
            for a, b in zip(value.parts(), wanted.parts(), strict=True)
        )
    if isinstance(value, float) and isinstance(wanted, float):
        return abs(value - wanted) <= tolerance
    if isinstance(value, Names) and isinstance(wanted, Names):
        return set(value.called) == set(wanted.called)
    return value == wanted
