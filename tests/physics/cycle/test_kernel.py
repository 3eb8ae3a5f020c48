from itertools import pairwise
from math import pi, radians

import numpy as np
import pytest

from planner.physics.cycle import kernel
from planner.physics.cycle.burned import burned_table
from planner.physics.cycle.gas import fresh
from tests.physics.cycle.cases import full_boost
from tests.physics.cycle.frozen_cantera import SQUEEZES, VESSELS
from tests.physics.cycle.pure_fuels import pure

SWEPT = pi / 4 * 0.086**3
ROD_RATIO = 2 * 0.143 / 0.086


def pack(gas):
    return (gas.constant, *gas.heat, gas.datum)


def insulated(size=()):
    return (0.0, 1.0, 0.0, 1e5, np.zeros(size), 450.0)


@pytest.mark.published("Heywood 1988 eq. 2.1 and 2.4-2.6 (from memory, not opened)")
def test_the_cylinder_has_its_volumes_at_the_dead_centres():
    clearance = SWEPT / 7.5
    assert kernel.chamber(0.0, 8.5, SWEPT, ROD_RATIO) == pytest.approx(clearance)
    assert kernel.chamber(pi, 8.5, SWEPT, ROD_RATIO) == pytest.approx(clearance + SWEPT)


def test_the_volume_is_the_area_times_the_travel_of_the_pin():
    angle = radians(70)
    crank, rod = 0.043, 0.143
    pin = crank * np.cos(angle) + np.sqrt(rod**2 - (crank * np.sin(angle)) ** 2)
    expected = SWEPT / 7.5 + pi / 4 * 0.086**2 * (crank + rod - pin)
    assert kernel.chamber(angle, 8.5, SWEPT, ROD_RATIO) == pytest.approx(expected)


def test_the_wall_is_two_ends_and_a_ring():
    height = 0.02
    volume = pi / 4 * 0.086**2 * height
    expected = 2 * pi / 4 * 0.086**2 + pi * 0.086 * height
    assert kernel.wall_area(volume, 0.086) == pytest.approx(expected)


def test_the_burn_starts_at_nothing_and_ends_at_almost_all():
    angles = np.array([-0.1, 0.0, 0.001, 0.5, 1.0, 5.0])
    share = kernel.burned_share(angles, 0.0, 1.0)
    assert list(share[:3]) == [0.0, 0.0, 0.0]
    assert share[3] == pytest.approx(1 - np.exp(-6.908 / 8))
    assert share[4] == pytest.approx(0.999, abs=1e-6)
    assert share[5] == 1 - 1e-9


@pytest.mark.published(
    "Douaud and Eyzat, SAE 780080 (from memory, not opened): 17.68 ms, 3.402, -1.7, 3800 K"
)
def test_the_delay_is_that_of_the_correlation():
    octane, atmospheres, temperature = 95.0, 40.0, 800.0
    delay = 17.68e-3 * 0.95**3.402 * 40.0**-1.7 * np.exp(3800.0 / 800.0)
    scale = (100 / octane) ** kernel.DELAY_OCTANE / kernel.DELAY
    rate = kernel.knock_rate(scale, atmospheres * 101325.0, temperature)
    assert 1 / rate == pytest.approx(delay)


@pytest.mark.published("Heywood 1988 eq. 12.71 (from memory, not opened)")
def test_the_wall_conductance_is_that_of_the_correlation():
    expected = 3.26 * 0.086**-0.2 * 5000.0**0.8 * 1800.0**-0.55 * 12.0**0.8
    factor = 3.26 * 0.086**-0.2
    assert kernel.wall_conductance(factor, 5e6, 1800.0, 12.0) == pytest.approx(expected)


# Frozen from Cantera 3.2.0 by freeze_cantera.py.
@pytest.mark.parametrize(("fuel", "mixture", "by", "hot", "dense"), SQUEEZES)
def test_squeezing_without_heat_is_that_of_cantera(fuel, mixture, by, hot, dense):
    gas = pack(fresh(pure(fuel), mixture))
    volumes = gas[0] * 350.0 / 2e5 * np.geomspace(1.0, 1.0 / by, 120)
    p = before = 2e5
    t = 350.0
    for v, v1 in pairwise(volumes):
        (p1, t, _), before = kernel.compress(gas, (p, before, t), (v, v1), insulated()), p
        p = p1
    assert t == pytest.approx(hot, abs=0.3)  # what one quartic for the heat costs
    assert p == pytest.approx(dense, rel=6e-4)


# Frozen from Cantera 3.2.0 by freeze_cantera.py.
@pytest.mark.parametrize(("fuel", "mixture", "cold", "pressure", "hot", "dense"), VESSELS)
def test_burning_in_a_shut_vessel_is_that_of_cantera(fuel, mixture, cold, pressure, hot, dense):
    gas = pack(fresh(pure(fuel), mixture))
    table = tuple(burned_table(pure(fuel), mixture).cells)
    v = gas[0] * cold / pressure
    state = (pressure, pressure, cold, kernel.FIRST_BURNED, 0.0, 0.0)
    shares = kernel.burned_share(np.linspace(0.0, 1.6, 400), 0.0, 1.0)
    for x, x1 in pairwise(shares):
        state, _ = kernel.burn(gas, table, 0, state, (v, v, x, x1), insulated())
    assert state[3] == pytest.approx(hot, abs=1.0)
    assert state[0] == pytest.approx(dense, rel=5e-4)


def test_a_burn_step_with_nothing_burned_is_a_compression_step():
    point = full_boost()
    gas = pack(fresh(point.fuel, 1.18))
    table = tuple(burned_table(point.fuel, 1.18).cells)
    wall = (5.0, 20.0, 0.0, 3e6, 1e-4, 450.0)
    cold = kernel.compress(gas, (3e6, 2.9e6, 650.0), (0.06, 0.059), wall)
    state = (3e6, 2.9e6, 650.0, kernel.FIRST_BURNED, 0.0, 0.0)
    hot, heat = kernel.burn(gas, table, 0, state, (0.06, 0.059, 0.0, 0.0), wall)
    assert (hot[0], hot[2], heat) == cold


def test_only_the_part_of_a_step_before_the_end_counts():
    assert kernel.part_before(1.0, 0.0, 2.0) == 0.5
    assert kernel.part_before(-1.0, 0.0, 2.0) == 0.0
    assert kernel.part_before(9.0, 0.0, 2.0) == 1.0
    # half a step under a rate that climbs from 0 to 4: the area of a triangle, 0.5 x 0.5 x 2
    assert kernel.knock_gain(0.0, 4.0, 0.5) == pytest.approx(0.5)
