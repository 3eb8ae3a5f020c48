"""Order of operations: every edge kept, nothing bridged, nothing left to chance."""

import networkx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import ProblemsFound
from planner.route.chain import chain_between
from planner.route.edges import all_edges, edges_among, followers
from planner.route.order import OperationsLoopError, in_order, prove_order
from tests.route.graph_samples import catalogue, operation

NAMES = [f"op_{number:02d}" for number in range(14)]


@st.composite
def graphs(draw):
    """A catalogue without loops: each operation follows some of those ranked before it."""
    ranked = draw(st.permutations(NAMES))
    listed = draw(st.permutations(NAMES))
    before = {
        name: draw(st.sets(st.sampled_from(ranked[:rank]), max_size=4)) if rank else set()
        for rank, name in enumerate(ranked)
    }
    return catalogue(*(operation(name, after=sorted(before[name])) for name in listed))


@given(graphs(), st.sets(st.sampled_from(NAMES)))
def test_every_edge_between_selected_operations_is_kept(operations, selected):
    edges = edges_among(operations, selected)
    order = in_order(edges)
    assert sorted(order) == sorted(selected)
    for later in selected:
        for earlier in operations[later].after:
            if earlier in selected:
                assert order.index(earlier) < order.index(later)


@given(graphs())
def test_the_order_is_the_one_a_graph_library_gives_with_the_same_ranks(operations):
    edges = all_edges(operations)
    graph = networkx.DiGraph()
    graph.add_nodes_from(edges)
    graph.add_edges_from((earlier, later) for later in edges for earlier in edges[later])
    rank = {name: place for place, name in enumerate(edges)}
    expected = tuple(networkx.lexicographical_topological_sort(graph, key=rank.get))
    assert in_order(edges) == expected


@given(graphs(), st.sets(st.sampled_from(NAMES), min_size=2))
def test_an_operation_that_is_not_selected_binds_nothing(operations, selected):
    edges = edges_among(operations, selected)
    for later, before in edges.items():
        assert set(before) == set(operations[later].after) & selected


def test_grind_out_of_the_plan_does_not_tie_chamfer_to_deburr():
    operations = catalogue(
        operation("chamfer"),
        operation("grind", after=["chamfer"]),
        operation("deburr", after=["grind"]),
    )
    assert edges_among(operations, {"chamfer", "deburr"}) == {"chamfer": {}, "deburr": {}}


def test_a_needed_operation_stands_before_the_one_that_needs_it():
    operations = catalogue(operation("hone", needs=["receive"]), operation("receive"))
    edges = all_edges(operations)
    assert edges["hone"] == {"receive": "hone needs it done"}
    assert in_order(edges) == ("receive", "hone")


def test_the_reason_written_under_after_wins_over_the_plain_need():
    operations = catalogue(
        operation("hone", needs=["receive"], after=["receive"]), operation("receive")
    )
    assert all_edges(operations)["hone"] == {"receive": "receive first"}


def test_a_loop_is_named_at_its_operation():
    operations = catalogue(
        operation("deck", after=["bore"]),
        operation("wash"),
        operation("bore", needs=["deck"]),
    )
    with pytest.raises(ProblemsFound) as found:
        prove_order(operations)
    (problem,) = found.value.problems
    assert problem.what == "bore before deck before bore: operations in a loop"
    assert problem.place.file == "rules/operations.yaml"


def test_a_loop_of_one_is_a_loop():
    with pytest.raises(OperationsLoopError, match="polish before polish"):
        in_order(all_edges(catalogue(operation("polish", after=["polish"]))))


def test_without_edges_the_rulebook_order_stands():
    operations = catalogue(operation("wash"), operation("bore"), operation("assemble"))
    assert in_order(all_edges(operations)) == ("wash", "bore", "assemble")


def test_followers_turn_every_edge_round():
    edges = {"deck": {}, "bore": {"deck": "plate sits on it"}}
    assert followers(edges) == {"deck": {"bore": "plate sits on it"}, "bore": {}}


def test_the_chain_gives_each_reason_from_first_to_last():
    edges = {
        "line_hone": {},
        "deck": {"line_hone": "the deck is set from the crank line"},
        "bore": {"deck": "the bar stands on the deck"},
    }
    chain = chain_between(edges, "line_hone", "bore")
    assert [(link.earlier, link.later, link.reason) for link in chain] == [
        ("line_hone", "deck", "the deck is set from the crank line"),
        ("deck", "bore", "the bar stands on the deck"),
    ]


def test_operations_that_no_edge_binds_have_no_chain():
    edges = {"crank": {}, "head": {}}
    assert chain_between(edges, "crank", "head") == ()


@given(graphs(), st.sampled_from(NAMES), st.sampled_from(NAMES))
def test_every_link_of_a_chain_is_an_edge_with_its_own_reason(operations, first, last):
    edges = all_edges(operations)
    for link in chain_between(edges, first, last):
        assert edges[link.later][link.earlier] == link.reason
