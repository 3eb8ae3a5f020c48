import math

import pytest

from planner.errors import OutsideValidity
from planner.physics.rods import reciprocating_force, rod_joint_load, rod_stretch
from tests.physics.directions import assert_directions

RPM = math.pi / 30
CRANK = {"stroke": 0.086, "rod_length": 0.143}


def test_the_inertia_force_agrees_with_numerically_differentiated_motion():
    crank, rod, speed = 0.043, 0.143, 7500 * RPM

    def height(time):
        angle = speed * time
        return crank * math.cos(angle) + math.sqrt(rod**2 - (crank * math.sin(angle)) ** 2)

    step = 1e-6
    downward = -(height(step) - 2 * height(0.0) + height(-step)) / step**2
    force = reciprocating_force(reciprocating_mass=0.625, **CRANK, speed=speed)
    assert force == pytest.approx(0.625 * downward, rel=1e-4)


def test_the_joint_carries_everything_but_the_cap():
    # Free body of the cap: the journal's pull less both bolts turns the cap alone.
    speed = 8250 * RPM
    pull = reciprocating_force(reciprocating_mass=0.625, **CRANK, speed=speed)
    pull += 0.38 * 0.043 * speed**2
    bolt = rod_joint_load(
        reciprocating_mass=0.625,
        rotating_mass=0.38,
        cap_mass=0.15,
        **CRANK,
        speed=speed,
        bolts=2.0,
    )
    assert pull - 2 * bolt == pytest.approx(0.15 * 0.043 * speed**2)


def test_the_work_of_stretching_is_what_the_strained_steel_holds():
    # Independent: strain energy summed over slices of the rod is half the force times stretch.
    force, length, area, modulus = 25e3, 0.143, 157e-6, 206e9
    stretch = rod_stretch(
        force=force, rod_length=length, section_area=area, elastic_modulus=modulus
    )
    slices = 1000
    held = sum((force / area) ** 2 / (2 * modulus) * area * length / slices for _ in range(slices))
    assert force * stretch / 2 == pytest.approx(held, rel=1e-9)


def test_regression_trial_figures():
    # Regression: figures of an early trial of ours, not an outside check.
    at_ceiling = reciprocating_force(reciprocating_mass=0.625, **CRANK, speed=7500 * RPM)
    assert at_ceiling / 1e3 == pytest.approx(21.56, abs=0.005)
    over = reciprocating_force(reciprocating_mass=0.625, **CRANK, speed=8250 * RPM)
    stretch = rod_stretch(force=over, rod_length=0.143, section_area=157e-6, elastic_modulus=205e9)
    assert stretch * 1e3 == pytest.approx(0.116, abs=0.0005)


def test_a_cap_heavier_than_the_rotating_mass_is_refused():
    with pytest.raises(OutsideValidity, match="cap mass is 400 g, outside 0 to the rotating mass"):
        rod_joint_load(
            reciprocating_mass=0.6,
            rotating_mass=0.38,
            cap_mass=0.4,
            **CRANK,
            speed=800.0,
            bolts=2.0,
        )


def test_a_rod_given_in_the_wrong_unit_is_refused():
    with pytest.raises(OutsideValidity, match="rod length is 5630 mm"):
        reciprocating_force(reciprocating_mass=0.6, stroke=0.086, rod_length=5.63, speed=800.0)


def test_the_declared_directions_hold():
    crank = {
        "reciprocating_mass": (0.3, 1.0),
        "stroke": (0.07, 0.1),
        "rod_length": (0.115, 0.2),
        "speed": (100.0, 1000.0),
    }
    assert_directions("reciprocating_force", **crank)
    assert_directions(
        "rod_joint_load", **crank, rotating_mass=(0.3, 0.8), cap_mass=(0.1, 0.29), bolts=(1.0, 4.0)
    )
    assert_directions(
        "rod_stretch",
        force=(1e3, 1e5),
        rod_length=(0.1, 0.2),
        section_area=(1e-4, 4e-4),
        elastic_modulus=(1e11, 2.2e11),
    )
