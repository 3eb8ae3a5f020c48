from math import pi, radians

import numpy as np
import pytest

from planner.physics.cycle.model import cycles
from planner.physics.cycle.trace import pressure_trace, scale_to_peak
from tests.physics.cycle.cases import SEA_LEVEL, full_boost

POINT = full_boost(margins=False)
TRACE = pressure_trace(POINT, 8.5, radians(18))


def test_the_trace_runs_over_two_turns_without_a_gap():
    assert TRACE.angle[0] == pytest.approx(-pi)
    assert TRACE.angle[-1] == pytest.approx(3 * pi, abs=radians(2))
    assert np.diff(TRACE.angle) == pytest.approx(radians(2), rel=1e-6)
    assert np.isfinite(TRACE.pressure).all()


def test_the_trace_is_the_cycle_of_the_model():
    (cycle,) = cycles((POINT,), 8.5, (radians(18),))
    top = int(np.argmax(TRACE.pressure))
    assert TRACE.pressure[top] == cycle.peak_pressure
    assert TRACE.angle[top] == pytest.approx(cycle.peak_angle)
    work = float(np.sum(0.5 * (TRACE.pressure[1:] + TRACE.pressure[:-1]) * np.diff(TRACE.volume)))
    swept = pi / 4 * 0.086**3
    # the fall after exhaust opening is drawn straight here and by its mean there
    assert work / swept == pytest.approx(cycle.net_pressure, rel=0.01)


def test_gas_exchange_runs_at_exhaust_and_manifold_pressure():
    pushing = np.argmin(np.abs(TRACE.angle - 1.5 * pi))
    filling = np.argmin(np.abs(TRACE.angle - 2.5 * pi))
    assert TRACE.pressure[pushing] == pytest.approx(1.07 * SEA_LEVEL + 1.1 * 0.9e5)
    assert TRACE.pressure[filling] == pytest.approx(SEA_LEVEL + 0.9e5)
    assert TRACE.pressure[0] == TRACE.pressure[filling]


def test_burned_gas_is_there_only_once_something_burned():
    hot = np.isfinite(TRACE.burned)
    assert (TRACE.burned_share[hot] > 0).all()
    assert (np.diff(TRACE.burned_share) >= 0).all()
    assert np.nanmax(TRACE.burned) < 3000.0


def test_a_trace_can_be_lifted_to_a_design_pressure():
    scale = scale_to_peak(TRACE, 90e5)
    lifted = pressure_trace(POINT, 8.5, radians(18), scale=scale)
    assert lifted.pressure.max() == pytest.approx(90e5, rel=2e-3)
    cold = TRACE.burned_share == 0
    assert lifted.pressure[cold] == pytest.approx(TRACE.pressure[cold])
    assert scale_to_peak(TRACE, float(TRACE.pressure.max())) == pytest.approx(1.0)
