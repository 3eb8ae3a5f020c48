import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import BorewrightError, MissingUnit, NotANumber, WrongDimension
from planner.units import (
    ACCELERATION,
    FORCE,
    LENGTH,
    NONE,
    PRESSURE,
    find_unit,
    parse_number,
    parse_quantity,
    round_significant,
    to_si,
    to_unit,
)


@pytest.mark.parametrize(
    ("text", "si", "kind"),
    [
        ("1.1 bar gauge", 110000.0, "gauge"),
        ("86.02mm", 0.08602, None),
        ("  3.5   thou ", 0.0000889, None),
        ("-5 degC", 268.15, "reading"),
        ("\N{MINUS SIGN}5 degC", 268.15, "reading"),
        (".5 in", 0.0127, None),
        ("1e5 Pa", 1e5, None),
        ("8.5", 8.5, None),
        ("12e-6 1/K", 12e-6, None),
        ("7200 rpm", 753.98223686155, "speed of rotation"),
        ("15 %", 0.15, None),
        ("60 ft·lbf", 81.3490768998840, "torque"),
    ],
)
def test_a_quantity_is_read_as_written(text, si, kind):
    quantity = parse_quantity(text)
    assert quantity.si == pytest.approx(si, rel=1e-11)
    assert quantity.kind == kind


def test_a_corner_load_in_g_is_an_acceleration():
    assert parse_quantity("0.9 g", ACCELERATION).si == pytest.approx(8.825985)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("8,000 rpm", "Write 8000 without the thousands comma, or 8.000"),
        ("1,234,567 Pa", "Write 1234567 without the thousands comma."),
        ("0,85 mm", "Write 0.85 with a decimal point, not a decimal comma"),
        ("1,1 bar", "Write 1.1 with a decimal point"),
        ("7 200 rpm", "Write 7200 without spaces"),
        ("7'200 rpm", "Write 7200 without spaces"),
        ("5 1/2 in", "Write the fraction 5 1/2 as a decimal"),
        ("3/8 in", "Write the fraction 3/8 as a decimal"),
        ("about 5 mm", "Write digits"),
        ("nan mm", "Write digits"),
        ("inf bar", "Write digits"),
        ("", "Write digits"),
        ("--5 mm", "Write digits"),
        ("5.5.5 mm", "Write digits"),
        ("1e999 mm", "Check the exponent"),
        ("1e300 GPa", "Check the exponent"),
        ("٣ mm", "Write digits"),
    ],
)
def test_a_number_that_can_be_read_two_ways_is_refused(text, said):
    with pytest.raises(NotANumber) as refusal:
        parse_quantity(text)
    assert said in str(refusal.value)


@pytest.mark.parametrize("text", ["8,000", "nan", "inf", "-inf", "1_000", "0x10", "5 mm", "1e999"])
def test_a_plain_number_is_digits_only(text):
    with pytest.raises(NotANumber):
        parse_number(text)


def test_a_plain_number_is_read():
    assert [parse_number(each) for each in ("8.5", " 010 ", "-1e3", "+.5")] == [
        8.5,
        10,
        -1000,
        0.5,
    ]


def test_a_missing_unit_is_said_with_an_example():
    with pytest.raises(MissingUnit) as refusal:
        parse_quantity("86.0", LENGTH)
    assert "86.0 has no unit." in str(refusal.value)
    assert "for example: 86.0 mm" in str(refusal.value)


@pytest.mark.parametrize(
    ("text", "expected", "said"),
    [
        ("86 kg", LENGTH, "is a mass, not a length"),
        ("20 lb", FORCE, "for example N or lbf"),
        ("8.5 mm", NONE, "Write the number alone"),
        ("10 %", LENGTH, "is a plain number, not a length"),
    ],
)
def test_a_unit_of_another_sort_is_refused(text, expected, said):
    with pytest.raises(WrongDimension) as refusal:
        parse_quantity(text, expected)
    assert said in str(refusal.value)


def test_a_size_lands_in_the_same_row_however_it_is_spelled():
    spellings = ["86.36 mm", "3.4 in", "3400 thou", "8.636 cm", "0.08636 m", "86360 um"]
    assert {parse_quantity(each, LENGTH).si for each in spellings} == {0.08636}


def test_a_pressure_lands_in_the_same_row_however_it_is_spelled():
    spellings = ["1.4 bar", "140 kPa", "0.14 MPa", "140000 Pa", "1400 mbar"]
    assert {parse_quantity(each, PRESSURE).si for each in spellings} == {140000.0}


@given(
    st.floats(1e-6, 1e6),
    st.sampled_from(["mm", "in", "thou", "bar", "psi", "degC", "degF", "rpm", "N*m", "hp", "cc"]),
)
def test_turning_to_si_and_back_loses_nothing_a_gauge_could_show(value, name):
    back = to_unit(to_si(value, name), name)
    assert back == pytest.approx(value, rel=1e-10, abs=1e-8)


@given(st.floats(allow_nan=False, allow_infinity=False, width=64))
def test_rounding_twice_is_rounding_once(value):
    once = round_significant(value)
    assert round_significant(once) == once


@given(st.text(max_size=50))
def test_no_text_breaks_the_quantity_reader(text):
    try:
        quantity = parse_quantity(text)
    except BorewrightError:
        return
    assert math.isfinite(quantity.si)


@given(st.text(alphabet="0123456789.,eE+- '/mbarin%°_", max_size=20))
def test_no_near_miss_breaks_the_quantity_reader(text):
    try:
        quantity = parse_quantity(text)
    except BorewrightError:
        return
    assert math.isfinite(quantity.si)


def test_a_unit_may_be_given_as_text_or_as_itself():
    assert to_unit(0.0865, "mm") == to_unit(0.0865, find_unit("mm")) == 86.5
