"""The rulebook's operations: their order in any plan, their words, and their cautions."""

import random
import re
from dataclasses import replace
from difflib import SequenceMatcher
from itertools import combinations
from pathlib import Path

import networkx
import pytest

from planner.datafiles.nodes import Mapping, Scalar, Sequence
from planner.datafiles.reader import read_yaml
from planner.route.edges import all_edges, edges_among
from planner.route.order import in_order, prove_order
from planner.rulebook import load_rulebook
from planner.rulebook.syntax import ChooseBody
from planner.rulebook.values import Names

ROOT = Path(__file__).parents[2]
DATA = Path(__file__).with_name("order_rules.yaml")
FIRST, LAST = "goal_interview", "handover"
LANES = {
    "front desk",
    "intake",
    "block",
    "crank",
    "rods and pistons",
    "head",
    "fluids",
    "assembly",
    "commissioning",
}
PEOPLE = ("danger", "warning", "caution")
SELECTIONS = 3000


@pytest.fixture(scope="module")
def rulebook():
    """The rulebook that ships, with its catalogs."""
    return load_rulebook([ROOT / "rules"], [ROOT / "catalogs"])


@pytest.fixture(scope="module")
def operations(rulebook):
    """Every operation, by name."""
    return rulebook.operations


def listed(key):
    """Read a list of names, or of pairs of names, from the data file."""
    node = read_yaml(DATA).get(key)
    assert isinstance(node, Sequence)
    return [
        tuple(part.text for part in item.items) if isinstance(item, Sequence) else item.text
        for item in node.items
    ]


def ungated(operations):
    """Operations that no condition and no call decides about."""
    return {name for name, each in operations.items() if not each.when and not each.called_only}


def selections(operations, kept):
    """Random plans: what is kept, and of the rest any share from almost none to almost all."""
    dice = random.Random(20)
    for _ in range(SELECTIONS):
        share = dice.random()
        yield kept | {name for name in operations if dice.random() < share}


def broken(operations, kept, rules):
    """Rules that some random plan does not keep, no edge being bridged."""
    found = {}
    for selected in selections(operations, kept):
        edges = edges_among(operations, selected)
        bit = {name: 1 << rank for rank, name in enumerate(edges)}
        before = {}
        for name in in_order(edges):
            before[name] = 0
            for earlier in edges[name]:
                before[name] |= before[earlier] | bit[earlier]
        for first, then in rules:
            if first in bit and then in bit and not before[then] & bit[first]:
                found.setdefault((first, then), sorted(selected - kept))
    return found


def sentences(text):
    """Split a text into its sentences."""
    return [part for part in re.split(r"(?<=[.!?])\s+", text) if part]


def words_for_laymen(operations):
    """What the customer reads of each operation, by kind of text."""
    return {
        "why": {name: each.why.get("customer", "") for name, each in operations.items()},
        "if_skipped": {name: each.if_skipped for name, each in operations.items()},
    }


# ------------------------------------------------------------------ order


def test_every_name_in_the_order_rules_is_an_operation(operations):
    rules = listed("rules")
    assert len(set(rules)) == len(rules) >= 110
    named = {name for rule in rules for name in rule} | set(listed("may_be_left_out"))
    assert named <= set(operations)


def test_every_operation_of_a_full_rebuild_is_there(operations):
    assert set(listed("full_rebuild")) <= set(operations)
    assert len(listed("full_rebuild")) == 100


def test_every_operation_stands_in_some_order_rule(operations):
    named = {name for rule in listed("rules") for name in rule}
    assert set(operations) - named - {FIRST} == set()


@pytest.mark.slow
def test_the_order_rules_hold_in_any_plan_without_bridging(operations):
    assert broken(operations, ungated(operations), listed("rules")) == {}


@pytest.mark.slow
def test_the_order_rules_hold_when_pistons_crank_and_head_work_are_left_out_too(operations):
    kept = ungated(operations) - set(listed("may_be_left_out"))
    assert broken(operations, kept, listed("rules")) == {}


@pytest.mark.slow
def test_a_guard_edge_taken_away_is_noticed(operations):
    poorer = dict(operations)
    cut = poorer["deck_block"]
    edges = {name: reason for name, reason in cut.after.items() if name != "sleeve_install"}
    poorer["deck_block"] = replace(cut, after=edges)
    found = broken(poorer, ungated(poorer), listed("rules"))
    assert ("sleeve_install", "deck_block") in found


def test_operations_and_their_needs_hold_no_loop(operations):
    prove_order(operations)


def test_every_operation_follows_the_interview_and_leads_to_the_handover(operations):
    graph = networkx.DiGraph()
    for later, before in all_edges(operations).items():
        graph.add_edges_from((earlier, later) for earlier in before)
    everything = set(operations)
    assert networkx.descendants(graph, FIRST) | {FIRST} == everything
    assert networkx.ancestors(graph, LAST) | {LAST} == everything


def test_every_operation_hangs_on_one_that_is_always_done(operations):
    always = ungated(operations)
    loose = {n for n, each in operations.items() if n != FIRST and not always & set(each.after)}
    assert loose == set()


def test_every_operation_is_waited_for_by_one_that_is_always_done(operations):
    always = ungated(operations)
    waited = {earlier for name in always for earlier in operations[name].after}
    assert set(operations) - waited - {LAST} == set()


def test_every_edge_says_why(operations):
    for name, each in operations.items():
        assert set(each.needs) <= set(each.after), f"{name} needs something without a reason"
        for earlier, reason in each.after.items():
            assert len(reason.split()) >= 3, f"{earlier} before {name}: {reason}"


def test_what_is_said_to_be_implied_really_is(operations):
    always = ungated(operations)
    for name, earlier in implied_pairs():
        assert earlier in operations, f"{name}: {earlier}"
        assert earlier not in operations[name].after, f"{name}: {earlier} stands in both"
        assert broken_in(operations, always | {name, earlier}, earlier, name) is False


def implied_pairs():
    """Read the edges that are kept for explanation only."""
    for path in sorted((ROOT / "rules").glob("operations_*.yaml")):
        block = read_yaml(path).get("operations")
        assert isinstance(block, Mapping)
        for key, node in block.entries:
            implied = node.get("implied")
            for inner, reason in implied.entries if implied else ():
                assert isinstance(reason, Scalar)
                assert reason.text
                yield key.text, inner.text


def broken_in(operations, selected, first, then):
    """Tell whether one plan lets the later operation start without the earlier one."""
    edges = edges_among(operations, selected)
    graph = networkx.DiGraph((a, b) for b, before in edges.items() for a in before)
    return not networkx.has_path(graph, first, then)


# ------------------------------------------------------------------ what calls them


def test_what_waits_to_be_called_is_called_by_some_decision(rulebook, operations):
    called = set()
    for decision in rulebook.decisions.values():
        if isinstance(decision.body, ChooseBody):
            called |= set(decision.body.calls)
        for row in getattr(decision.body, "rows", ()):
            for value in row.results.values():
                called |= set(value.called) if isinstance(value, Names) else set()
    assert {name for name, each in operations.items() if each.called_only} <= called


def test_an_option_is_never_in_a_plan_of_its_own_accord(operations):
    options = {name for name, each in operations.items() if each.optional}
    assert options
    assert options.isdisjoint(ungated(operations))


# ------------------------------------------------------------------ words


def test_all_work_has_a_caution_for_people(operations):
    bare = {
        name
        for name, each in operations.items()
        if each.work_class in ("work", "commissioning")
        and not any(c.severity in PEOPLE and not c.when for c in each.cautions)
    }
    assert bare == set()


def test_every_operation_has_a_known_lane_a_target_and_three_rising_hours(operations):
    for name, each in operations.items():
        assert each.lane in LANES, f"{name}: {each.lane}"
        assert each.inspect, f"{name} has nothing to inspect"
        assert 0 < each.hours[0] < each.hours[1] < each.hours[2], name
        assert all(i.measure and i.instrument and (i.target or i.text) for i in each.inspect), name
        assert all(len(i.measure) <= 60 for i in each.inspect), name
    assert {each.lane for each in operations.values()} == LANES


def test_no_two_operations_give_the_customer_the_same_reason(operations):
    for texts in words_for_laymen(operations).values():
        assert all(texts.values())
        for (one, first), (other, second) in combinations(texts.items(), 2):
            match = SequenceMatcher(None, first, second, autojunk=False)
            alike = match.real_quick_ratio() > 0.8 and match.quick_ratio() > 0.8
            assert not (alike and match.ratio() > 0.8), f"{one} and {other} say nearly the same"


def test_no_sentence_is_said_twice(operations):
    seen = {}
    for name, each in operations.items():
        for text in (each.does, each.if_skipped, *each.why.values()):
            for sentence in sentences(text):
                assert seen.setdefault(sentence, name) == name, f"{seen[sentence]}: {sentence}"


def test_a_reason_is_short_enough_to_read_aloud(operations):
    for name, each in operations.items():
        assert len(each.why["customer"]) <= 260, name
        assert len(each.if_skipped) <= 130, name
        assert 2 <= len(each.does.split()) <= 20, name
