"""Pictures: well-formed, inside their frame, readable, the same in both themes but for colour."""

import re
from xml.etree import ElementTree

import pytest

from planner.sheets.letters import width
from planner.sheets.packet import packet_of
from planner.sheets.pictures import bore_map, shells
from planner.sheets.pictures.bore_map import BoreReadings
from planner.sheets.pictures.clearances import Band, Clearance, clearance_picture, clearances_of
from planner.sheets.pictures.ink import DARK, LIGHT, THEMES, contrast, ink_on
from planner.sheets.pictures.shells import Shell, ShellChoice, shells_picture
from planner.sheets.view import Picture, Pictures
from tests.sheets.packets import (
    DEMO,
    HOSTILE,
    LONG,
    blocks,
    material,
    named,
    packet,
    released,
    wide_engine,
)

SVG = "{http://www.w3.org/2000/svg}"
BORE = BoreReadings(
    cylinder="3",
    rows=((0.0861, 0.0860), (0.0860, 0.0860)),
    depths=("15 mm", "65 mm"),
    axes=("thrust", "crank"),
    unworn=0.0860,
    score=0.00004,
)


def pictures(sheets) -> list[Picture]:
    """Return every picture of some sheets."""
    found = []
    for sheet in sheets:
        for block in blocks(sheet):
            if isinstance(block, Picture):
                found.append(block)
            if isinstance(block, Pictures):
                found += block.items
    return found


def all_pictures() -> list[Picture]:
    """Return the pictures of both demo jobs, of twelve cylinders, and of hostile names."""
    found = [each for job in DEMO for each in pictures(packet(job))]
    found += pictures(packet_of(wide_engine()))
    return found + pictures(packet_of(named(HOSTILE))) + pictures(packet_of(named(LONG)))


def letters(root) -> list:
    """Return the texts of a drawing."""
    return list(root.iter(f"{SVG}text"))


def test_every_drawing_is_well_formed_and_says_what_it_shows():
    for each in all_pictures():
        for svg in (each.light, each.dark):
            root = ElementTree.fromstring(svg)
            assert root.get("role") == "img"
            assert root.get("aria-label") == each.alt
            assert len(each.alt) > 30


def test_every_text_lies_inside_its_drawing():
    for each in all_pictures():
        root = ElementTree.fromstring(each.light)
        wide, high = float(root.get("width")), float(root.get("height"))
        for text in letters(root):
            weight = "bold" if text.get("font-weight") == "700" else "regular"
            long = width(text.text, float(text.get("font-size")), weight)
            x, y = float(text.get("x")), float(text.get("y"))
            left = x - long * {"start": 0, "middle": 0.5, "end": 1}[text.get("text-anchor")]
            assert left >= -0.5, text.text
            assert left + long <= wide + 0.5, text.text
            assert 0 < y <= high, text.text


def test_the_themes_differ_in_colour_alone():
    colour = re.compile(r"#[0-9a-f]{6}|url\(#[^)]*\)")
    for each in all_pictures():
        light, dark = (re.sub(r"<defs>.*?</defs>", "", svg) for svg in (each.light, each.dark))
        assert colour.sub("", light) == colour.sub("", dark)


def test_drawings_use_plain_attributes_and_no_style():
    for each in all_pictures():
        assert not re.search(r"\sstyle=|<style|var\(|\sclass=|<script|href=|\son\w+=", each.light)


def test_no_two_hatchings_on_a_page_share_a_name():
    for sheet in packet("larch"):
        made = pictures([sheet])
        names = [
            name
            for each in made
            for svg in (each.light, each.dark)
            for name in re.findall(r'<pattern id="([^"]+)"', svg)
        ]
        assert len(names) == len(set(names))


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_ink_on_every_fill_stands_out(theme):
    for fill in (*theme.fills, *theme.lanes):
        assert contrast(ink_on(fill), fill) >= 4.5
    assert contrast(theme.ink, theme.ground) >= 7
    assert contrast(theme.faint, theme.ground) >= 3
    assert contrast(theme.strong, theme.ground) >= 4.5


@pytest.mark.published("WCAG 2.2, contrast ratio: black on white is 21 to 1")
def test_black_on_white_has_the_greatest_contrast():
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)


def test_every_reading_stands_as_a_number_in_its_mark():
    drawing = bore_map.bore_map(BORE, LIGHT, times=100, system="metric")
    said = [text.text for text in letters(ElementTree.fromstring(drawing.svg()))]
    assert said.count("100") == 1
    assert said.count("0") == 3
    assert "wear × 100" in said


def test_graver_wear_is_hatched_closer():
    svg = bore_map.bore_map(BORE, LIGHT, times=100, system="metric").svg()
    worn = re.findall(r"url\(#bore-3-light-h(\d)", svg)
    assert worn == ["4"]


def test_wear_is_drawn_as_many_times_wider_as_is_said():
    times = bore_map.exaggeration([BORE])
    root = ElementTree.fromstring(
        bore_map.bore_map(BORE, LIGHT, times=times, system="metric").svg()
    )
    lines = [
        [tuple(map(float, point.split(","))) for point in each.get("points").split()]
        for each in root.iter(f"{SVG}polyline")
    ]
    walls = [line for line in lines if line[0][0] == line[1][0] and line[1][1] - line[0][1] > 40]
    between = abs(walls[1][0][0] - walls[0][0][0])
    thrust = next(
        line
        for line in lines
        if len(line) == 2 and line[0][0] != line[1][0] and line[0][1] != line[1][1]
    )
    out = abs(thrust[0][0] - thrust[1][0])
    true = (0.0861 - 0.0860) / 2 / 0.0860 * between
    assert out / true == pytest.approx(times, rel=0.01)


def test_an_unworn_bore_is_drawn_without_wear():
    flat = BoreReadings("1", ((0.086, 0.086),), ("top",), ("thrust", "crank"), 0.086)
    svg = bore_map.bore_map(flat, DARK, times=bore_map.exaggeration([flat]), system="inch").svg()
    assert "url(#" not in svg
    assert "0.0001 in" in svg


def test_a_clearance_nobody_worked_out_is_said_to_be_so():
    each = Clearance("Rod bearing", None, (0.048, "0.048"), (0.051, "0.051"))
    said = clearance_picture(each, LIGHT, "one").svg()
    assert "not worked out" in said
    assert "0.048" in said


def test_a_clearance_that_closes_is_drawn_and_told():
    each = Clearance("Top ring end gap", None, (0.3, "0.30"), (-0.05, "-0.05"))
    drawing = clearance_picture(each, LIGHT, "one")
    assert "-0.05" in drawing.svg()
    assert "running hot -0.05" in drawing.alt


@pytest.mark.parametrize("system", ["metric", "inch", "both"])
def test_a_picture_says_the_same_limits_as_the_text(system):
    decisions = material("larch", system).plan.decisions
    found = {each.title: each for each in clearances_of(decisions)}
    for title, name in (
        ("Main bearing", "main_bearing_clearance"),
        ("Top ring end gap", "top_ring_gap"),
    ):
        each, text = found[title], decisions[name].text
        assert text.startswith(f"{each.low[1]} to {each.high[1]} {each.unit}, aim {each.built[1]}")


def test_shells_are_told_journal_by_journal():
    choice = ShellChoice(
        "Main shells",
        (Shell("main 1", "standard pair", 0.055), Shell("main 2", "both 5 thinner", None)),
        Band((0.0464, "0.047"), (0.055, "0.055"), (0.065, "0.065"), "mm"),
    )
    drawing = shells_picture(choice, LIGHT, "mains")
    assert "main 1: standard pair, clearance 0.055" in drawing.alt
    assert "clearance allowed 0.047 to 0.065 mm" in drawing.svg()
    assert "both 5 thinner" in drawing.svg()


def test_shells_are_not_drawn_before_they_are_chosen():
    base = material("larch")
    assert shells.shell_choices(base.plan.decisions, base.shells) == []


def test_shells_of_finished_journals_are_drawn_with_the_clearance_they_give(tmp_path):
    made = released(tmp_path)
    (mains,) = shells.shell_choices(made.plan.decisions, made.shells)
    assert [each.journal for each in mains.shells] == [f"main {place}" for place in range(1, 6)]
    # Housing less journal less both walls; the standard wall of the undersize is 2.105 mm.
    second = mains.shells[1]
    assert second.pair == "both standard"
    assert second.clearance == pytest.approx(58.008 - 53.745 - 2 * 2.105)
    assert all(mains.band.low[0] <= each.clearance <= mains.band.high[0] for each in mains.shells)
    svg = shells_picture(mains, LIGHT, "mains").svg()
    assert svg.count("0.053") >= 1
