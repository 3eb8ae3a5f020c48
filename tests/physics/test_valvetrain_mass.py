import pytest
from scipy.integrate import quad

from planner.errors import OutsideValidity
from planner.physics.valvetrain_mass import valve_train_mass
from tests.physics.directions import assert_directions


def test_a_third_of_the_spring_moves_as_its_motion_energy_says():
    # speed grows evenly from the fixed end to the valve: energy is the integral of (x/L)**2
    third, _ = quad(lambda place: place**2, 0, 1)
    with_spring = valve_train_mass(
        valve_mass=0.05, retainer_mass=0.0, follower_mass=0.0, follower_ratio=1.0, spring_mass=0.06
    )
    assert with_spring - 0.05 == pytest.approx(0.06 * third)


def test_a_follower_at_half_the_valves_speed_counts_a_quarter():
    parts = {"valve_mass": 0.05, "retainer_mass": 0.01, "spring_mass": 0.0}
    half = valve_train_mass(**parts, follower_mass=0.08, follower_ratio=0.5)
    assert half == pytest.approx(0.06 + 0.02)


def test_a_follower_faster_than_any_rocker_makes_it_is_refused():
    with pytest.raises(OutsideValidity, match="follower ratio is 15, outside 0 to 2"):
        valve_train_mass(
            valve_mass=0.05,
            retainer_mass=0.01,
            follower_mass=0.04,
            follower_ratio=15.0,
            spring_mass=0.04,
        )


def test_the_declared_directions_hold():
    assert_directions(
        "valve_train_mass",
        valve_mass=(0.02, 0.12),
        retainer_mass=(0.005, 0.03),
        follower_mass=(0.0, 0.1),
        follower_ratio=(0.2, 1.5),
        spring_mass=(0.02, 0.1),
    )
