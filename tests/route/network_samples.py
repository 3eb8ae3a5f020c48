"""Random networks of operations and random shops, for the scheduling tests."""

from hypothesis import strategies as st

from planner.route.critical_path import Network
from planner.route.schedule import Crew

TENTHS = st.integers(0, 60).map(lambda tenths: tenths / 10)


@st.composite
def networks(draw, most=14):
    """Draw a network without loops: each operation waits only for ones listed before it."""
    count = draw(st.integers(1, most))
    names = [f"op{number}" for number in range(count)]
    links = {}
    for place, name in enumerate(names):
        before = draw(st.lists(st.sampled_from(names[:place]), unique=True)) if place else []
        links[name] = {each: draw(st.sampled_from([0.0, 0.0, 8.0, 40.0])) for each in before}
    shuffled = draw(st.permutations(names))
    hours = {name: draw(TENTHS) for name in shuffled}
    return Network(hours, links, {name: draw(TENTHS) for name in names[:2]})


@st.composite
def crews(draw, network):
    """Draw a shop: stations and lanes with counts, and some hands."""
    stations = ["bench", "hone", "grinder"]
    takes = {
        name: (draw(st.sampled_from(stations)), draw(st.sampled_from(["block", "crank"])), "hands")
        for name in network.hours
    }
    has = {each: draw(st.integers(1, 3)) for each in (*stations, "block", "crank", "hands")}
    return Crew(takes, has)
