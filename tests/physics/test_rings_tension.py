from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import OutsideValidity
from planner.physics.rings_tension import ring_follows, ring_wall_pressure
from tests.physics.directions import assert_directions

RING = {"neutral_radius": 0.0415, "modulus": 206e9, "height": 0.0012, "thickness": 0.003}


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


def test_trial_figures_have_not_drifted():
    # REGRESSION values of an earlier trial of the same equations, not an outside check.
    for order, micrometres in ((2, 172), (3, 24), (4, 6.9), (6, 1.26)):
        found = ring_follows(tangential_force=12.0, **RING, order=float(order)) * 1e6
        assert found == pytest.approx(micrometres, rel=0.03)


def test_more_tension_presses_harder_and_a_taller_ring_less():
    assert_directions(
        "ring_wall_pressure",
        tangential_force=(2.0, 40.0),
        bore=(0.06, 0.13),
        height=(8e-4, 4e-3),
    )
