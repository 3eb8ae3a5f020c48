import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.units import find_unit, parse_quantity, show, show_band, to_unit

CLEARANCE = "clearance on diameter"


@pytest.mark.parametrize(
    ("si", "unit", "kind", "text"),
    [
        (0.0865, "mm", "diameter", "86.500 mm (3.4055 in)"),
        (0.000089, "mm", CLEARANCE, "0.089 mm (3.5 thou)"),
        (0.00048, "mm", "gap", "0.480 mm (18.9 thou)"),
        (110000.0, "bar", None, "1.1 bar (16 psi)"),
        (110000.0, "bar gauge", None, "1.1 bar gauge (16 psi gauge)"),
        (1.2e7, "bar", "absolute", "120.0 bar absolute (1740 psi absolute)"),
        (363.15, "degC", None, "90 °C (194 °F)"),
        (15.0, "delta_degC", None, "15 °C rise (27 °F rise)"),
        (753.98223686155, "rpm", None, "7200 rpm"),
        (250e3, "kW", None, "250 kW (335 hp)"),
        (60.0, "N*m", None, "60 N·m (44 ft·lbf)"),
        (12.5e-6, "cm**3", None, "12.5 cm³ (0.76 in³)"),
        (9.7e8, "MPa", "stress", "970 MPa (140.7 ksi)"),
        (8.5, "", None, "8.50"),
        (0.15, "%", None, "15 %"),
        (21.5, "m/s", None, "21.5 m/s (4232 ft/min)"),
        (0.7853981633974483, "deg", None, "45.0°"),
        (8.825985, "g_load", None, "0.9000 g"),
        (600.0, "m", None, "600.0 m (1968.5 ft)"),
    ],
)
def test_a_figure_prints_in_the_trades_digits(si, unit, kind, text):
    assert show(si, unit, kind=kind, system="both") == text


def test_an_inch_shop_reads_inches_alone():
    assert show(0.0865, "mm", system="inch") == "3.4055 in"
    assert show(0.000089, "mm", kind=CLEARANCE, system="inch") == "3.5 thou"


def test_a_metric_shop_reads_millimetres_even_where_thou_was_declared():
    assert show(0.0000889, "thou", kind=CLEARANCE) == "0.089 mm"
    assert show(137895.145863, "psi gauge") == "1.4 bar gauge"


def test_what_is_not_nothing_never_prints_as_nothing():
    assert show(2.5e-7, "mm") == "0.00025 mm"
    assert show(-2.5e-7, "mm") == "-0.00025 mm"


def test_float_dust_prints_as_nothing_and_never_as_minus_nothing():
    assert show(-1e-19, "mm") == show(0.0, "mm") == "0.000 mm"


def test_a_step_is_kept_in_the_declared_unit():
    assert show(0.000437, "mm", kind="gap", step=1e-5) == "0.44 mm"
    assert show(0.000437, "mm", kind="gap", step=1e-5, towards="down") == "0.43 mm"
    assert show(0.000431, "mm", kind="gap", step=1e-5, towards="up") == "0.44 mm"
    assert show(0.000437, "mm", kind="gap", step=1e-5, system="inch") == "17.2 thou"
    assert show(361.0, "degC", step=5.0) == "90 °C"


def test_an_exact_value_is_not_pushed_to_the_next_step():
    assert show(0.00043, "mm", step=1e-5, towards="up") == "0.43 mm"
    assert show(0.00043, "mm", step=1e-5, towards="down") == "0.43 mm"


def test_a_band_rounds_inward():
    band = (0.0000774, 0.0000903, 0.0001032)
    assert show_band(band, "mm", kind=CLEARANCE) == "0.078 / 0.090 / 0.103 mm"


def test_a_band_in_both_systems_and_without_a_target():
    text = show_band((0.058, None, 0.058018), "mm", kind="diameter", system="both")
    assert text == "58.000 / 58.018 mm (2.2835 / 2.2841 in)"


def test_a_band_narrower_than_its_step_keeps_finer_digits():
    assert show_band((0.0000771, 0.0000773, 0.0000778), "mm") == "0.0771 / 0.0773 / 0.0778 mm"


def test_a_band_of_one_value_prints_it_thrice():
    assert show_band((0.00009, 0.00009, 0.00009), "mm") == "0.090 / 0.090 / 0.090 mm"


@given(
    st.floats(-1.0, 1.0),
    st.floats(0.0, 0.1),
    st.sampled_from([None, 1e-6, 1e-5, 5e-5]),
    st.sampled_from(["metric", "inch"]),
)
def test_print_never_widens_a_band(low, width, step, system):
    high = low + width
    text = show_band((low, None, high), "mm", step=step, system=system)
    first, second, unit = re.fullmatch(r"(\S+) / (\S+) (\S+)", text).groups()
    slack = 1e-11 * max(abs(low), abs(high), 1e-3)
    assert parse_quantity(f"{first} {unit}").si >= low - slack
    assert parse_quantity(f"{second} {unit}").si <= high + slack


@given(
    st.floats(allow_nan=False, allow_infinity=False), st.sampled_from(["mm", "bar", "", "g*mm"])
)
def test_any_finite_value_prints(value, unit):
    if abs(value) < 1e300:
        assert show(value, unit, system="both")


@given(st.floats(1e-5, 1.0))
def test_what_is_printed_reads_back_to_the_last_digit(value):
    back = parse_quantity(show(value, "mm")).si
    assert to_unit(back, "mm") == pytest.approx(to_unit(value, "mm"), abs=0.000500001)


def test_a_unit_may_be_given_as_itself():
    assert show(0.0865, find_unit("mm")) == "86.500 mm"
