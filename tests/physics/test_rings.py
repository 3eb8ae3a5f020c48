from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from planner.errors import OutsideValidity
from planner.physics.rings import (
    ring_back_clearance,
    ring_end_gap_thermal,
    ring_gap_change,
    ring_side_clearance,
)
from planner.physics.rings_tension import ring_follows, ring_wall_pressure
from tests.physics.directions import assert_directions

IRON = {"bore": 0.086, "bore_expansion": 11e-6, "ring_expansion": 11e-6}
RING = {"neutral_radius": 0.0415, "modulus": 206e9, "height": 0.0012, "thickness": 0.003}


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


def test_the_wall_pressure_balances_half_the_ring():
    pressure = ring_wall_pressure(tangential_force=12.0, bore=0.086, height=0.0012)
    angles = (np.arange(1000) + 0.5) * pi / 1000
    push = np.sum(pressure * 0.0012 * 0.043 * np.sin(angles)) * pi / 1000
    assert push == pytest.approx(2 * 12.0, rel=1e-5)


@pytest.mark.parametrize("order", [2, 3, 4, 6])
def test_the_wave_followed_agrees_with_a_ring_bent_numerically(order):
    # A thin ring of straight bars: the even load that holds the wave a cos(i t) against
    # the wall is worked out from its bending energy, without the closed form.
    radius, stiffness = 0.0415, 206e9 * 0.0012 * 0.003**3 / 12
    count = 2400
    angle = 2 * pi * np.arange(count) / count

    def bending_energy(amplitude):
        # Inextensible: the tangential shift v' = -w keeps the length to first order.
        wave = amplitude * np.cos(order * angle)
        along = -amplitude / order * np.sin(order * angle)
        x = (radius + wave) * np.cos(angle) - along * np.sin(angle)
        y = (radius + wave) * np.sin(angle) + along * np.cos(angle)
        points = x + 1j * y
        bars = np.roll(points, -1) - points
        turn = np.angle(np.roll(bars, -1) / bars)
        mean = (np.abs(bars) + np.abs(np.roll(bars, -1))) / 2
        return float(np.sum(stiffness / 2 * (turn / mean - 1 / radius) ** 2 * mean))

    follows = ring_follows(tangential_force=12.0, **RING, order=float(order))
    small = 1e-5
    # A load q cos(i t) for each length does the work pi R q a / 2 against the wave a.
    load = bending_energy(small) * 2 / (pi * radius * small)
    assert load * follows / small == pytest.approx(12.0 / radius, rel=0.01)


def test_trial_figures_have_not_drifted():
    # REGRESSION values of an earlier trial of the same equations, not an outside check.
    for order, micrometres in ((2, 172), (3, 24), (4, 6.9), (6, 1.26)):
        found = ring_follows(tangential_force=12.0, **RING, order=float(order)) * 1e6
        assert found == pytest.approx(micrometres, rel=0.03)
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


@given(st.integers(2, 11))
def test_a_ring_follows_short_waves_less(order):
    longer = ring_follows(tangential_force=12.0, **RING, order=float(order))
    assert ring_follows(tangential_force=12.0, **RING, order=order + 1.0) < longer


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"order": 1.0}, "order of the wall wave is 1, outside 2 to 12"),
        ({"order": 2.5}, r"order of the wall wave is 2\.5, outside whole numbers"),
        ({"thickness": 0.008}, "ring thickness over radius is"),
        ({"tangential_force": 0.0}, "tangential force is 0 N"),
        ({"modulus": float("nan")}, "elastic modulus is nan MPa"),
    ],
)
def test_rings_that_are_not_thin_are_refused_by_name(change, message):
    with pytest.raises(OutsideValidity, match=message):
        ring_follows(**{"tangential_force": 12.0, **RING, "order": 4.0, **change})


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"bore": 0.0034}, r"bore is 3\.4 mm, outside 60 to 130 mm"),
        ({"ring_rise": -5.0}, "temperature rise of the ring is -5 K"),
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
            "ring_wall_pressure",
            {"tangential_force": (2.0, 40.0), "bore": (0.06, 0.13), "height": (8e-4, 4e-3)},
        ),
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


@given(
    st.sampled_from([2.0, 3.0, 4.0, 6.0]),
    st.floats(1.01, 1.5),
    st.sampled_from(
        [
            ("tangential_force", 1),
            ("neutral_radius", 1),
            ("modulus", -1),
            ("height", -1),
            ("thickness", -1),
        ]
    ),
)
def test_the_wave_followed_turns_back_nowhere(order, factor, way):
    # Orders are whole, so the general walk over floats does not suit this formula.
    name, sign = way
    state = {"tangential_force": 12.0, **RING, "order": order}
    moved = ring_follows(**{**state, name: state[name] * factor})
    assert sign * (moved - ring_follows(**state)) > 0
