import math

import pytest

from planner.errors import OutsideValidity
from planner.physics.bolts_thread import (
    inch_thread_stress_area,
    metric_thread_stress_area,
    thread_pitch_diameter,
)
from tests.physics.directions import assert_directions

INCH = 0.0254


@pytest.mark.published("ISO 898-1, nominal stress areas, from memory")
@pytest.mark.parametrize(
    ("diameter", "pitch", "area"),
    [
        (6, 1, 20.1),
        (8, 1.25, 36.6),
        (10, 1.5, 58.0),
        (12, 1.75, 84.3),
        (16, 2, 157),
        (8, 1, 39.2),
        (10, 1.25, 61.2),
        (12, 1.25, 92.1),
        (12, 1.5, 88.1),
    ],
)
def test_metric_stress_areas_as_the_standard_lists_them(diameter, pitch, area):
    found = metric_thread_stress_area(nominal=diameter / 1e3, pitch=pitch / 1e3) * 1e6
    assert found == pytest.approx(area, abs=0.5 if area > 100 else 0.05)


@pytest.mark.published("Shigley, table 8-2, tensile stress areas, from memory")
@pytest.mark.parametrize(
    ("diameter", "count", "area"), [(3 / 8, 24, 0.0878), (7 / 16, 20, 0.1187)]
)
def test_inch_stress_areas_as_the_textbook_lists_them(diameter, count, area):
    found = inch_thread_stress_area(nominal=diameter * INCH, pitch=INCH / count)
    assert found / INCH**2 == pytest.approx(area, abs=0.00005)


def test_the_metric_stress_circle_lies_between_pitch_and_root_diameter():
    nominal, pitch = 0.010, 0.0015
    height = pitch * math.sqrt(3) / 2
    flank = thread_pitch_diameter(nominal=nominal, pitch=pitch)
    root = nominal - 2 * 5 / 8 * height - height / 6
    area = metric_thread_stress_area(nominal=nominal, pitch=pitch)
    assert area == pytest.approx(math.pi / 4 * ((flank + root) / 2) ** 2, rel=1e-4)


def test_a_thread_count_given_for_a_pitch_is_refused_with_a_hint():
    with pytest.raises(OutsideValidity, match="thread pitch is 24000 mm") as refusal:
        inch_thread_stress_area(nominal=0.009525, pitch=24.0)
    assert "1 in over the count" in refusal.value.remedy


@pytest.mark.parametrize(
    "name", ["metric_thread_stress_area", "inch_thread_stress_area", "thread_pitch_diameter"]
)
def test_the_declared_directions_hold(name):
    assert_directions(name, nominal=(0.006, 0.016), pitch=(0.6e-3, 1.5e-3))
