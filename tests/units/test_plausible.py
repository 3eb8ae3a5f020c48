import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.units import find_unit, parse_quantity, plausible_readings

BORE = (0.070, 0.110)
CLEARANCE = (0.00002, 0.00025)
BOOST = (0.0, 4e5)


def offers(value, unit, allowed, shown):
    written = None if unit is None else find_unit(unit)
    return [text for text, _ in plausible_readings(value, written, allowed, shown)]


@pytest.mark.parametrize(
    ("value", "unit", "allowed", "shown", "offer"),
    [
        (3.386, "mm", BORE, "mm", "3.386 in = 86.0044 mm"),
        (3.5, "mm", CLEARANCE, "mm", "3.5 thou = 0.0889 mm"),
        (89, "mm", CLEARANCE, "mm", "89 um = 0.089 mm"),
        (860, "mm", BORE, "mm", "86 mm"),
        (20, "bar gauge", BOOST, "bar gauge", "20 psi gauge = 1.37895 bar gauge"),
        (86, "m", BORE, "mm", "86 mm"),
        (0.086, "mm", BORE, "mm", "0.086 m = 86 mm"),
        (86, None, BORE, "mm", "86 mm"),
        (194, "degC", (333.15, 393.15), "degC", "194 degF = 90 degC"),
        (0.0035, "mm", CLEARANCE, "mm", "0.0035 in = 0.0889 mm"),
    ],
)
def test_the_reading_that_was_meant_is_offered(value, unit, allowed, shown, offer):
    assert offer in offers(value, unit, allowed, shown)


def test_nothing_is_offered_where_no_reading_would_fit():
    assert offers(0.086, "m", (0.2, 0.21), "mm") == []


def test_each_offer_says_why():
    ((_, why),) = plausible_readings(3.386, find_unit("mm"), BORE, "mm")
    assert why == "if it was read in inches"


@given(
    st.floats(1e-4, 1e5),
    st.sampled_from(["mm", "in", "thou", "um"]),
    st.floats(1e-6, 1.0),
    st.floats(0.0, 1.0),
)
def test_every_offer_lands_in_range_and_none_repeats_what_was_written(value, unit, low, width):
    value = float(f"{value:.6g}")
    for text in offers(value, unit, (low, low + width), "mm"):
        meant = parse_quantity(text.partition(" = ")[0])
        assert low * (1 - 1e-9) <= meant.si <= (low + width) * (1 + 1e-9)
        assert (meant.value, meant.unit.name) != (value, unit)


def test_no_more_than_three_are_offered():
    assert len(offers(5.0, None, (0.0, 1e9), "mm")) == 3
