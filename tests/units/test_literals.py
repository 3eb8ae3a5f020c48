"""Figures written into sentences, turned for an inch shop by the published factors."""

import pytest

from planner.units.literals import in_units_of


@pytest.mark.published("International yard and pound agreement 1959: inch 25.4 mm")
@pytest.mark.parametrize(
    ("metric", "inch"),
    [
        ("flare 1.5 mm", "flare 0.059 in"),  # 1.5 / 25.4 = 0.05906
        ("0.5 to 1.0 mm at 60 degrees", "0.020 to 0.039 in at 60 degrees"),
        ("round within 0.005 mm", "round within 0.0002 in"),
        ("grows about 2 um", "grows about 79 µin"),  # 2 / 0.0254 = 78.7
        ("150 mm of stroke", "5.91 in of stroke"),
        ("about 0.001 mm", "about 0.00004 in"),  # never printed as nothing
    ],
)
def test_lengths_keep_the_digits_that_were_written(metric, inch):
    assert in_units_of(metric, "inch") == inch


@pytest.mark.parametrize(
    ("metric", "inch"),
    [
        ("2 to 3 bar, warm", "29 to 44 psi, warm"),
        ("over 1.5 bar gauge", "over 22 psi gauge"),
        ("head at 120 to 150 degC", "head at 248 to 302 °F"),
        ("below -150 degC for 20 hours", "below -238 °F for 20 hours"),
        ("within 2 degC of its mark", "within 4 °F of its mark"),
        ("over 22 m/s", "over 4331 ft/min"),
    ],
)
def test_pressures_temperatures_and_speeds_are_turned(metric, inch):
    assert in_units_of(metric, "inch") == inch


@pytest.mark.parametrize(
    "text",
    ["5W-40", "16 W/m/K", "m11x1.25", "8 per cent", "{bore} by hand", "1 g", "3 mmx", "7 Nm"],
)
def test_what_is_no_metric_figure_stays_as_it_is(text):
    assert in_units_of(text, "inch") == text


def test_both_adds_the_inch_figure_and_metric_changes_nothing():
    assert in_units_of("cut 0.03 mm", "both") == "cut 0.03 mm (0.0012 in)"
    assert in_units_of("cut 0.03 mm", "metric") == "cut 0.03 mm"
