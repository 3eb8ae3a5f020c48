"""A bore's surface from its trace, beside what the plan asks."""

import math

import pytest

from planner.datafiles.trace import Trace
from planner.planning.trace_finish import Figure, finish_figures
from planner.sheets.finish_text import finish_text
from tests.rules.demo_builds import build

MICRON = 1e-6


def sine(height, count=9600):
    """Give a sine of 0.1 mm on a tilted surface, 0.5 um from height to height."""
    spacing = 0.5e-6
    heights = [
        height * math.sin(2 * math.pi * at * spacing / 1e-4) + 0.01 * at * spacing
        for at in range(count)
    ]
    return Trace(tuple(heights), spacing)


def by_name(figures):
    return {each.name: each for each in figures}


def test_the_mean_figures_of_a_tilted_sine_are_known():
    # Closed form: Ra of a sine is two over pi of its height, Rz twice the height.
    found = by_name(finish_figures(sine(0.5 * MICRON), 0.8e-3))
    assert found["Ra"].measured == pytest.approx(2 / math.pi * 0.5 * MICRON, rel=0.01)
    assert found["Rz"].measured == pytest.approx(1.0 * MICRON, rel=0.02)


def test_without_a_job_nothing_is_judged():
    figures = finish_figures(sine(0.5 * MICRON), 0.8e-3)
    assert all(each.inside and each.high is None for each in figures)
    assert "name the job with --job" in finish_text(figures)


def test_the_job_says_what_the_surface_should_be():
    found = by_name(finish_figures(sine(0.5 * MICRON), 0.8e-3, build("larch")))
    assert (found["Ra"].low, found["Ra"].high) == pytest.approx((0.25e-6, 0.45e-6))
    assert found["Rpk"].low is None
    assert found["Rpk"].high == pytest.approx(0.25e-6)
    assert found["Ra"].inside
    assert not found["Rvk"].inside  # a sine has no valleys to hold oil


def test_a_figure_outside_is_said_in_words():
    text = finish_text([Figure("Rpk", 0.4e-6, None, 0.25e-6), Figure("Mr1", 0.12)], "plateau")
    assert "Finish wanted: plateau" in text
    assert "up to 0.25" in text
    assert "OUTSIDE" in text
    assert "Outside: Rpk." in text
    assert "12.0 %" in text


def test_figures_inside_are_said_to_be_as_read():
    text = finish_text([Figure("Rpk", 0.2e-6, None, 0.25e-6)])
    assert "Inside every limit, as read" in text
