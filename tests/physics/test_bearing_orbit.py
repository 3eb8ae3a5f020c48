"""The mobility method against closed forms that need no orbit."""

import cmath
import math

import pytest
from scipy.optimize import brentq

from planner.errors import OutsideValidity
from planner.physics.bearing_orbit import Bearing, mobility, orbit

SLIM = 0.4
COUNT = 720


def ocvirk_number(eccentricity):
    """Sommerfeld number times (l/D)**2 of the short bearing under a steady load."""
    square = 1 - eccentricity**2
    root = math.sqrt(math.pi**2 * square + 16 * eccentricity**2)
    return square**2 / (math.pi * eccentricity * root)


def bearing_for(eccentricity):
    """A bearing that a load of 1 pushes to that eccentricity, by Ocvirk, at crank speed 1."""
    number = ocvirk_number(eccentricity) / SLIM**2
    # S = (R/c)**2 mu l D w / (2 pi W), and ease is (c/R)**2 / (mu l D w)
    return Bearing(ease=1 / (2 * math.pi * number), slimness=SLIM)


@pytest.mark.published("Dubois and Ocvirk 1953, short-bearing load, from memory, not opened")
@pytest.mark.parametrize("eccentricity", [0.3, 0.5, 0.7, 0.9])
@pytest.mark.parametrize("sense", [-1.0, 1.0])
def test_a_steady_load_settles_where_the_closed_form_says(eccentricity, sense):
    path = orbit([1 + 0j] * COUNT, [sense] * COUNT, bearing_for(eccentricity))
    assert abs(path[-1]) == pytest.approx(eccentricity, abs=0.004)
    # the journal stands off to the side it is turned towards
    assert math.copysign(1, path[-1].imag) == sense


@pytest.mark.parametrize("eccentricity", [0.4, 0.8])
def test_a_load_that_turns_with_the_journal_is_borne_like_a_steady_one(eccentricity):
    turning = [cmath.exp(-1j * 4 * math.pi * place / COUNT) for place in range(COUNT)]
    path = orbit(turning, [-1.0] * COUNT, bearing_for(eccentricity))
    assert max(map(abs, path)) == pytest.approx(eccentricity, abs=0.006)
    assert min(map(abs, path)) == pytest.approx(eccentricity, abs=0.006)


def test_a_load_that_turns_against_the_journal_is_borne_three_times_as_well():
    # The film answers to the load's turning against the mean of both surfaces: half a turn
    # and one more against half a turn.
    against = [cmath.exp(1j * 4 * math.pi * place / COUNT) for place in range(COUNT)]
    path = orbit(against, [-1.0] * COUNT, bearing_for(0.8))
    wanted = brentq(lambda each: ocvirk_number(each) - 3 * ocvirk_number(0.8), 0.05, 0.8)
    assert max(map(abs, path)) == pytest.approx(wanted, abs=0.006)


def test_pure_squeezing_follows_the_map_integrated_by_hand():
    # No turning: d(1-x)/da = -k (1-x)**2.5, so (1-x)**-1.5 grows evenly by 1.5 k a.
    ease = 0.05
    loads = [1 + 0j] * COUNT
    rate = ease / (math.pi * SLIM**2)
    with pytest.raises(OutsideValidity, match="not yet a closed one after 8 cycles"):
        orbit(loads, [0.0] * COUNT, Bearing(ease, SLIM))
    # the same load turned round half-way through gives a closed path of known depth
    swinging = [1 + 0j] * (COUNT // 2) + [-1 + 0j] * (COUNT // 2)
    path = orbit(swinging, [0.0] * COUNT, Bearing(ease, SLIM))
    most = max(place.real for place in path)
    least = min(place.real for place in path)
    crossed = 2 * math.pi * (1 - 1 / COUNT)

    def depth(left):
        return (1 - left) ** -1.5 - (1 + left) ** -1.5 - 1.5 * rate * crossed

    assert most == pytest.approx(-least, abs=0.01)
    assert most == pytest.approx(brentq(depth, 0.0, 0.999), abs=0.01)


def test_the_map_along_the_load_is_the_closed_form():
    pushed = mobility(0.6 + 0j, 1 + 0j, SLIM)
    assert pushed == pytest.approx(0.4**2.5 / (math.pi * SLIM**2))


@pytest.mark.parametrize("angle", [0.3, 2.0, 4.5])
def test_the_map_turns_with_the_load(angle):
    turn = cmath.exp(1j * angle)
    assert mobility(turn * (0.5 + 0.3j), turn, SLIM) == pytest.approx(
        turn * mobility(0.5 + 0.3j, 1 + 0j, SLIM)
    )
