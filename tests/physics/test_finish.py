from math import erf, exp, pi, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.special import ndtr, ndtri

from planner.errors import OutsideValidity
from planner.physics.finish import profile_roughness, rk_parameters

COUNT = 20_000


def shuffled(heights, seed=0):
    mixed = np.random.default_rng(seed).permutation(heights)
    return (tuple(mixed.tolist()),)


def gaussian_closed_form():
    """Rk, Rpk and Mr1 of a normal surface of unit deviation, by integration in closed form.

    The flattest 40 % lies in the middle. The least-squares slope there is
    12 / 0.4^3 times the integral of (q - 1/2) Phi^-1(q) over q = 0.3 to 0.7, which is
    [2 Phi(sqrt2 t) - 1] / (2 sqrt pi) - 0.4 phi(t) with t = Phi^-1(0.7).
    """
    t = ndtri(0.7)
    density = exp(-t * t / 2) / sqrt(2 * pi)
    integral = erf(t) / (2 * sqrt(pi)) - 0.4 * density
    core = 12 / 0.4**3 * integral
    above = ndtr(-core / 2)
    area = exp(-core * core / 8) / sqrt(2 * pi) - core / 2 * above
    return core, 2 * area / above, above


def test_a_normal_surface_has_the_figures_of_the_closed_form():
    core, peak, above = gaussian_closed_form()
    heights = ndtri((np.arange(COUNT) + 0.5) / COUNT) * 1e-6
    found = rk_parameters(profile=shuffled(heights))
    assert found["rk"] == pytest.approx(core * 1e-6, rel=1e-3)
    assert found["rpk"] == pytest.approx(peak * 1e-6, rel=2e-3)
    assert found["rvk"] == pytest.approx(peak * 1e-6, rel=2e-3)
    assert found["mr1"] == pytest.approx(above, abs=2e-4)
    assert found["mr2"] == pytest.approx(1 - above, abs=2e-4)


def test_a_random_normal_trace_comes_near_the_closed_form():
    core, peak, above = gaussian_closed_form()
    heights = np.random.default_rng(7).normal(0, 1e-6, 8000)
    found = rk_parameters(profile=(tuple(heights.tolist()),))
    assert found["rk"] == pytest.approx(core * 1e-6, rel=0.05)
    assert found["rpk"] == pytest.approx(peak * 1e-6, rel=0.15)
    assert found["mr1"] == pytest.approx(above, abs=0.02)


def test_a_saw_tooth_is_all_core():
    found = rk_parameters(profile=shuffled(np.linspace(0, 3e-6, COUNT)))
    assert found["rk"] == pytest.approx(3e-6, rel=1e-3)
    assert found["rpk"] == pytest.approx(0.0, abs=1e-9)
    assert found["rvk"] == pytest.approx(0.0, abs=1e-9)


def test_a_plateau_with_valleys_shows_core_and_triangle_by_hand():
    # 80 % of the length a core 1 um deep (and no peaks); 20 % valleys 2 um deeper, straight.
    core = np.linspace(1.0, 0.2, int(0.8 * COUNT))
    valley = np.linspace(0.0, -2.0, int(0.2 * COUNT))
    found = rk_parameters(profile=shuffled(np.concatenate((core, valley)) * 1e-6))
    assert found["rk"] == pytest.approx(1.0e-6, rel=1e-3)
    assert found["rpk"] == pytest.approx(0.0, abs=1e-9)
    assert found["rvk"] == pytest.approx(2.0e-6, rel=1e-3)
    assert found["mr2"] == pytest.approx(0.8, abs=1e-3)


@given(st.floats(0.1, 10.0), st.floats(-1e-5, 1e-5), st.integers(0, 2**32 - 1))
@settings(max_examples=20, deadline=None)
def test_figures_scale_and_do_not_care_for_the_zero_or_the_order(factor, lift, seed):
    heights = np.random.default_rng(seed).normal(0, 1e-6, 400)
    first = rk_parameters(profile=(tuple(heights.tolist()),))
    moved = rk_parameters(profile=shuffled(heights * factor + lift, seed))
    for name in ("rk", "rpk", "rvk"):
        assert moved[name] == pytest.approx(first[name] * factor, rel=1e-6)


def test_rows_of_a_trace_follow_each_other():
    heights = np.random.default_rng(2).normal(0, 1e-6, 120)
    rows = tuple(map(tuple, heights.reshape(12, 10).tolist()))
    assert rk_parameters(profile=rows) == rk_parameters(profile=(tuple(heights.tolist()),))


def test_mean_figures_of_a_sine_are_known():
    # Ra of a sine is 2/pi of its amplitude, Rq 1/sqrt2; Rz the whole height.
    trace = np.sin(2 * pi * np.arange(10_000) / 500) * 1e-6
    found = profile_roughness(profile=(tuple(trace.tolist()),))
    assert found["ra"] == pytest.approx(2 / pi * 1e-6, rel=1e-4)
    assert found["rq"] == pytest.approx(1e-6 / sqrt(2), rel=1e-4)
    assert found["rz"] == pytest.approx(2e-6, rel=1e-4)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: rk_parameters(profile=((1e-6,) * 99,)), "number of heights is 99, outside 100"),
        (lambda: rk_parameters(profile=((1e-6,) * 100,)), "core of the trace is level"),
        (lambda: profile_roughness(profile=((1e-6,) * 24,)), "number of heights is 24"),
        (lambda: profile_roughness(profile=((float("nan"),) * 30,)), "reading is nan"),
    ],
)
def test_traces_that_say_nothing_are_refused_by_name(call, message):
    with pytest.raises(OutsideValidity, match=message):
        call()
