from importlib.util import find_spec
from math import radians

import numpy as np
import pytest

from planner.physics.cycle import compiled
from planner.physics.cycle.compiled import LARGE, can_compile, compiled_runs
from planner.physics.cycle.lines import line_up
from planner.physics.cycle.march import march, run_with_numpy, runner
from planner.physics.cycle.setting import setting
from tests.physics.cycle.cases import BAR, full_boost, off_boost

needs_numba = pytest.mark.skipif(not can_compile(), reason="numba is not installed")


def some():
    points = [off_boost(), *(full_boost(fuel, 0.9 * BAR) for fuel in ("premium", "e85"))]
    return line_up(setting(points), np.array([10.0, 8.5, 10.0])), np.radians([8.0, 19.0, 27.0])


def test_it_says_whether_numba_is_there():
    assert can_compile() == (find_spec("numba") is not None)


def test_the_runner_is_put_back():
    with compiled_runs():
        assert runner[0] is compiled.run_compiled
    assert runner[0] is run_with_numpy
    with pytest.raises(ValueError, match="inside"), compiled_runs():
        raise ValueError("inside")
    assert runner[0] is run_with_numpy


def test_a_large_batch_stays_with_numpy(monkeypatch):
    monkeypatch.setattr(compiled, "_program", lambda: pytest.fail("compiled in vain"))
    many = np.zeros(LARGE + 1, dtype=np.int64)
    lined = line_up(setting([full_boost()]).part(many), np.full(many.size, 8.5))
    with compiled_runs():
        assert march(lined, np.full(many.size, radians(19)), whole=False).knock.size == many.size


# The march of one case is plain Python that numba compiles: run as it is, it has to give what
# the batch gives, so a broken twin is caught where numba is not installed.
def test_the_march_of_one_case_is_that_of_the_batch(monkeypatch):
    monkeypatch.setattr(compiled, "_program", lambda: uncompiled)
    lined, phasing = some()
    plain = march(lined, phasing)
    with compiled_runs():
        found = march(lined, phasing)
    for name, each in vars(plain).items():
        if name != "closure":
            assert getattr(found, name) == pytest.approx(each, rel=1e-13), name


def uncompiled(marks, held, stations, steps, table, out):
    for case in range(out.shape[0]):
        burned = (table[0], table[1][case])
        compiled._one(marks, held[case], stations[case], steps[case], burned, out[case])


@needs_numba
@pytest.mark.slow
def test_numba_gives_what_numpy_gives():
    lined, phasing = some()
    plain = march(lined, phasing)
    with compiled_runs():
        found = march(lined, phasing)
    for name, each in vars(plain).items():
        if name != "closure":
            assert getattr(found, name) == pytest.approx(each, rel=1e-12), name
