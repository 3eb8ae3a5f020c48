import inspect

import pytest

from planner import errors
from planner.errors import BorewrightError, OutsideValidity, Place, Problem, ProblemsFound, nearest


def test_a_place_prints_as_editors_write_it():
    assert str(Place("jobs/larch.yaml", 41, 7)) == "jobs/larch.yaml:41:7"


def test_places_sort_by_file_then_line_then_column():
    places = [Place("b", 1, 1), Place("a", 2, 9), Place("a", 10, 1), Place("a", 2, 3)]
    assert [str(each) for each in sorted(places)] == ["a:2:3", "a:2:9", "a:10:1", "b:1:1"]


def test_a_problem_tells_place_kind_what_and_fix():
    problem = Problem("bore has no unit", "write 86 mm", Place("job.yaml", 3, 9))
    assert str(problem) == "job.yaml:3:9: error: bore has no unit\n  fix: write 86 mm"


def test_a_question_without_a_place_still_reads():
    assert str(Problem("is it gauge?", "say so", kind="question")).startswith("question: is it")


def test_an_error_prints_three_parts():
    error = OutsideValidity(problem="bore is 3 m.", reason="Never tried.", remedy="Measure.")
    assert str(error) == "bore is 3 m.\n  Why: Never tried.\n  Do:  Measure."


def test_an_error_becomes_a_problem_at_its_place():
    error = OutsideValidity(problem="bore is 3 m.", reason="Never tried.", remedy="Measure.")
    problem = error.at(Place("job.yaml", 2, 1))
    assert str(problem) == "job.yaml:2:1: error: bore is 3 m. (Never tried.)\n  fix: Measure."


def test_all_problems_of_a_run_come_in_the_order_of_the_file():
    late, early = (Problem("x", "y", Place("f", line, 1)) for line in (9, 2))
    found = ProblemsFound([late, early, Problem("everywhere", "y")])
    assert [each.place and each.place.line for each in found.problems] == [None, 2, 9]
    assert found.problem == "3 problems found."
    assert str(found).count("fix:") == 3


def test_one_problem_is_counted_in_the_singular():
    assert ProblemsFound([Problem("x", "y")]).problem == "1 problem found."


def test_every_error_class_is_a_borewright_error():
    classes = [
        each
        for _, each in inspect.getmembers(errors, inspect.isclass)
        if issubclass(each, Exception) and each.__module__ == "planner.errors"
    ]
    assert len(classes) > 5
    assert all(issubclass(each, BorewrightError) for each in classes)


@pytest.mark.parametrize(
    ("word", "allowed", "offer"),
    [
        ("piston_to_wal", ["pin_wall", "piston_to_wall"], "piston_to_wall"),
        ("Bore", ["bore", "stroke"], "bore"),
        ("teapot", ["bore", "stroke"], None),
        ("", ["bore"], None),
        ("bore", [], None),
    ],
)
def test_the_nearest_word_is_offered_only_when_it_is_near(word, allowed, offer):
    assert nearest(word, allowed) == offer
