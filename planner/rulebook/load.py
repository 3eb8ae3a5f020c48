"""Loading a rulebook: read every file, prove every decision, order them, or say what is wrong."""

import heapq
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from planner.datafiles import nodes
from planner.errors import Problem, ProblemsFound
from planner.rulebook.advice import check_names, read_advice
from planner.rulebook.bodies import read_compute_body, read_value_body
from planner.rulebook.choose_body import read_choose_body
from planner.rulebook.conditions import read_when
from planner.rulebook.evidence_body import read_evidence_body
from planner.rulebook.files import RuleFiles, read_rule_files
from planner.rulebook.gives import Outline, read_outlines
from planner.rulebook.inputs import (
    Inputs,
    read_inputs,
    read_sources,
    unknown_source,
)
from planner.rulebook.keys import check_keys, text_of
from planner.rulebook.operations import read_operations
from planner.rulebook.ranges import Unreadable, bad
from planner.rulebook.refs import Ref
from planner.rulebook.scope import AlreadyTold, Scope
from planner.rulebook.stock_rows import read_stock_rows
from planner.rulebook.syntax import (
    STAGES,
    Body,
    ChooseBody,
    Decision,
    NotApplicable,
    Rulebook,
    Source,
    Stock,
    StockRow,
    TableBody,
)
from planner.rulebook.table_body import read_table_body
from planner.rulebook.values import Names
from planner.rulebook.weigh_body import percent, read_weigh_body


def load_rulebook(rules: Sequence[Path], catalogs: Sequence[Path]) -> Rulebook:
    """Read and prove a rulebook.

    Parameters
    ----------
    rules, catalogs
        Folders (or files), ours first; later ones replace whole blocks.

    Returns
    -------
    Rulebook
        The proved rulebook.

    Raises
    ------
    ProblemsFound
        With everything wrong in it, each at file, line and column.
    """
    files = read_rule_files(rules, catalogs)
    problems = files.problems
    sources = read_sources(files.headings["sources"], problems)
    inputs = read_inputs(files.headings["inputs"], problems)
    rows = _stock(files, inputs, sources, problems)
    scope = inputs.scope()
    ids = {name: tuple(each) for name, each in rows.items()}
    outlines = read_outlines(files.headings["decisions"], scope, ids, problems)
    decisions = _decisions(outlines, scope, sources, problems)
    operations = read_operations(files.headings["operations"], scope, sources, problems)
    advice = read_advice(files.headings["advice"], scope, sources, frozenset(outlines), problems)
    _check_calls(decisions, frozenset(operations), problems)
    order = _order(decisions, problems)
    if problems:
        raise ProblemsFound(problems)
    return Rulebook(
        edition=files.edition or "unnamed",
        sha256=files.sha256,
        sources=sources,
        inputs=inputs.fields,
        records=inputs.records,
        stocks=inputs.stocks,
        sets=inputs.sets,
        stock_rows=rows,
        decisions=decisions,
        results={
            result: (decision.name, result)
            for decision in decisions.values()
            for result in decision.gives
        },
        order=order,
        advice=advice,
        operations=operations,
        overridden=tuple(files.overridden),
    )


def _stock(
    files: RuleFiles, inputs: Inputs, sources: dict[str, Source], problems: list[Problem]
) -> dict[str, dict[str, StockRow]]:
    declared = {each.catalog: each.fields for each in inputs.stocks.values() if not each.owner}
    owned: dict[str, list[Stock]] = {}
    for record in inputs.records.values():
        declared[record.catalog] = record.fields
        owned[record.catalog] = [
            each for each in inputs.stocks.values() if each.owner == record.name
        ]
    for name, rows in files.stock.items():
        first = next(iter(rows.values()), None)
        if name not in declared and first is not None:
            fix = f"declare it under inputs; known: {', '.join(sorted(declared))}"
            told = f"the rulebook declares no stock {name!r}"
            problems.append(Problem(told, fix, first.entry.key))
    return {
        name: read_stock_rows(
            files.stock.get(name, {}), fields, sources, problems, owned.get(name, ())
        )
        for name, fields in declared.items()
    }


def _decisions(
    outlines: dict[str, Outline],
    scope: Scope,
    sources: dict[str, Source],
    problems: list[Problem],
) -> dict[str, Decision]:
    decisions = {}
    for name, outline in outlines.items():
        try:
            decisions[name] = _decision(outline, scope, sources, problems)
        except Unreadable as error:
            problems.append(error.problem)
        except AlreadyTold:
            continue
    return decisions


def _decision(
    outline: Outline, scope: Scope, sources: dict[str, Source], problems: list[Problem]
) -> Decision:
    node = outline.node
    source = text_of(node.get("source"), outline.name)
    if source and source not in sources:
        problems.append(unknown_source(source, node.key_place("source"), sources))
    body, reads = _body(outline, scope, sources, source, problems)
    if not source and not isinstance(body, TableBody):
        problems.append(unknown_source("", outline.entry.key, sources))
    allowed, over = _given(outline)
    skipped = _not_applicable(outline, scope, problems)
    extra = [] if skipped is None else [each.ref for group in skipped.when for each in group]
    return Decision(
        name=outline.name,
        means=text_of(node.get("means"), outline.name),
        gives=outline.gives,
        per=outline.per,
        body=body,
        source=source,
        place=outline.entry.key,
        given_allowed=allowed,
        given_question_over=over,
        not_applicable=skipped,
        firm_from=_firm_from(outline),
        reads=tuple(dict.fromkeys(_needs([*reads, *extra]))),
    )


def _body(
    outline: Outline,
    scope: Scope,
    sources: dict[str, Source],
    source: str,
    problems: list[Problem],
) -> tuple[Body, list[Ref]]:
    if outline.body == "value":
        return read_value_body(outline), []
    if outline.body == "table":
        return read_table_body(outline, scope, sources, source, problems)
    if outline.body == "compute":
        return read_compute_body(outline, scope)
    if outline.body == "evidence":
        return read_evidence_body(outline, scope, problems)
    reader = read_choose_body if outline.body == "choose" else read_weigh_body
    return reader(outline, scope)


def _needs(refs: Sequence[Ref]) -> Iterator[str]:
    """Name the decisions behind what is read; inputs need none."""
    for ref in refs:
        if ref.decision is not None:
            yield ref.decision


def _given(outline: Outline) -> tuple[bool, float | None]:
    node = outline.node.get("given")
    if node is None:
        return True, None
    if isinstance(node, nodes.Mapping):
        odd = check_keys(node, ("question_over",), f"{outline.name}: given")
        if odd:
            raise Unreadable(odd[0])
        return True, percent(node.get("question_over"))
    return True, None


def _not_applicable(
    outline: Outline, scope: Scope, problems: list[Problem]
) -> NotApplicable | None:
    node = outline.node.get("not_applicable")
    if node is None:
        return None
    if not isinstance(node, nodes.Mapping):
        raise bad(
            f"{outline.name}: not_applicable is not a block",
            "write {when: {...}, because: ...}",
            node.place,
        )
    problems += check_keys(node, ("when", "because"), f"{outline.name}: not_applicable")
    because = text_of(node.get("because"), outline.name)
    if not because:
        raise bad(f"{outline.name}: not_applicable has no because", "say why", node.place)
    return NotApplicable(read_when(node.get("when"), scope, problems), because)


def _firm_from(outline: Outline) -> tuple[str, str] | None:
    node = outline.node.get("firm_from")
    if node is None:
        return None
    if not isinstance(node, nodes.Mapping):
        raise bad(
            f"{outline.name}: firm_from is not a block",
            "write {stage: ..., because: ...}",
            node.place,
        )
    stage = text_of(node.get("stage"), outline.name)
    if stage not in STAGES:
        raise bad(
            f"{outline.name}: firm_from names stage {stage!r}",
            f"allowed: {', '.join(STAGES)}",
            node.place,
        )
    return stage, text_of(node.get("because"), outline.name)


def _check_calls(
    decisions: Mapping[str, Decision], operations: frozenset[str], problems: list[Problem]
) -> None:
    """Names that decisions call must be operations."""
    if not operations:
        return
    for decision in decisions.values():
        if isinstance(decision.body, ChooseBody):
            check_names(decision.body.calls, operations, "operation", decision.place, problems)
        if isinstance(decision.body, TableBody):
            for row in decision.body.rows:
                for value in row.results.values():
                    if isinstance(value, Names):
                        check_names(value.called, operations, "operation", row.place, problems)


def _order(decisions: Mapping[str, Decision], problems: list[Problem]) -> tuple[str, ...]:
    """Order decisions so that each follows all it reads; name order breaks ties."""
    waits = {
        name: {read for read in each.reads if read in decisions and read != name}
        for name, each in decisions.items()
    }
    problems += [
        Problem(f"{name} reads itself", "break the circle", each.place)
        for name, each in decisions.items()
        if name in each.reads
    ]
    ready = [name for name, needed in waits.items() if not needed]
    heapq.heapify(ready)
    order: list[str] = []
    readers: dict[str, list[str]] = {}
    for name, needed in waits.items():
        for read in needed:
            readers.setdefault(read, []).append(name)
    while ready:
        name = heapq.heappop(ready)
        order.append(name)
        for reader in readers.get(name, ()):
            waits[reader].discard(name)
            if not waits[reader]:
                heapq.heappush(ready, reader)
    left = sorted(set(decisions) - set(order))
    if left:
        circle = _circle(left[0], waits)
        problems.append(
            Problem(
                f"decisions read each other in a circle: {' -> '.join(circle)}",
                "let one of them stand on inputs alone",
                decisions[circle[0]].place,
            )
        )
    return tuple(order)


def _circle(start: str, waits: Mapping[str, set[str]]) -> list[str]:
    path = [start]
    while True:
        following = min(waits[path[-1]])
        if following in path:
            return [*path[path.index(following) :], following]
        path.append(following)
