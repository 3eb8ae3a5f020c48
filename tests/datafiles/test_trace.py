"""Roughness traces: what is read, and what is told at its line."""

import math

import pytest

from planner.datafiles.trace import read_trace
from planner.errors import ProblemsFound


def written(folder, rows, head="distance mm,height um"):
    path = folder / "trace.csv"
    path.write_text("\n".join([head, *rows]) + "\n", encoding="utf-8")
    return path


def wave(count=400):
    return [f"{at * 0.0005:.4f},{math.sin(at / 20):.5f}" for at in range(count)]


def problems_of(path):
    with pytest.raises(ProblemsFound) as found:
        read_trace(path)
    return found.value.problems


def test_places_and_heights_come_out_in_metres(tmp_path):
    trace = read_trace(written(tmp_path, wave()))
    assert len(trace.heights) == 400
    assert trace.spacing == pytest.approx(0.5e-6)
    assert max(trace.heights) == pytest.approx(1e-6, rel=1e-3)


def test_the_head_says_the_units(tmp_path):
    rows = [f"{at * 0.5},{at % 3}" for at in range(200)]
    trace = read_trace(written(tmp_path, rows, head="x um,z in"))
    assert trace.spacing == pytest.approx(0.5e-6)
    assert max(trace.heights) == pytest.approx(2 * 0.0254)


def test_an_empty_file_is_told_with_the_form(tmp_path):
    path = tmp_path / "trace.csv"
    path.write_text("")
    (problem,) = problems_of(path)
    assert problem.what == "the file is empty"
    assert "distance mm,height um" in problem.fix


def test_a_head_without_units_is_told(tmp_path):
    (problem,) = problems_of(written(tmp_path, wave(), head="distance,height"))
    assert "'distance' has no unit of length" in problem.what


def test_every_bad_line_is_told_at_its_line(tmp_path):
    rows = wave()
    rows[3], rows[7], rows[9] = "0.0015;0.1", "0.0035,high", "0.0045,nan"
    found = problems_of(written(tmp_path, rows))
    assert [each.place.line for each in found] == [5, 9, 11]
    assert "'0.0035,high' is not two numbers" in found[1].what
    assert "is not a height" in found[2].what


def test_uneven_places_are_told(tmp_path):
    rows = wave()
    del rows[100:110]
    (problem,) = problems_of(written(tmp_path, rows))
    assert "the step here is" in problem.what
    assert "on average" in problem.what


def test_a_short_trace_is_told(tmp_path):
    (problem,) = problems_of(written(tmp_path, wave(40)))
    assert "the trace has 40 heights, and 100 is the least" in problem.what


def test_a_file_that_is_not_there_is_told(tmp_path):
    (problem,) = problems_of(tmp_path / "none.csv")
    assert "cannot be read" in problem.what
