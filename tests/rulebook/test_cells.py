"""Cells in every spelling, and what is said about those that cannot be read."""

import pytest

from planner.errors import Place, Problem
from planner.rulebook.cells import Cell, any_cell, parse_cell
from planner.rulebook.columns import ChoiceColumn, Column, NumberColumn, Span, parse_range
from planner.rulebook.values import Interval, OneOf
from planner.units.find import find_unit

HERE = Place("rules/rings.yaml", 12, 9)


def number_column(name, declared, unit=None, kind=None):
    found = None if unit is None else find_unit(unit)
    span = parse_range(declared, HERE, unit=found, kind=kind)
    assert isinstance(span, Span), span
    return NumberColumn(name, span, found, kind, declared)


BOOST = number_column("boost", "[0 bar .. 4 bar]", "bar", "gauge")
CYLINDERS = number_column("cylinders", "[1 .. 16]")
OVER_LIMIT = number_column("over_limit", "[-0.1 mm .. 0.1 mm]", "mm")
COOLANT = number_column("coolant", "(-20 degC .. 130 degC]", "degC", "reading")
USE = ChoiceColumn("use", ("endurance", "track", "street_track", "street"))


def read(text: str, column: Column) -> Cell:
    cell = parse_cell(text, column, HERE)
    assert not isinstance(cell, Problem), str(cell)
    return cell


def refused(text: str, column: Column) -> Problem:
    problem = parse_cell(text, column, HERE)
    assert isinstance(problem, Problem), problem
    assert problem.place == HERE
    return problem


def bars(text):
    return [
        (span.low / 1e5, span.high / 1e5, span.low_open, span.high_open)
        for span in read(text, BOOST).spans
    ]


@pytest.mark.parametrize(
    ("text", "low", "high", "low_open", "high_open"),
    [
        ("any", 0, 4, False, False),
        ("-", 0, 4, False, False),
        ("under 1 bar", 0, 1, False, True),
        ("< 1 bar", 0, 1, False, True),
        ("<1 bar", 0, 1, False, True),
        ("up to 1 bar", 0, 1, False, False),
        ("<= 1 bar", 0, 1, False, False),
        ("≤ 1 bar", 0, 1, False, False),
        ("over 1 bar", 1, 4, True, False),
        ("> 1 bar", 1, 4, True, False),
        ("at least 1 bar", 1, 4, False, False),
        (">= 1 bar", 1, 4, False, False),
        ("≥ 1 bar", 1, 4, False, False),
        ("over 0.7 to 1.4 bar", 0.7, 1.4, True, False),
        ("from 0.7 to 1.4 bar", 0.7, 1.4, False, False),
        ("from 0.7 to under 1.4 bar", 0.7, 1.4, False, True),
        ("over 0.7 to under 1.4 bar", 0.7, 1.4, True, True),
        ("from 0.7 bar to 1.4 bar", 0.7, 1.4, False, False),
        ("from 0.7 bar to 1.4", 0.7, 1.4, False, False),
        ("from 70 kPa to 1.4 bar", 0.7, 1.4, False, False),
        ("[0.7 bar .. 1.4 bar]", 0.7, 1.4, False, False),
        ("[0.7 .. 1.4 bar)", 0.7, 1.4, False, True),
        ("(0.7..1.4 bar]", 0.7, 1.4, True, False),
        ("]0.7 .. 1.4 bar[", 0.7, 1.4, True, True),
        ("  1.1   bar ", 1.1, 1.1, False, False),
        ("1.1 bar gauge", 1.1, 1.1, False, False),
        ("not under 1 bar", 1, 4, False, False),
        ("not(over 1 bar)", 0, 1, False, False),
    ],
)
def test_each_spelling_of_a_number_cell_is_read(text, low, high, low_open, high_open):
    assert bars(text) == [(low, high, low_open, high_open)]


def test_a_bound_in_psi_and_the_same_in_bar_are_the_same_bound():
    in_psi, in_bar = read("over 10 psi", BOOST), read("over 0.689475729317 bar", BOOST)
    assert in_psi.spans == in_bar.spans


def test_a_plain_number_column_takes_plain_numbers():
    assert [span.low for span in read("4, 6", CYLINDERS).spans] == [4, 6]
    assert read("over 4 to 8", CYLINDERS).spans == (Span(4, 8, low_open=True),)


def test_a_lone_minus_is_any_and_a_minus_before_a_figure_is_a_sign():
    assert read("-", OVER_LIMIT).spans == (OVER_LIMIT.span,)
    assert read("-0.05 mm", OVER_LIMIT).spans == (Span(-5e-5, -5e-5),)
    assert read("under -0.05 mm", OVER_LIMIT).spans == (Span(-1e-4, -5e-5, high_open=True),)
    assert read("from -0.05 to 0.05 mm", OVER_LIMIT).spans == (Span(-5e-5, 5e-5),)


def test_thermometer_readings_keep_their_own_zero():
    assert read("over 90 degC", COOLANT).spans == (Span(363.15, 403.15, low_open=True),)


def test_an_open_end_of_the_declared_range_stays_open_in_every_cell():
    assert read("up to 0 degC", COOLANT).spans == (Span(253.15, 273.15, low_open=True),)
    assert read("from -20 to 0 degC", COOLANT).spans == (Span(253.15, 273.15, low_open=True),)


def test_not_one_value_leaves_both_sides_of_it():
    assert bars("not 1 bar") == [(0, 1, False, True), (1, 4, True, False)]
    assert bars("not(1 bar, over 3 bar)") == [(0, 1, False, True), (1, 3, True, False)]


def test_stretches_listed_that_meet_become_one():
    assert bars("under 1 bar, from 1 to 2 bar") == [(0, 2, False, False)]
    assert bars("under 1 bar, over 1 to 2 bar") == [(0, 1, False, True), (1, 2, True, False)]
    assert bars("from 1 to 2 bar, from 1.5 to under 2 bar") == [(1, 2, False, False)]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("any", {"endurance", "track", "street_track", "street"}),
        ("-", {"endurance", "track", "street_track", "street"}),
        ("street", {"street"}),
        ("street, track", {"street", "track"}),
        ('"street", "track"', {"street", "track"}),
        ("not street", {"endurance", "track", "street_track"}),
        ("not(street)", {"endurance", "track", "street_track"}),
        ("not (street, track)", {"endurance", "street_track"}),
        ("not street, track", {"endurance", "street_track"}),
    ],
)
def test_each_spelling_of_a_choice_cell_is_read(text, words):
    assert read(text, USE).words == words


@pytest.mark.parametrize(
    ("text", "what", "fix"),
    [
        ("under 10", "boost 'under 10': 10 has no unit", "for example 10 bar"),
        ("from 1 to 2", "1 has no unit", "for example 1 bar"),
        ("under 10 mm", "10 mm is a length, not a pressure", "a unit of pressure"),
        (
            "under 1 bar absolute",
            "An absolute pressure cannot be compared with a gauge",
            "absolute(p",
        ),
        ("under 1 baar", "'baar' is not a unit we know", "Did you mean bar"),
        ("over 5 bar", "5 bar is above the declared range [0 bar .. 4 bar]", "at most 4 bar"),
        ("-1 bar", "-1 bar is below the declared range [0 bar .. 4 bar]", "at least 0 bar"),
        ("from 2 to 5 bar", "5 bar is above the declared range", "at most 4 bar"),
        ("[2 bar .. 5 bar]", "5 bar is above the declared range", "widen the range of boost"),
        ("from 2 to 1 bar", "the low end 2 is above the high end 1 bar", "smaller end first"),
        ("[2 .. 1 bar]", "the low end 2 is above the high end 1 bar", "smaller end first"),
        ("over 1 to 1 bar", "nothing lies between 1 and 1 bar", "Write the value alone"),
        ("over 4 bar", "leaves no value of the declared range", "take the row out"),
        ("under 0 bar", "leaves no value of the declared range", "take the row out"),
        ("not any", "leaves no value of the declared range", "take the row out"),
        ("not(from 0 to 4 bar)", "leaves no value of the declared range", "take the row out"),
        ("above 2 bar", "'above 2 bar' is not a cell we can read", "Did you mean over 2 bar?"),
        ("less than 2 bar", "is not a cell we can read", "Did you mean under 2 bar?"),
        ("at most 2 bar", "is not a cell we can read", "Did you mean up to 2 bar?"),
        ("udner 2 bar", "is not a cell we can read", "Did you mean under 2 bar?"),
        ("Under 2 bar", "is not a cell we can read", "Did you mean under 2 bar?"),
        ("=> 2 bar", "is not a cell we can read", "Did you mean >= 2 bar?"),
        ("= 2 bar", "is not a cell we can read", "Did you mean 2 bar?"),
        ("between 1 and 2 bar", "is not a cell we can read", "Did you mean from 1 to 2 bar?"),
        (
            "1 to 2 bar",
            "is not a cell we can read",
            "from 1 to 2 bar (both included) or over 1 to",
        ),
        ("1 - 2 bar", "is not a cell we can read", "from 1 to 2 bar (both included) or over 1 to"),
        (
            "1 .. 2 bar",
            "is not a cell we can read",
            "from 1 to 2 bar (both included) or over 1 to",
        ),
        ("[1 bar .. 2 bar", "is not a cell we can read", "under 4 bar"),
        ("high", "is not a cell we can read", "Write for example under 4 bar"),
        ("", "the cell is empty", "Write any, or a test such as under 4 bar"),
        ("1 bar,", "the cell is empty", "Write any"),
        ("0,5 bar", "'0,5 bar' has a comma between two digits", "Write 1.5 for one and a half"),
        ("under two bar", "'two bar' is not a number we can read", "Write digits"),
        ("nan bar", "is not a cell we can read", "under 4 bar"),
        ("9" * 500 + " bar", "the cell is 504 letters long", "Split it"),
    ],
)
def test_a_number_cell_that_cannot_hold_says_what_is_wrong_and_how_to_write_it(text, what, fix):
    problem = refused(text, BOOST)
    assert what in problem.what
    assert fix in problem.fix


@pytest.mark.parametrize(
    ("text", "what", "fix"),
    [
        ("stret", "use 'stret': 'stret' is not a word of use", "Did you mean street?"),
        ("street, trak", "'trak' is not a word of use", "Did you mean track?"),
        ("drag", "'drag' is not a word of use", "endurance, track, street_track, street"),
        ("street or track", "is not a word of use", 'Put commas between words: "street, track"'),
        ("street/track", "is not a word of use", 'Put commas between words: "street, track"'),
        ("!= street", "is not a word of use", "Write not street"),
        ("street, street", "street stands twice", "Name each once"),
        ("not(endurance, track, street_track, street)", "no word is left", "Name fewer words"),
        ("not stret", "'stret' is not a word of use", "Did you mean street?"),
        ("", "a word is missing", "endurance, track, street_track, street"),
        ("street,", "a word is missing", "endurance, track"),
        ("over 2 bar", "'over 2 bar' is not a word of use", "endurance, track"),
    ],
)
def test_a_choice_cell_that_cannot_hold_says_what_is_wrong_and_how_to_write_it(text, what, fix):
    problem = refused(text, USE)
    assert what in problem.what
    assert fix in problem.fix


def test_a_plain_number_column_refuses_a_unit():
    problem = refused("over 4 mm", CYLINDERS)
    assert "4 mm has a unit where a plain number is due" in problem.what
    assert problem.fix == "Write the number alone."


def test_what_is_offered_instead_can_be_read():
    for text in ("above 2 bar", "between 1 and 2 bar", "=> 2 bar", "at most 2 bar"):
        offer = refused(text, BOOST).fix.removeprefix("Did you mean ").rstrip("?")
        assert read(offer, BOOST)


def test_a_long_cell_is_shown_cut_short():
    assert len(refused("x" * 10_000, USE).what) < 300


@pytest.mark.parametrize(
    ("text", "span"),
    [
        ("[0 bar .. 4 bar]", Span(0.0, 4e5)),
        ("[0 .. 4 bar]", Span(0.0, 4e5)),
        ("(0 bar .. 4 bar)", Span(0.0, 4e5, low_open=True, high_open=True)),
        ("[-100 kPa .. 4 bar]", Span(-1e5, 4e5)),
    ],
)
def test_a_declared_range_is_read(text, span):
    assert parse_range(text, HERE, unit=find_unit("bar"), kind="gauge") == span


def test_a_ratio_may_leave_its_unit_out_of_its_range_and_cells():
    ratio = find_unit("mm/mm")
    assert parse_range("[0.003 .. 0.012]", HERE, unit=ratio) == Span(0.003, 0.012)
    column = NumberColumn("gap_per_bore", Span(0.003, 0.012), ratio, None, "[0.003 .. 0.012]")
    assert read("under 0.005", column).spans == read("under 0.005 mm/mm", column).spans


@pytest.mark.parametrize(
    ("text", "what", "fix"),
    [
        ("0 to 4 bar", "range '0 to 4 bar' is not written as a range", '"[0 bar .. 4 bar]"'),
        ("[0 .. 4]", "range '[0 .. 4]': 0 has no unit", "for example 0 bar"),
        ("[4 bar .. 0 bar]", "the low end 4 bar is above the high end 0 bar", "smaller end first"),
        ("[1 bar .. 1 bar)", "nothing lies between 1 bar and 1 bar", "move one end"),
        ("[0 mm .. 4 mm]", "0 mm is a length, not a pressure", "a unit of pressure"),
        ("[0 bar absolute .. 4 bar absolute]", "An absolute pressure", "absolute(p, at)"),
    ],
)
def test_a_declared_range_that_cannot_hold_is_refused(text, what, fix):
    problem = parse_range(text, HERE, unit=find_unit("bar"), kind="gauge")
    assert isinstance(problem, Problem)
    assert problem.place == HERE
    assert what in problem.what
    assert fix in problem.fix


def test_a_number_cell_knows_what_it_contains_whatever_the_last_digits():
    cell = read("over 0.7 to 1.4 bar", BOOST)
    assert not cell.contains(0.7e5)
    assert not cell.contains(0.7e5 * (1 + 1e-14))
    assert cell.contains(1.4e5)
    assert cell.contains(1.4e5 * (1 + 1e-14))
    assert not cell.contains(1.41e5)


def test_an_unsettled_number_could_hold_or_surely_holds():
    cell = read("over 0.7 to 1.4 bar", BOOST)
    assert cell.meets(Interval(0.5e5, 0.8e5))
    assert not cell.holds_all(Interval(0.5e5, 0.8e5))
    assert cell.holds_all(Interval(0.8e5, 1.4e5))
    assert not cell.holds_all(Interval(0.7e5, 1.4e5))
    assert not cell.meets(Interval(0.5e5, 0.7e5))
    assert cell.meets(1e5)
    assert cell.holds_all(1e5)
    assert not cell.meets(0.7e5)


def test_an_unsettled_choice_could_hold_or_surely_holds():
    cell = read("street, track", USE)
    assert cell.contains("street")
    assert cell.meets(OneOf(("street", "endurance")))
    assert not cell.holds_all(OneOf(("street", "endurance")))
    assert cell.holds_all(OneOf(("street", "track")))
    assert cell.holds_all("track")
    assert not cell.meets(OneOf(("endurance", "street_track")))


def test_the_cell_that_admits_everything_does():
    assert any_cell(USE) == read("any", USE)
    assert any_cell(BOOST) == read("any", BOOST)
