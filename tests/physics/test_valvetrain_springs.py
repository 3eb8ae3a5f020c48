import math

import pytest

from planner.errors import OutsideValidity
from planner.physics.valvetrain_springs import (
    coil_bind_clearance,
    spring_open_force,
    valve_seat_force,
)
from tests.physics.directions import assert_directions

INTAKE = {"base_force": 200.0, "margin": 1.2, "seat_diameter": 0.033, "stem_diameter": 0.006}


def test_boost_adds_pressure_times_the_ring_between_seat_and_stem():
    ring = math.pi * (0.0165**2 - 0.003**2)
    force = valve_seat_force(**INTAKE, port_pressure=1.4e5, cylinder_pressure=0.0)
    assert force == pytest.approx(200.0 + 1.2 * 1.4e5 * ring)


def test_a_cylinder_pressure_above_the_ports_needs_no_more_than_the_base_force():
    assert valve_seat_force(**INTAKE, port_pressure=0.0, cylinder_pressure=5e5) == 200.0


def test_regression_trial_figures():
    # Regression: figures of an early trial of ours, not an outside check.
    intake = valve_seat_force(**INTAKE, port_pressure=1.4e5, cylinder_pressure=0.0)
    exhaust = {**INTAKE, "seat_diameter": 0.029}
    back = valve_seat_force(**exhaust, port_pressure=2.8e5, cylinder_pressure=1.4e5)
    assert intake == pytest.approx(339, abs=0.5)
    assert back == pytest.approx(306, abs=0.5)


def test_a_spring_at_no_lift_has_its_seat_force():
    assert spring_open_force(seat_force=300.0, spring_rate=35e3, lift=0.0) == 300.0


def test_a_spring_lifted_to_its_solid_height_has_no_travel_left():
    assert coil_bind_clearance(installed_height=0.037, lift=0.0125, solid_height=0.0245) == (
        pytest.approx(0.0, abs=1e-12)
    )


def test_a_stem_as_wide_as_the_seat_is_refused():
    with pytest.raises(OutsideValidity, match="stem diameter is 33 mm, outside 0 to half"):
        valve_seat_force(
            **{**INTAKE, "stem_diameter": 0.033}, port_pressure=0, cylinder_pressure=0
        )


def test_a_lift_in_the_wrong_unit_is_refused():
    with pytest.raises(OutsideValidity, match="valve lift is 10500 mm"):
        spring_open_force(seat_force=300.0, spring_rate=35e3, lift=10.5)


def test_the_declared_directions_hold():
    assert_directions(
        "valve_seat_force",
        base_force=(100.0, 500.0),
        margin=(1.0, 2.0),
        port_pressure=(0.0, 4e5),
        cylinder_pressure=(0.0, 4e5),
        seat_diameter=(0.025, 0.045),
        stem_diameter=(0.005, 0.009),
    )
    assert_directions(
        "spring_open_force", seat_force=(100.0, 500.0), spring_rate=(1e4, 9e4), lift=(0.0, 0.015)
    )
    assert_directions(
        "coil_bind_clearance",
        installed_height=(0.03, 0.05),
        lift=(0.0, 0.015),
        solid_height=(0.015, 0.03),
    )
