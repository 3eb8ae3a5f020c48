import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.datafiles.resolver import is_not_finite, resolve


@pytest.mark.published("YAML 1.2.2, section 10.3.2, core schema tag resolution")
@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("null", None),
        ("~", None),
        ("", None),
        ("true", True),
        ("FALSE", False),
        ("0", 0),
        ("0o7", 7),
        ("0x3A", 58),
        ("-19", -19),
        ("0.", 0.0),
        ("-0.0", -0.0),
        (".5", 0.5),
        ("+12e03", 12000.0),
        ("-2E+05", -200000.0),
    ],
)
def test_the_core_schemas_own_samples(text, value):
    found = resolve(text)
    assert found == value
    assert type(found) is type(value)


@pytest.mark.parametrize(
    "text",
    [
        "yes",
        "no",
        "on",
        "off",
        "Yes",
        "y",
        "1:30",
        "190:20:30",
        "1_000",
        "010",
        "08",
        "0b1",
        "nan",
    ],
)
def test_what_yaml_1_1_would_have_turned_stays_text(text):
    assert resolve(text) == text


def test_a_number_too_large_stays_text():
    assert resolve("1e999") == "1e999"
    assert resolve("9" * 5000) == "9" * 5000


@pytest.mark.parametrize("text", [".inf", "-.Inf", ".NaN", "1e999", "-1e999"])
def test_what_is_no_finite_number_is_noticed(text):
    assert is_not_finite(text)


@pytest.mark.parametrize("text", ["1.0", "inf", "nan", "text", ".infinite", "-"])
def test_what_is_finite_or_text_passes(text):
    assert not is_not_finite(text)


@given(st.text(max_size=30))
def test_no_word_resolves_to_a_number_that_is_not_finite(text):
    value = resolve(text)
    assert not isinstance(value, float) or math.isfinite(value)


@given(st.integers(-(10**20), 10**20))
def test_whole_numbers_are_read_exactly(value):
    assert resolve(str(value)) == value


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_floats_are_read_exactly(value):
    assert resolve(repr(value)) == value
