"""The march against a second, slow form of the same physics."""

from math import pi, radians

import numpy as np
import pytest

from planner.physics.cycle.burned import burned_table
from planner.physics.cycle.lines import line_up
from planner.physics.cycle.march import march
from planner.physics.cycle.setting import setting
from tests.physics.cycle.cases import BAR, RPM, full_boost, off_boost
from tests.physics.cycle.frozen_cantera import CYCLES
from tests.physics.cycle.ode import Cylinder, mixed_gas, splined

CASES = {
    "premium": (full_boost(margins=False), 8.5, 19.0),
    "premium, much boost": (full_boost(boost=1.5 * BAR, margins=False), 7.4, 25.0),
    "E85": (full_boost("e85", margins=False), 10.0, 19.0),
    "methanol": (full_boost("methanol", boost=1.5 * BAR, margins=False), 8.6, 22.0),
    "no boost": (off_boost(margins=False), 10.6, 8.0),
    "fast": (full_boost(speed=6500 * RPM, margins=False), 8.5, 8.0),
}


def both(point, ratio, degrees):
    lined = line_up(setting([point]), np.array([ratio]), radians(0.25))
    phasing = radians(degrees)
    ours = march(lined, np.array([phasing]))
    state = splined(burned_table(point.fuel, point.mixture))
    cylinder = Cylinder(point, lined.charge, mixed_gas(lined.charge), state, ratio, phasing)
    theirs = cylinder.solve(point.inlet_closing - pi, pi - point.exhaust_opening)
    return ours, theirs


def agree(ours, theirs):
    assert ours.knock[0] == pytest.approx(theirs.knock, rel=2e-3)
    assert ours.peak_pressure[0] == pytest.approx(theirs.peak_pressure, rel=1e-3)
    assert ours.work[0] == pytest.approx(theirs.work, rel=1e-3)
    assert ours.heat[0] == pytest.approx(theirs.heat, rel=5e-3)
    assert ours.last_temperature[0] == pytest.approx(theirs.last_temperature, abs=1.0)


@pytest.mark.parametrize("name", sorted(CASES))
def test_the_march_agrees_with_differential_equations(name):
    agree(*both(*CASES[name]))


# Frozen from Cantera 3.2.0 by freeze_cantera.py: the balance anew at every call.
@pytest.mark.parametrize("row", CYCLES, ids=lambda row: row[0])
def test_the_march_agrees_with_the_balance_of_cantera(row):
    fuel, ratio, degrees, knock, peak, work, hot = row
    lined = line_up(setting([full_boost(fuel, margins=False)]), np.array([ratio]), radians(0.5))
    found = march(lined, np.array([radians(degrees)]))
    assert found.knock[0] == pytest.approx(knock, rel=2e-3)
    assert found.peak_pressure[0] == pytest.approx(peak, rel=1e-3)
    assert found.work[0] == pytest.approx(work, rel=1e-3)
    assert found.last_temperature[0] == pytest.approx(hot, abs=1.0)
