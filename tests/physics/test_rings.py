from math import pi

import pytest
from scipy.optimize import brentq

from planner.errors import OutsideValidity
from planner.physics.rings import (
    ring_back_clearance,
    ring_end_gap_thermal,
    ring_gap_change,
    ring_side_clearance,
)
from tests.physics.directions import assert_directions

IRON = {"bore": 0.086, "bore_expansion": 11e-6, "ring_expansion": 11e-6}


def test_the_gap_by_hand():
    # Bore 270.177 mm round, +98 K of 11e-6: 270.468; the ring that fills it, cooled 158 K.
    by_hand = pi * 0.086 * (1 - (1 + 11e-6 * 98) / (1 + 11e-6 * 158))
    assert ring_end_gap_thermal(
        **IRON, hot_gap=0.0, bore_rise=98.0, ring_rise=158.0
    ) == pytest.approx(by_hand)


def test_the_gap_agrees_with_a_root_found_by_scipy():
    def hot_gap(cold_gap):
        ring = (pi * 0.086 - cold_gap) * (1 + 11e-6 * 200)
        return pi * 0.086 * (1 + 11e-6 * 120) - ring - 5e-5

    cold = brentq(hot_gap, 0.0, 0.01, xtol=1e-15)
    found = ring_end_gap_thermal(**IRON, hot_gap=5e-5, bore_rise=120.0, ring_rise=200.0)
    assert found == pytest.approx(cold, abs=1e-12)


def test_a_ring_as_warm_as_its_bore_keeps_its_gap_to_scale():
    cold = ring_end_gap_thermal(**IRON, hot_gap=4e-4, bore_rise=100.0, ring_rise=100.0)
    assert cold * (1 + 11e-6 * 100) == pytest.approx(4e-4)


def test_in_an_aluminium_bore_the_gap_closes_almost_nothing():
    aluminium = {**IRON, "bore_expansion": 21e-6}
    iron = ring_end_gap_thermal(**IRON, hot_gap=0.0, bore_rise=100.0, ring_rise=170.0)
    light = ring_end_gap_thermal(**aluminium, hot_gap=0.0, bore_rise=100.0, ring_rise=170.0)
    assert light < 0.0 < iron


def test_a_bore_larger_by_a_hundredth_opens_the_gap_by_three():
    assert ring_gap_change(bore_change=1e-5) == pytest.approx(pi * 1e-5)


def test_trial_figures_have_not_drifted():
    # REGRESSION values of an earlier trial of the same equations, not an outside check.
    for heat, gap in ((0.8, 0.278), (1.416, 0.415), (1.841, 0.509)):
        found = ring_end_gap_thermal(
            **IRON,
            hot_gap=0.0,
            bore_rise=70 + 35 * heat,
            ring_rise=min(70 + 110 * heat, 300.0),
        )
        assert found * 1e3 + 0.10 == pytest.approx(gap, abs=0.0006)


def test_side_and_back_clearance_are_plain_differences():
    assert ring_side_clearance(groove_height=1.25e-3, ring_height=1.2e-3) == pytest.approx(5e-5)
    assert ring_back_clearance(groove_depth=2.9e-3, ring_thickness=3e-3) == pytest.approx(-1e-4)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"bore": 0.0034}, r"bore is 3\.4 mm, outside 60 to 130 mm"),
        ({"ring_rise": -5.0}, "temperature rise of the ring is -5 K"),
        ({"bore_rise": -1.0}, "temperature rise of the bore is -1 K"),
        ({"bore_rise": 501.0}, "temperature rise of the bore is 501 K, outside 0 to 500 K"),
        ({"ring_rise": 501.0}, "temperature rise of the ring is 501 K, outside 0 to 500 K"),
        ({"bore_expansion": 31e-6}, "expansion of the bore is 31 per million"),
        ({"ring_expansion": 31e-6}, "expansion of the ring is 31 per million"),
        ({"ring_expansion": 0.0}, "expansion of the ring is 0 per million"),
    ],
)
def test_gaps_outside_the_validity_are_refused_by_name(change, message):
    state = {**IRON, "hot_gap": 0.0, "bore_rise": 98.0, "ring_rise": 158.0, **change}
    with pytest.raises(OutsideValidity, match=message):
        ring_end_gap_thermal(**state)


@pytest.mark.parametrize(
    ("name", "ranges"),
    [
        (
            "ring_end_gap_thermal",
            {
                "bore": (0.06, 0.13),
                "hot_gap": (0.0, 3e-4),
                "bore_expansion": (9e-6, 25e-6),
                "bore_rise": (0.0, 200.0),
                "ring_expansion": (9e-6, 15e-6),
                "ring_rise": (0.0, 400.0),
            },
        ),
        ("ring_gap_change", {"bore_change": (-1e-4, 1e-4)}),
        (
            "ring_side_clearance",
            {"groove_height": (1e-3, 3e-3), "ring_height": (1e-3, 3e-3)},
        ),
        (
            "ring_back_clearance",
            {"groove_depth": (2e-3, 5e-3), "ring_thickness": (2e-3, 5e-3)},
        ),
    ],
)
def test_declared_directions_hold(name, ranges):
    assert_directions(name, **ranges)
