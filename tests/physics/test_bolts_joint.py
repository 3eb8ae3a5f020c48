import pytest

from planner.errors import OutsideValidity
from planner.physics.bolts_joint import bolt_working_load, bolt_yield_share, joint_separation
from tests.physics.directions import assert_directions

JOINT = {"preload": 42075.0, "load_per_bolt": 16736.0, "load_share": 0.2}


def test_bolt_and_clamped_parts_share_the_load_as_two_springs_do():
    # Bolt of stiffness 1, parts of stiffness 4: one stretch, two forces, from scratch.
    bolt_stiffness, parts_stiffness, preload, load = 1.0, 4.0, 42075.0, 16736.0
    move = load / (bolt_stiffness + parts_stiffness)
    bolt = preload + bolt_stiffness * move
    parts = preload - parts_stiffness * move
    assert bolt - parts == pytest.approx(load)
    assert bolt_working_load(**JOINT) == pytest.approx(bolt)


def test_the_faces_part_exactly_at_the_separation_margin():
    margin = joint_separation(**JOINT, prying_factor=1.0)
    left = 42075.0 - (1 - 0.2) * 16736.0 * margin
    assert left == pytest.approx(0.0, abs=1e-6)


def test_prying_divides_the_margin():
    plain = joint_separation(**JOINT, prying_factor=1.0)
    assert joint_separation(**JOINT, prying_factor=1.3) == pytest.approx(plain / 1.3)


def test_regression_trial_figures():
    # Regression: figures of an early trial of ours, not an outside check.
    assert joint_separation(**JOINT, prying_factor=1.0) == pytest.approx(3.15, abs=0.01)


def test_a_joint_that_already_parts_is_refused_by_name():
    with pytest.raises(OutsideValidity, match="preload is 10 kN") as refusal:
        bolt_working_load(**{**JOINT, "preload": 10e3})
    assert "stronger or larger bolt" in refusal.value.remedy


def test_a_load_that_does_not_pull_is_refused():
    with pytest.raises(OutsideValidity, match="pull on each bolt is -3 kN"):
        joint_separation(**{**JOINT, "load_per_bolt": -3e3}, prying_factor=1.0)


def test_the_declared_directions_hold():
    joint = {"preload": (3e4, 8e4), "load_per_bolt": (1e3, 3e4), "load_share": (0.05, 0.5)}
    assert_directions("bolt_working_load", **joint)
    assert_directions(
        "bolt_yield_share", **joint, stress_area=(2e-5, 1e-4), yield_strength=(6e8, 1.8e9)
    )
    assert_directions("joint_separation", **joint, prying_factor=(1.0, 2.0))


def test_the_yield_share_is_tension_over_what_makes_it_yield():
    share = bolt_yield_share(**JOINT, stress_area=51e-6, yield_strength=1100e6)
    assert share * 51e-6 * 1100e6 == pytest.approx(bolt_working_load(**JOINT))
