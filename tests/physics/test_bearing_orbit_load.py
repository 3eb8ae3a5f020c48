import cmath
import math
from itertools import pairwise

import pytest

from planner.physics.bearing_orbit_load import (
    Drive,
    Trace,
    big_end_loads,
    big_end_turning,
    pressure_trace,
    sample_angles,
)

DRIVE = Drive(0.086, 0.086, 0.143, 0.625, 0.38)
DEGREE = math.pi / 180
TRACE = Trace(
    ratio=8.559,
    peak=121e5,
    boost=2.4e5,
    back=2.5e5,
    closing=-130 * DEGREE,
    burning=-10 * DEGREE,
    peak_angle=14 * DEGREE,
    opening=140 * DEGREE,
    settled=200 * DEGREE,
    compression=1.32,
    expansion=1.28,
)
SPEED = 7500 * math.pi / 30
COUNT = 720


def places(time):
    """Crank pin and piston pin in the plane, the crank turning clockwise from the top."""
    angle = SPEED * time
    pin = 0.043 * complex(math.sin(angle), math.cos(angle))
    height = pin.imag + math.sqrt(0.143**2 - pin.real**2)
    return pin, 1j * height


def acceleration(of, time):
    step = 2e-6
    return (of(time + step) - 2 * of(time) + of(time - step)) / step**2


@pytest.mark.parametrize("place", [0, 50, 131, 200, 333, 480, 700])
def test_loads_agree_with_newton_on_numerically_differentiated_motion(place):
    gauge = [3e6 if index < 90 else 1.5e5 for index in range(COUNT)]
    time = sample_angles(COUNT)[place] / SPEED
    pin, piston = places(time)
    along = (piston - pin) / abs(piston - pin)
    # piston: gas down, rod along itself, wall sideways; only the upright part counts
    moving = acceleration(lambda t: places(t)[1], time).imag
    rod = (0.625 * moving + gauge[place] * math.pi / 4 * 0.086**2) / along.imag
    # big end: the pin must give it its acceleration, so it bears the opposite on the pin
    own = -0.38 * acceleration(lambda t: places(t)[0], time)
    seen = (-rod * along + own) / along
    found = big_end_loads(gauge, DRIVE, SPEED)[place]
    assert abs(found - seen) < 1e-3 * abs(seen)


def test_turning_agrees_with_the_angle_between_crank_and_rod():
    found = big_end_turning(DRIVE, COUNT)
    for place in (0, 100, 250, 360, 500):
        time = sample_angles(COUNT)[place] / SPEED

        def between(moment):
            pin, piston = places(moment)
            return cmath.phase(pin / (piston - pin))

        change = (between(time + 1e-6) - between(time - 1e-6)) / 2e-6
        assert found[place] == pytest.approx(change / SPEED, rel=1e-4)


def test_the_load_of_the_big_ends_own_mass_turns_with_the_journal():
    spinning = Drive(0.086, 0.086, 0.143, 0.0, 0.38)
    loads = big_end_loads([0.0] * COUNT, spinning, SPEED)
    turning = big_end_turning(spinning, COUNT)
    step = sample_angles(COUNT)[1]
    for place in range(0, COUNT - 1, 40):
        turned = cmath.phase(loads[place + 1] / loads[place])
        middle = (turning[place] + turning[place + 1]) / 2
        assert turned == pytest.approx(middle * step, rel=1e-4)


def test_the_trace_peaks_once_at_its_peak_and_returns_to_where_it_began():
    trace = pressure_trace(TRACE, DRIVE)
    angles = sample_angles()
    highest = max(range(len(trace)), key=trace.__getitem__)
    assert trace[highest] == pytest.approx(121e5)
    assert angles[highest] == pytest.approx(14 * DEGREE)
    rising = (trace[0] - trace[-1], trace[1] - trace[0])
    assert rising[0] == pytest.approx(rising[1], rel=0.1)


def test_the_lines_of_the_trace_follow_their_exponents():
    trace = pressure_trace(TRACE, DRIVE)

    def volume(degrees):
        tilt = math.asin(0.043 / 0.143 * math.sin(degrees * DEGREE))
        drop = 0.043 * (1 - math.cos(degrees * DEGREE)) + 0.143 * (1 - math.cos(tilt))
        return drop + 0.086 / 7.559

    compressed = trace[2 * (720 - 40)] / trace[2 * (720 - 100)]
    assert compressed == pytest.approx((volume(100) / volume(40)) ** 1.32)
    expanded = trace[2 * 120] / trace[2 * 60]
    assert expanded == pytest.approx((volume(60) / volume(120)) ** 1.28)
    assert trace[2 * 300] == 2.5e5
    assert trace[2 * 450] == 2.4e5


def test_a_trace_has_no_jump_but_where_the_inlet_opens():
    trace = pressure_trace(TRACE, DRIVE)
    jumps = [abs(after - before) for before, after in pairwise(trace)]
    assert max(jumps) < 0.05 * 121e5
    assert trace[2 * 361] == 2.4e5
