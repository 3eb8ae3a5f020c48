"""The map of ratio by boost: a number in each tile, the job ringed, the same as data."""

import csv
import io
import json
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from planner.models.knock_map import KnockMap
from planner.sheets.knock_map import COLUMNS, map_csv, map_json, map_svg
from planner.sheets.pictures.ink import THEMES
from planner.sheets.pictures.knock_picture import alt_text, gravity, knock_picture, margin_text

SVG = "{http://www.w3.org/2000/svg}"
MAP = KnockMap(
    job="Test job",
    fuel="premium",
    ratios=(8.0, 9.0, 10.0),
    boosts=(0.0, 1.0, 2.0),
    charges=(30.0, 50.0, 70.0),
    latest=(10.0, 20.0, 26.0),
    phasing=((8.0, 14.0, 25.0), (8.0, 18.0, 40.0), (9.0, 22.0, None)),
    best=8.0,
    chosen_ratio=8.5,
    chosen_boost=1.1,
    trusted_boost=1.2,
    in_range=True,
    told=("What it was worked out for.",),
)


def test_the_margin_is_what_is_wanted_less_what_knock_allows():
    assert MAP.margin[1] == (2.0, 2.0, -14.0)
    assert MAP.margin[2][2] is None


def test_the_limit_lies_straight_between_the_tiles_around_it():
    assert [MAP.limit(column) for column in range(3)] == [None, 9.5, pytest.approx(8 + 1 / 15)]


def test_where_the_next_tile_knocks_at_any_timing_the_limit_is_the_last_that_holds():
    steep = KnockMap(**{**_fields(), "phasing": ((8.0,) * 3, (8.0,) * 3, (8.0, 8.0, None))})
    assert steep.limit(2) == 9.0


def _fields():
    return {name: getattr(MAP, name) for name in MAP.__dataclass_fields__}


@pytest.mark.parametrize("theme", THEMES, ids=lambda each: each.name)
def test_every_tile_holds_its_number_and_the_picture_speaks(theme):
    root = ElementTree.fromstring(knock_picture(MAP, theme).svg())
    said = [each.text for each in root.iter(f"{SVG}text")]
    for row in MAP.margin:
        for each in row:
            assert margin_text(each) in said
    assert root.get("role") == "img"
    assert "ratio 8.5 and 1.10 bar, inside" in root.get("aria-label")
    assert "outside its range beyond 1.2 bar" in said
    assert "this job: ratio 8.5 at 1.10 bar" in said


def test_numbers_are_drawn_over_the_lines_and_carry_plates_of_their_own():
    parts = list(ElementTree.fromstring(map_svg(MAP)))
    lines = [at for at, each in enumerate(parts) if each.tag == f"{SVG}polyline"]
    numbers = [at for at, each in enumerate(parts) if each.text == "+6"]
    assert numbers
    assert min(numbers) > lines[1]


def test_graver_tiles_are_hatched_closer_so_that_colour_is_not_needed():
    steps = [gravity(each) for each in (5.0, 3.0, 1.0, -2.0, -5.0, None)]
    assert steps == [0, 1, 2, 3, 4, 4]
    assert all(later >= earlier for earlier, later in pairwise(steps))
    assert gravity(2.0, free=True) == 0
    text = map_svg(MAP)
    assert {f"knock-map-light-h{step}" for step in (2, 4)} <= {
        each.get("id").rpartition("-")[0]
        for each in ElementTree.fromstring(text).iter(f"{SVG}pattern")
    }


def test_nothing_but_plain_attributes_is_used():
    text = map_svg(MAP)
    assert "style=" not in text
    assert "class=" not in text
    assert map_svg(MAP) == text


def test_the_ring_stands_where_the_job_stands_between_tiles():
    root = ElementTree.fromstring(map_svg(MAP))
    rings = [each for each in root.iter(f"{SVG}circle") if each.get("r") == "11"]
    columns = [
        float(each.get("x")) for each in root.iter(f"{SVG}text") if each.text in ("1.0", "2.0")
    ]
    assert columns[0] < float(rings[0].get("cx")) < columns[1]


def test_as_data_it_says_the_same():
    told = json.loads(map_json(MAP))
    assert told["schema"] == "borewright.knock_map/1"
    assert told["margin"][2] == [1.0, -2.0, None]
    rows = list(csv.reader(io.StringIO(map_csv(MAP))))
    assert rows[0] == list(COLUMNS)
    assert rows[1] == ["8.0", "0.0", "30.0", "8.000", "10.0", "2.000"]
    assert rows[-1] == ["10.0", "2.0", "70.0", "", "26.0", ""]
    assert len(rows) == 10


def test_the_words_for_who_cannot_see_it_name_the_limit_at_each_boost():
    assert "0.0 bar off the map; 1.0 bar 9.5; 2.0 bar 8.1" in alt_text(MAP)
