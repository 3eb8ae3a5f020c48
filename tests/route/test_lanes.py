"""The lanes layout: nothing lost, nothing above what it waits for, no line through a step."""

from hypothesis import given
from hypothesis import strategies as st

from planner.route.lanes import MOST_ROWS, Layout, laid_out, pages_of

LANES = ("block", "crank", "head")


@st.composite
def routes(draw):
    """Draw operations in working order, each after some of the earlier ones."""
    count = draw(st.integers(1, 60))
    names = [f"step_{number}" for number in range(count)]
    edges = {
        name: dict.fromkeys(
            draw(st.lists(st.sampled_from(names[:place]), max_size=3, unique=True)), "why"
        )
        if place
        else {}
        for place, name in enumerate(names)
    }
    return names, edges, {name: draw(st.sampled_from(LANES)) for name in names}


def reached(layout: Layout) -> dict[str, set[str]]:
    """Follow the lines of a page upward from each operation."""
    above: dict[str, set[str]] = {}
    for name in layout.spots:
        direct = {wire.earlier for wire in layout.wires if wire.later == name}
        above[name] = direct.union(*(above[each] for each in direct)) if direct else set()
    return above


@given(routes())
def test_pages_hold_every_operation_once_and_in_order(route):
    names, edges, lane_of = route
    pages = pages_of(names, edges, lane_of, most=12)
    assert [name for page in pages for name in page] == names
    assert all(1 <= len(page) <= 12 for page in pages)


@given(routes())
def test_every_page_fits_the_height_of_the_paper(route):
    names, edges, lane_of = route
    for page in pages_of(names, edges, lane_of):
        assert laid_out(page, edges, lane_of, LANES).rows <= MOST_ROWS


@given(routes())
def test_every_operation_stands_below_all_it_waits_for(route):
    names, edges, lane_of = route
    layout = laid_out(names, edges, lane_of, LANES)
    for name in names:
        assert all(layout.spots[each].row < layout.spots[name].row for each in edges[name])


@given(routes())
def test_no_two_operations_share_a_spot(route):
    names, edges, lane_of = route
    spots = laid_out(names, edges, lane_of, LANES).spots.values()
    assert len(set(spots)) == len(names)


@given(routes())
def test_the_lines_that_are_left_out_still_follow_from_those_drawn(route):
    names, edges, lane_of = route
    above = reached(laid_out(names, edges, lane_of, LANES))
    assert all(each in above[name] for name in names for each in edges[name])


@given(routes())
def test_a_straight_line_runs_through_no_other_operation(route):
    names, edges, lane_of = route
    layout = laid_out(names, edges, lane_of, LANES)
    taken = set(layout.spots.values())
    for wire in layout.wires:
        start, end = layout.spots[wire.earlier], layout.spots[wire.later]
        if wire.leaves is None:
            assert start.lane == end.lane
            assert not any(
                spot.lane == start.lane and start.row < spot.row < end.row for spot in taken
            )


def test_what_an_earlier_page_must_finish_is_named():
    edges = {"a": {}, "b": {"a": "why"}, "c": {"b": "why"}}
    lane_of = dict.fromkeys(edges, "block")
    layout = laid_out(["c"], edges, lane_of, LANES)
    assert layout.from_before == {"c": ("b",)}
    assert layout.lanes == ("block",)
    assert layout.wires == ()


def test_lines_of_different_operations_never_lie_on_one_another():
    edges = {
        "a": {},
        "b": {},
        "c": {"a": "why"},
        "d": {"b": "why"},
        "e": {"c": "why", "d": "why"},
    }
    lane_of = {"a": "block", "b": "crank", "c": "crank", "d": "block", "e": "head"}
    layout = laid_out(list(edges), edges, lane_of, LANES)
    crossing = [wire for wire in layout.wires if wire.leaves == 0]
    assert len({wire.track for wire in crossing}) == len({wire.earlier for wire in crossing})
