"""Progress: what can start now, what was done out of turn, which hold points are open."""

from planner.route.progress import open_holds, out_of_turn, startable
from tests.route.graph_samples import catalogue, operation

EDGES = {"deck": {}, "bore": {"deck": "r"}, "hone": {"bore": "r"}, "polish": {}}


def test_only_what_stands_free_can_start():
    assert startable(EDGES, tuple(EDGES), {"deck"}, set()) == ("bore", "polish")


def test_a_doubtful_operation_neither_starts_nor_lets_its_followers_start():
    assert startable(EDGES, tuple(EDGES), set(), {"deck"}) == ("polish",)


def test_an_operation_done_before_its_forerunner_is_reported():
    assert out_of_turn(EDGES, {"bore"}) == (("bore", "deck"),)


def test_open_hold_points_are_listed_in_working_order():
    operations = catalogue(operation("deck", hold="sign"), operation("bore", hold="sign"))
    assert open_holds(operations, ("deck", "bore"), {"deck"}) == ("bore",)
