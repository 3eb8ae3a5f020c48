import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.route.critical_path import Network, longest
from planner.route.schedule import Crew, NothingToWorkOnError, timetable
from tests.route.network_samples import crews, networks

NEAR = 1e-6


@given(st.data())
def test_a_timetable_keeps_every_wait_and_never_shares_more_than_there_is(data):
    network = data.draw(networks())
    crew = data.draw(crews(network))
    table = timetable(network, crew)
    for later, links in network.links.items():
        for before, wait in links.items():
            assert table.starts[later] >= table.ends[before] + wait - NEAR
    for name, ready in network.ready.items():
        assert table.starts[name] >= ready - NEAR
    moments = [at + 2 * NEAR for at in table.starts.values()]
    for thing, count in crew.has.items():
        for at in moments:
            running = [
                name
                for name in network.hours
                if thing in crew.takes[name] and table.starts[name] <= at < table.ends[name] - NEAR
            ]
            assert len(running) <= count, (thing, at, running)


@given(st.data())
def test_a_timetable_is_never_shorter_than_the_longest_chain(data):
    network = data.draw(networks())
    table = timetable(network, data.draw(crews(network)))
    assert table.finish >= longest(network).finish - NEAR
    assert table.over_bound >= -NEAR


@given(networks())
def test_with_enough_of_everything_the_timetable_is_the_longest_chain(network):
    table = timetable(network, Crew({}, {}))
    assert table.finish == pytest.approx(longest(network).finish)
    assert not table.held_up


@given(st.data())
def test_no_operation_could_have_started_earlier_on_its_own(data):
    """List scheduling leaves no hole that an operation placed last could move into."""
    network = data.draw(networks(6))
    crew = data.draw(crews(network))
    table = timetable(network, crew)
    assert timetable(network, crew) == table
    last = max(table.starts, key=lambda name: table.starts[name])
    gap = max(
        [table.ends[before] + wait for before, wait in network.links[last].items()], default=0.0
    )
    ready = max(gap, network.ready.get(last, 0.0))
    assert table.starts[last] == pytest.approx(ready) or any(
        table.ends[name] == pytest.approx(table.starts[last]) for name in network.hours
    )


def test_one_honing_machine_makes_the_second_block_wait_and_says_so():
    network = Network({"hone": 4.0, "other": 3.0}, {})
    table = timetable(network, Crew({"hone": ("honer",), "other": ("honer",)}, {"honer": 1}))
    assert table.starts == {"hone": 0.0, "other": 4.0}
    assert table.held_up == {"honer": 4.0}
    assert table.over_bound == pytest.approx(7 / 4 - 1)


def test_a_short_job_fits_into_a_hole_before_a_delivery():
    network = Network(
        {"order": 1.0, "hone": 4.0, "wash": 2.0}, {"hone": {"order": 16.0}, "wash": {}}
    )
    crew = Crew(dict.fromkeys(network.hours, ("hands",)), {"hands": 1})
    assert timetable(network, crew).starts == {"order": 0.0, "hone": 17.0, "wash": 1.0}


def test_a_bench_the_shop_does_not_have_is_named():
    with pytest.raises(NothingToWorkOnError, match="grind needs grinder, of which the shop has 0"):
        timetable(Network({"grind": 1.0}, {}), Crew({"grind": ("grinder",)}, {"grinder": 0}))
