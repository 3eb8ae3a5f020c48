"""Blank sheets: every reading of a component, how it is taken, and a box for each figure."""

from planner.teardown.blank import BOX, blank_sheet, components
from tests.teardown.jobs import asked


def sheet(name):
    job = asked()
    return "\n".join(blank_sheet(job, name, components(job)[name]))


def test_a_grid_has_a_box_for_each_point_of_each_item():
    text = sheet("bores")
    assert "cylinder 2 65" in text
    assert "thrust" in text
    grid = [line for line in text.splitlines() if line.startswith("cylinder ")]
    assert sum(line.count(BOX) for line in grid) == 8


def test_the_instrument_and_the_range_stand_above_the_boxes():
    text = sheet("bores")
    assert "how: dial bore gauge" in text
    assert "60 mm to 125 mm" in text
    assert "20 degC" in text


def test_single_figures_stand_side_by_side():
    assert "exhaust valve 1         2         3         4" in sheet("guides")


def test_every_component_has_a_sheet_that_fits_the_page():
    job = asked()
    for name, inputs in components(job).items():
        assert max(len(line) for line in blank_sheet(job, name, inputs)) <= 80, name


def test_findings_to_look_for_are_named():
    assert "crack" in sheet("deck") or "Write down what else was seen." in sheet("deck")
