import networkx
import pytest
from hypothesis import given

from planner.route.critical_path import Network, longest
from planner.route.order import OperationsLoopError
from tests.route.network_samples import networks


def by_networkx(network):
    """Return the longest path's length by networkx: an operation's hours on the edge out of it."""
    graph = networkx.DiGraph()
    for name, hours in network.hours.items():
        graph.add_edge(("start", ""), (name, "in"), weight=network.ready.get(name, 0.0))
        graph.add_edge((name, "in"), (name, "out"), weight=hours)
    for later, links in network.links.items():
        for before, wait in links.items():
            graph.add_edge((before, "out"), (later, "in"), weight=wait)
    return networkx.dag_longest_path_length(graph)


@given(networks())
def test_the_longest_chain_is_the_one_networkx_finds(network):
    assert longest(network).finish == pytest.approx(by_networkx(network), abs=1e-9)


@given(networks())
def test_the_path_is_a_chain_of_links_that_adds_up_to_the_finish(network):
    found = longest(network)
    at = network.ready.get(found.path[0], 0.0)
    for before, later in zip(found.path, found.path[1:], strict=False):
        at += network.hours[before] + network.links[later][before]
    assert at + network.hours[found.path[-1]] == pytest.approx(found.finish, abs=1e-9)


@given(networks())
def test_start_and_tail_never_reach_past_the_finish(network):
    found = longest(network)
    for name in network.hours:
        assert found.earliest[name] + found.tail[name] <= found.finish + 1e-9
    assert all(
        found.earliest[name] + found.tail[name] == pytest.approx(found.finish, abs=1e-9)
        for name in found.path
    )


def test_a_part_that_comes_late_sets_the_path():
    network = Network(
        {"order": 1.0, "bore": 4.0, "hone": 2.0}, {"hone": {"order": 40.0, "bore": 0.0}}
    )
    assert longest(network).path == ("order", "hone")
    assert longest(network).finish == 43.0


def test_work_that_is_done_still_names_what_follows_it():
    network = Network({"crack_test": 0.0, "measure": 2.0}, {"measure": {"crack_test": 0.0}})
    assert longest(network).path == ("crack_test", "measure")


def test_no_operations_take_no_time():
    assert longest(Network({}, {})).finish == 0.0


def test_a_loop_is_named():
    loop = Network({"hone": 1.0, "deck": 1.0}, {"hone": {"deck": 0.0}, "deck": {"hone": 0.0}})
    with pytest.raises(OperationsLoopError, match="deck before hone before deck"):
        longest(loop)
