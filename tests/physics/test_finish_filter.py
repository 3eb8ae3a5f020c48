from math import pi

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.errors import OutsideValidity
from planner.physics.finish import rk_parameters
from planner.physics.finish_filter import _mean_line, filtered_profile

SPACING, CUT_OFF = 2e-6, 0.8e-3
PLACE = np.arange(2801) * SPACING  # 5.6 mm: five cut-offs and one to run in and out


def middle(row):
    return np.array(row)[len(row) // 3 : -len(row) // 3]


@pytest.mark.published(
    "ISO 16610-21: a Gaussian mean line passes exp(-pi (alpha cut-off / wave)^2), half at the "
    "cut-off (from memory, not opened)"
)
@pytest.mark.parametrize("wave_over_cut_off", [0.5, 1.0, 2.0, 4.0])
def test_the_mean_line_passes_waves_by_the_gaussian_law(wave_over_cut_off):
    wave = np.cos(2 * pi * (PLACE - PLACE[1400]) / (wave_over_cut_off * CUT_OFF))
    passed = _mean_line(wave, SPACING, CUT_OFF)[1400]
    assert passed == pytest.approx(2 ** -(wave_over_cut_off**-2), abs=0.002)


@given(st.floats(-1e-3, 1e-3), st.floats(-1e-3, 1e-3), st.integers(0, 2**32 - 1))
@settings(max_examples=15, deadline=None)
def test_tilt_and_lift_of_the_trace_do_not_matter(tilt, lift, seed):
    rough = np.random.default_rng(seed).normal(0, 1e-6, len(PLACE))
    plain = filtered_profile(heights=rough.tolist(), spacing=SPACING, cut_off=CUT_OFF)
    tilted = (rough + tilt * PLACE + lift).tolist()
    found = filtered_profile(heights=tilted, spacing=SPACING, cut_off=CUT_OFF)
    assert found[0] == pytest.approx(plain[0], abs=1e-12)


def test_a_long_wave_is_taken_out_and_short_roughness_stays():
    # Lifting what lies below the mean line makes roughness alone keep half its height above
    # the reference at most; a wave of ten cut-offs under it must leave no more than 2 %.
    rough = 1e-6 * np.sin(2 * pi * PLACE / 2e-5)
    wavy = rough + 5e-6 * np.sin(2 * pi * PLACE / (10 * CUT_OFF))
    plain = filtered_profile(heights=rough.tolist(), spacing=SPACING, cut_off=CUT_OFF)
    found = filtered_profile(heights=wavy.tolist(), spacing=SPACING, cut_off=CUT_OFF)
    left = middle(found[0]) - middle(plain[0])
    assert np.max(np.abs(left - np.mean(left))) < 0.02 * 5e-6 * 2


def test_deep_valleys_do_not_lift_the_plateau():
    # A flat plateau with a groove 5 um deep: a plain mean line dips there and shows false
    # peaks beside the groove, the two-step reference does far less.
    groove = np.where(np.abs(PLACE - PLACE[1400]) < 4e-5, -5e-6, 0.0)
    two_step = np.array(
        filtered_profile(heights=groove.tolist(), spacing=SPACING, cut_off=CUT_OFF)[0]
    )
    plain = groove - _mean_line(groove, SPACING, CUT_OFF)
    assert np.max(plain) > 0.5e-6
    assert np.max(two_step) - np.median(two_step) < 0.25 * (np.max(plain) - np.median(plain))


def test_a_filtered_trace_goes_straight_into_its_figures():
    rough = np.random.default_rng(11).normal(0, 0.3e-6, len(PLACE))
    row = filtered_profile(heights=rough.tolist(), spacing=SPACING, cut_off=CUT_OFF)
    assert len(row[0]) == len(PLACE) - 2 * 200
    assert rk_parameters(profile=row)["rk"] == pytest.approx(2.576 * 0.3e-6, rel=0.1)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"cut_off": 2e-3}, r"length of the trace is 5\.6 mm, outside 6 to 1000 mm"),
        ({"cut_off": 2e-5}, "heights to a cut-off is 10, outside 20"),
        ({"spacing": 0.0}, "spacing of the heights is 0 mm"),
        ({"heights": [0.0, float("nan")]}, "reading is nan"),
    ],
)
def test_traces_that_cannot_be_filtered_are_refused_by_name(change, message):
    good = {"heights": [0.0] * 2801, "spacing": SPACING, "cut_off": CUT_OFF}
    with pytest.raises(OutsideValidity, match=message):
        filtered_profile(**{**good, **change})
