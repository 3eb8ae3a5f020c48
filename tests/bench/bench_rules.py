"""Working rules out with their derivation, beside the same rules by hand and in another engine.

Run with ``python -m pytest tests/bench/bench_rules.py -s -n0``; not part of the fast suite. A
chain of tables, each reading the boost and the grade before it, is written three times from one
list: as our rulebook, as plain if and else, and as a decision graph for the general-purpose
engine zen-engine (from PyPI; left out where it is not installed). All three must agree on every
case before anything is timed. The hand-written rules give the answers alone; ours gives, and
the other engine is asked for, the trace of what was read and which row answered as well.
"""

import itertools
import json
import random
import sys
import time

import pytest

from planner.rulebook import evaluate, load_rulebook
from planner.rulebook.facts import Fact, Facts
from planner.rulebook.values import Entry

CUTS = (0.0, 0.5, 1.0, 1.5, 2.0, 4.0)
GRADES = ("hard", "middling", "mild")
TABLES = 24
CASES = 400


def rows(table):
    """Give the rows of a table: ends of the boost, grade before, grade after, a number."""
    for at, (low, high) in enumerate(itertools.pairwise(CUTS)):
        for place, grade in enumerate(GRADES):
            after = GRADES[(at * 2 + place + table) % len(GRADES)]
            yield low, high, grade, after, at + place / 10 + table


def as_rulebook(folder):
    """Write the tables as our rules and load them."""
    lines = [
        "sources: {practice: {status: common practice}}",
        "inputs:",
        '  boost: {ask: Boost, unit: bar, kind: gauge, range: "[0 bar .. 4 bar]"}',
        f"  grade_0: {{ask: Grade, one_of: [{', '.join(GRADES)}]}}",
        "decisions:",
    ]
    for table in range(1, TABLES + 1):
        lines += [
            f"  step_{table}:",
            f"    means: Step {table}",
            "    source: practice",
            "    gives:",
            f"      grade_{table}: {{one_of: [{', '.join(GRADES)}]}}",
            f'      value_{table}: {{range: "[0 .. 100]"}}',
            "    table:",
            f"      columns: [boost, grade_{table - 1}]",
            "      rows:",
        ]
        for low, high, before, after, value in rows(table):
            cell = f"from {low} to {'' if high == CUTS[-1] else 'under '}{high} bar"
            lines.append(
                f"        - {{boost: {cell}, grade_{table - 1}: {before}, "
                f"grade_{table}: {after}, value_{table}: {value}}}"
            )
    (folder / "rules.yaml").write_text("\n".join(lines), encoding="utf-8")
    return load_rulebook([folder / "rules.yaml"], [])


def as_code():
    """Write the tables as if and else, as someone would by hand."""
    lines = ["def decide(boost, grade_0):"]
    for table in range(1, TABLES + 1):
        word = "if"
        for low, high, before, after, value in rows(table):
            under = "<=" if high == CUTS[-1] else "<"
            lines += [
                f"    {word} {low} <= boost {under} {high} and grade_{table - 1} == {before!r}:",
                f"        grade_{table}, value_{table} = {after!r}, {value!r}",
            ]
            word = "elif"
        lines += ["    else:", "        raise ValueError(boost)"]
    names = [f"{what}_{table}" for table in range(1, TABLES + 1) for what in ("grade", "value")]
    lines.append(f"    return {{{', '.join(f'{name!r}: {name}' for name in names)}}}")
    space = {}
    exec("\n".join(lines), space)
    return space["decide"]


def as_graph():
    """Write the tables as a decision graph of the other engine."""
    nodes = [{"id": "in", "name": "in", "type": "inputNode"}]
    for table in range(1, TABLES + 1):
        inputs = [
            {"id": "b", "name": "boost", "field": "boost"},
            {"id": "g", "name": "grade", "field": f"grade_{table - 1}"},
        ]
        outputs = [
            {"id": "o", "name": "grade", "field": f"grade_{table}"},
            {"id": "v", "name": "value", "field": f"value_{table}"},
        ]
        told = [
            {
                "_id": f"{table}-{at}",
                "b": f"[{low}..{high}{']' if high == CUTS[-1] else ')'}",
                "g": f'"{before}"',
                "o": f'"{after}"',
                "v": repr(value),
            }
            for at, (low, high, before, after, value) in enumerate(rows(table))
        ]
        content = {
            "hitPolicy": "first",
            "inputs": inputs,
            "outputs": outputs,
            "rules": told,
            "passThrough": True,
            "executionMode": "single",
        }
        name = f"step_{table}"
        nodes.append({"id": name, "name": name, "type": "decisionTableNode", "content": content})
    nodes.append({"id": "out", "name": "out", "type": "outputNode"})
    edges = [
        {"id": f"e{at}", "sourceId": one["id"], "targetId": two["id"], "type": "edge"}
        for at, (one, two) in enumerate(itertools.pairwise(nodes))
    ]
    return json.dumps({"nodes": nodes, "edges": edges})


def facts(boost, grade):
    told = {"boost": boost * 1e5, "grade_0": grade}
    inputs = {name: Fact(name, {(): Entry(value)}) for name, value in told.items()}
    return Facts(inputs=inputs, records={}, sets={})


def best(work, cases):
    """Give the least seconds a case of five rounds."""

    def once():
        start = time.perf_counter()
        for case in cases:
            work(*case)
        return time.perf_counter() - start

    return min(once() for _ in range(5)) / len(cases)


@pytest.fixture(scope="module")
def cases():
    rng = random.Random(11)
    return [(round(rng.uniform(0.0, 4.0), 3), rng.choice(GRADES)) for _ in range(CASES)]


@pytest.fixture(scope="module")
def ours(tmp_path_factory):
    book = as_rulebook(tmp_path_factory.mktemp("rules"))
    return lambda boost, grade: evaluate(book, facts(boost, grade))


def answers(results):
    return {
        name: answer.value()
        for outcome in results.outcomes.values()
        for name, answer in outcome.answers.items()
    }


def test_beside_the_same_rules_by_hand(ours, cases):
    decide = as_code()
    for case in cases:
        assert answers(ours(*case)) == decide(*case)
    by_hand, here = best(decide, cases), best(ours, cases)
    sys.stdout.write(
        f"\nby hand {by_hand * 1e6:.1f} us a case, ours with derivation {here * 1e6:.0f} us: "
        f"{here / by_hand:.0f} times\n"
    )


def test_beside_another_engine_asked_for_its_trace(ours, cases):
    zen = pytest.importorskip("zen")
    decision = zen.ZenEngine().create_decision(as_graph())

    def theirs(boost, grade):
        return decision.evaluate({"boost": boost, "grade_0": grade}, {"trace": True})

    for case in cases:
        told = theirs(*case)["result"]
        mine = answers(ours(*case))
        assert {name: told[name] for name in mine} == mine
    there, here = best(theirs, cases), best(ours, cases)
    sys.stdout.write(
        f"\nzen-engine with trace {there * 1e6:.0f} us a case, ours {here * 1e6:.0f} us: "
        f"ours is {there / here:.2f} times as fast\n"
    )
