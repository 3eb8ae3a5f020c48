"""The demo jobs on the calendar, checked against the shop's own figures one by one."""

from dataclasses import replace
from datetime import date, timedelta

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.models.job import Done
from planner.planning.names import Names
from planner.planning.part_needs import PartNeeds
from planner.planning.schedule_docs import ScheduleDocs
from planner.planning.timing import WAYS, Timekeeper
from planner.planning.triggers import Sure
from planner.route.calendar import WorkCalendar
from tests.planning.priced import JOBS, asked, enquiry, plan, shop

NEAR = 1e-6
MONDAY = date(2027, 1, 4)


def kept(name, the_shop=None, **job):
    """Return timekeeper and part needs of a demo job, in a shop of one's own."""
    explained = asked(name)
    steps, own = explained.steps, the_shop or shop()
    record = replace(_job(name), **job)
    called = {each: steps.called[each] for each in steps.order}
    needs = PartNeeds(
        own, Names(explained.results), called, in_hand=frozenset(), done=frozenset(record.progress)
    ).all(explained.results.outcomes)
    return Timekeeper(own, called, steps.edges, record), needs


def _job(name):
    from planner.models.job import Job

    return Job(name=name)


@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize("way", WAYS)
def test_the_longest_chain_of_a_demo_job_is_the_one_networkx_finds(name, way):
    keeper, needs = kept(name)
    network = keeper.network(way, [each for need in needs for each in keeper.deliveries(need)])
    graph = networkx.DiGraph()
    for later, links in network.links.items():
        graph.add_edge("start", later, weight=network.ready.get(later, 0.0))
        for before, wait in links.items():
            graph.add_edge(before, later, weight=network.hours[before] + wait)
    for step, hours in network.hours.items():
        graph.add_edge(step, "end", weight=hours)
    found = keeper.timing(needs).tables[way].chain
    assert found.finish == pytest.approx(networkx.dag_longest_path_length(graph))
    # The chain itself, link by link, is as long as it says.
    at = sum(
        network.hours[one] + network.links[two][one]
        for one, two in zip(found.path, found.path[1:], strict=False)
    )
    assert at + network.hours[found.path[-1]] == pytest.approx(found.finish)


@st.composite
def shops(draw):
    """Draw a shop with other hours, closed days, benches and people."""
    closed = draw(st.sets(st.integers(0, 200), max_size=40))
    calendar = WorkCalendar(
        draw(st.sampled_from([6.0, 7.5, 8.0, 10.0])),
        draw(st.integers(4, 6)),
        frozenset(MONDAY + timedelta(days=each) for each in closed),
    )
    stations = {
        name: replace(each, count=draw(st.integers(1, 2)))
        for name, each in shop().stations.items()
    }
    return replace(shop(), calendar=calendar, people=draw(st.integers(1, 4)), stations=stations)


@settings(max_examples=25)
@given(shops(), st.sampled_from(JOBS), st.sampled_from(WAYS))
def test_in_any_shop_the_timetable_keeps_order_benches_and_deliveries(own, name, way):
    keeper, needs = kept(name, own)
    table = keeper.timing(needs).tables[way]
    _keeps_order(keeper, table)
    _never_shares_too_much(keeper, own, table)
    _starts_nothing_without_its_part(own, needs, table, way)


def _keeps_order(keeper, table):
    for later, links in keeper.edges.items():
        for before in links:
            assert table.starts[later] >= table.ends[before] - NEAR, (before, later)


def _never_shares_too_much(keeper, own, table):
    for at in (each + 2 * NEAR for each in table.starts.values()):
        running = [n for n in table.starts if table.starts[n] <= at < table.ends[n] - NEAR]
        operations = [keeper.called[name].operation for name in running]
        assert len(running) <= own.people
        for each in operations:
            here = [other for other in operations if other.station == each.station]
            if own.stations[each.station].limited:
                assert len(here) <= own.stations[each.station].count, each.station
            lane = [other for other in operations if other.lane == each.lane]
            assert len(lane) <= own.lanes[each.lane], each.lane


def _starts_nothing_without_its_part(own, needs, table, way):
    """Walk the real calendar, whatever weekday the work starts on."""
    for start in (MONDAY, MONDAY + timedelta(days=3)):
        for need in needs:
            if need.sure != Sure.YES or need.lead_days is None or not need.ordered_at:
                continue
            low, high = need.lead_days
            days = {"low": low, "likely": (low + high) / 2, "high": high}[way]
            sent = own.calendar.date_of(start, table.ends[need.ordered_at], ends=True)
            for step in need.needed_at:
                used = own.calendar.date_of(start, table.starts[step])
                assert used >= sent + timedelta(days=int(days)), (need.line.id, step)


@pytest.mark.parametrize("name", JOBS)
def test_the_plan_tells_its_distance_from_the_longest_chain(name):
    schedule = plan(name).schedule
    low, high = schedule.working_days
    assert low <= schedule.working_days_likely <= high
    assert schedule.longest_chain_days <= schedule.working_days_likely
    assert schedule.over_longest_chain >= 0
    assert f"{schedule.over_longest_chain:.0%} longer" in schedule.text


@pytest.mark.parametrize("name", JOBS)
def test_the_enquiry_finish_contains_the_inspected_one(name):
    before, after = enquiry(name).schedule.working_days, plan(name).schedule.working_days
    assert before[0] <= after[0]
    assert after[1] <= before[1]


def test_a_step_without_its_part_cannot_start_and_says_what_it_waits_for():
    schedule = plan("larch").schedule
    assert "receive_pistons" not in schedule.can_start_now
    told = schedule.waits_for["receive_pistons"]
    assert told[0] == "order_pistons"
    assert "part: pistons, to be ordered at order_pistons, 14 to 70 days" in told


def test_an_ordered_part_counts_from_the_day_it_was_ordered():
    done = {"order_pistons": Done(day="2027-01-04")}
    keeper, needs = kept("larch", progress=done)
    network = keeper.network("low", [each for need in needs for each in keeper.deliveries(need)])
    # Fourteen days after a Monday, ten working days of eight hours.
    assert network.ready["receive_pistons"] == 80.0


def test_work_goes_on_after_the_last_day_anything_was_done():
    early = {"goal_interview": Done(day="2027-01-04"), "running_tests": Done(day="2027-01-08")}
    keeper, _ = kept("larch", progress=early)
    assert keeper.start() == date(2027, 1, 8)


def test_a_race_in_four_weeks_gets_the_honest_date_and_no_other_order():
    easy, tight = plan("larch"), plan("larch", "goals.weeks=4")
    assert [each.id for each in easy.operations] == [each.id for each in tight.operations]
    assert easy.schedule.slots == tight.schedule.slots
    conflict = next(each for each in tight.conflicts if "schedule" in each.between)
    assert "20 working days are there" in conflict.text
    assert "pistons (14 to 70 days)" in conflict.text
    assert "honest date" in conflict.ways_out[0]
    assert "the order stays as it is" in conflict.ways_out[1]


def test_a_date_is_told_as_a_date_when_the_start_is_known():
    tight = plan("larch", "quote.start=2027-01-04", "goals.deadline=2027-02-01")
    finish = tight.schedule.finish
    assert finish.earliest < finish.likely < finish.latest
    conflict = next(each for each in tight.conflicts if "schedule" in each.between)
    assert conflict.between[0] == "goals.deadline"
    assert finish.likely in conflict.ways_out[0]


def test_time_enough_is_no_conflict():
    easy = plan("larch", "goals.weeks=40")
    assert not any("schedule" in each.between for each in easy.conflicts)


def test_no_slot_lies_before_what_it_follows():
    explained = asked("larch")
    slots = explained.plan.schedule.slots
    for later, links in explained.steps.edges.items():
        for before in links:
            assert slots[later].first_day >= slots[before].last_day


def test_the_bench_that_holds_work_up_is_named():
    keeper, needs = kept("larch", replace(shop(), people=1))
    docs = ScheduleDocs(keeper.shop, keeper, keeper.timing(needs), None)
    assert "people" in docs.timing.likely.held_up
