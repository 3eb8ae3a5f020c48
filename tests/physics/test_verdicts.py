import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import OutsideValidity
from planner.physics.verdicts import (
    guard_band,
    inside_limit,
    verdict,
)
from planner.physics.verdicts_margins import acceptance_width, conform_margin, nonconform_margin
from planner.physics.verdicts_uncertainty import conformity_probability
from tests.physics.directions import assert_directions

LIMITS = {"low": 0.045, "high": 0.060}
GAUGE = {"uncertainty": 0.0012, "coverage": 1.65}


@pytest.mark.parametrize(
    ("value", "says"),
    [
        (0.0465, "indeterminate"),
        (0.0475, "conform"),
        (0.0425, "nonconform"),
        (0.0435, "indeterminate"),
        (0.0525, "conform"),
        (0.0615, "indeterminate"),
        (0.0625, "nonconform"),
    ],
)
def test_verdicts_by_hand_with_a_guard_band_of_two_micrometres(value, says):
    # Limits 45 and 60, guard 1.65 x 1.2 = 1.98: conform 46.98 to 58.02, out beyond 43.02, 61.98.
    assert verdict(value, 0.045, 0.060, **GAUGE) == says


@given(st.floats(0.03, 0.08))
def test_the_verdict_and_the_margins_agree(value):
    says = verdict(value, 0.045, 0.060, **GAUGE)
    assert (says == "conform") == (conform_margin(value=value, **LIMITS, **GAUGE) >= 0)
    assert (says == "nonconform") == (nonconform_margin(value=value, **LIMITS, **GAUGE) > 0)


@given(st.floats(0.0, 0.1), st.floats(0.0, 0.01))
def test_a_pass_is_never_given_outside_the_limits(value, uncertainty):
    if verdict(value, 0.045, 0.060, uncertainty=uncertainty, coverage=1.65) == "conform":
        assert inside_limit(value, 0.045, 0.060)


@given(
    st.floats(0.04, 0.08),
    st.floats(1e-4, 0.02),
    st.floats(5.0, 40.0),
)
def test_conform_means_at_least_ninety_five_percent_when_the_band_is_five_u_wide(
    value, uncertainty, widths
):
    low, high = 0.045, 0.045 + widths * uncertainty
    if verdict(value, low, high, uncertainty=uncertainty, coverage=1.65) == "conform":
        chance = conformity_probability(value=value, low=low, high=high, uncertainty=uncertainty)
        assert chance >= 0.95


def test_a_form_limit_under_the_guard_band_cannot_be_proved():
    # Two readings of a 2.5 um gauge: u = 3.5, guard 5.8 against a limit of 5 um.
    coarse = {"uncertainty": 0.0025 * 2**0.5, "coverage": 1.65}
    assert verdict(0.001, None, 0.005, **coarse) == "gauge too coarse"
    assert verdict(0.012, None, 0.005, **coarse) == "nonconform"
    fine = {"uncertainty": 0.0008 * 2**0.5, "coverage": 1.65}
    assert verdict(0.001, None, 0.005, **fine) == "conform"
    assert verdict(0.004, None, 0.005, **fine) == "indeterminate"


def test_a_band_narrower_than_two_guards_cannot_be_proved():
    assert acceptance_width(**LIMITS, uncertainty=0.005, coverage=1.65) < 0
    says = verdict(0.0525, 0.045, 0.060, uncertainty=0.005, coverage=1.65)
    assert says == "gauge too coarse"


def test_a_least_size_alone_is_judged_from_below():
    assert verdict(5.35, 5.0, None, uncertainty=0.1, coverage=1.65) == "conform"
    assert verdict(5.10, 5.0, None, uncertainty=0.1, coverage=1.65) == "indeterminate"
    assert verdict(4.80, 5.0, None, uncertainty=0.1, coverage=1.65) == "nonconform"


def test_the_shop_s_plain_acceptance_knows_no_guard():
    assert inside_limit(0.0451, 0.045, 0.060)
    assert inside_limit(0.060, 0.045, 0.060)
    assert not inside_limit(0.0449, 0.045, None)


def test_an_exact_reading_needs_no_guard():
    assert guard_band(uncertainty=0.0, coverage=1.65) == 0.0
    assert verdict(0.045, 0.045, 0.060, uncertainty=0.0, coverage=1.65) == "conform"


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: verdict(0.05, None, None, **GAUGE), "limits is none"),
        (lambda: verdict(float("nan"), 0.045, 0.06, **GAUGE), "reading is nan"),
        (lambda: guard_band(uncertainty=-1e-6, coverage=1.65), r"uncertainty is -0\.001 mm"),
        (
            lambda: conform_margin(value=0.05, low=0.06, high=0.045, **GAUGE),
            "pair of limits is 60 to 45 mm",
        ),
    ],
)
def test_what_cannot_be_judged_is_refused_by_name(call, message):
    with pytest.raises(OutsideValidity, match=message):
        call()


BANDS = {"low": (0.04, 0.05), "high": (0.051, 0.07)}
GAUGES = {"uncertainty": (0.0, 0.005), "coverage": (1.0, 3.0)}


@pytest.mark.parametrize(
    ("name", "ranges"),
    [
        ("guard_band", GAUGES),
        ("conform_margin", {"value": (0.03, 0.08), **BANDS, **GAUGES}),
        ("nonconform_margin", {"value": (0.03, 0.08), **BANDS, **GAUGES}),
        ("acceptance_width", {**BANDS, **GAUGES}),
        (
            "conformity_probability",
            {"value": (0.03, 0.08), **BANDS, "uncertainty": (1e-4, 0.005)},
        ),
    ],
)
def test_declared_directions_hold(name, ranges):
    assert_directions(name, **ranges)
