import math

import pytest
from scipy.integrate import quad

from planner.errors import OutsideValidity
from planner.physics.bolts import (
    bolt_preload,
    bolt_stretch,
    bolt_torque,
    bolt_torque_from_friction,
)
from planner.physics.bolts_thread import thread_pitch_diameter
from tests.physics.directions import assert_directions

BOLT = {
    "shank_length": 0.028,
    "shank_diameter": 0.0076,
    "thread_length": 0.006,
    "stress_area": 51e-6,
    "elastic_modulus": 205e9,
}


def test_stretch_agrees_with_strain_integrated_along_the_bolt():
    def strain(x):
        area = math.pi / 4 * 0.0076**2 if x < 0.028 else 51e-6
        return 42e3 / (area * 205e9)

    whole, _ = quad(strain, 0, 0.034, points=[0.028])
    assert bolt_stretch(preload=42e3, **BOLT) == pytest.approx(whole)


def test_the_friction_torque_balances_a_wedge_unrolled_from_the_thread():
    # Exact screw: the flank of 30 degrees raises the friction, the helix lifts the load.
    pitch, flank = 0.001, thread_pitch_diameter(nominal=0.009, pitch=0.001)
    helix = math.atan(pitch / (math.pi * flank))
    rubbing = math.atan(0.10 / math.cos(math.pi / 6))
    exact = 42e3 * (flank / 2 * math.tan(helix + rubbing) + 0.10 * 0.012 / 2)
    found = bolt_torque_from_friction(
        preload=42e3,
        pitch=pitch,
        pitch_diameter=flank,
        thread_friction=0.10,
        head_diameter=0.012,
        head_friction=0.10,
    )
    assert found == pytest.approx(exact, rel=0.005)


@pytest.mark.published("VDI 2230, torque 0.159 P + 0.577 d2 mu + 0.5 D mu, from memory")
def test_the_friction_torque_has_the_three_coefficients_of_the_guideline():
    bolt = {"preload": 1.0, "pitch": 1e-3, "pitch_diameter": 0.01, "head_diameter": 0.01}
    low = bolt_torque_from_friction(**bolt, thread_friction=0.1, head_friction=0.1)
    more_thread = bolt_torque_from_friction(**bolt, thread_friction=0.2, head_friction=0.1)
    more_head = bolt_torque_from_friction(**bolt, thread_friction=0.1, head_friction=0.2)
    thread, head = (more_thread - low) / 1e-3, (more_head - low) / 1e-3
    assert thread == pytest.approx(0.577, abs=0.0005)
    assert head == pytest.approx(0.5)
    assert (low - 1e-3 * (thread + head)) / 1e-3 == pytest.approx(0.159, abs=0.0005)


@pytest.mark.published("Shigley, bolt torque, from memory: K is near 0.20 for friction of 0.15")
@pytest.mark.parametrize(("nominal", "pitch"), [(8, 1.25), (10, 1.5), (12, 1.75), (14, 2.0)])
def test_the_usual_nut_factor_stands_for_friction_of_fifteen_hundredths(nominal, pitch):
    size = {"preload": 4e4, "pitch": pitch * 1e-3}
    thread = {"pitch_diameter": (nominal - 0.6495 * pitch) * 1e-3, "thread_friction": 0.15}
    head = {"head_diameter": 1.25 * nominal * 1e-3, "head_friction": 0.15}
    friction = bolt_torque_from_friction(**size, **thread, **head)
    torque = bolt_torque(preload=4e4, nominal=nominal * 1e-3, nut_factor=0.20)
    assert torque == pytest.approx(friction, rel=0.05)


def test_regression_trial_figures():
    # Regression: figures of an early trial of ours, not an outside check.
    preload = bolt_preload(stress_area=51e-6, yield_strength=1100e6, yield_share=0.75)
    assert preload / 1e3 == pytest.approx(42.1, abs=0.05)
    assert bolt_stretch(preload=preload, **BOLT) * 1e3 == pytest.approx(0.151, abs=0.0005)
    torque = bolt_torque(preload=preload, nominal=0.009, nut_factor=0.15)
    assert torque == pytest.approx(56.9, abs=0.1)


def test_tightening_beyond_yield_is_left_to_the_maker():
    with pytest.raises(OutsideValidity, match=r"share of yield is 1\.05") as refusal:
        bolt_preload(stress_area=51e-6, yield_strength=1100e6, yield_share=1.05)
    assert "maker's torque and angle" in refusal.value.remedy


def test_a_nut_factor_that_is_no_nut_factor_is_refused():
    with pytest.raises(OutsideValidity, match=r"nut factor is 15, outside 0\.05 to 0\.4"):
        bolt_torque(preload=4e4, nominal=0.009, nut_factor=15.0)


def test_the_declared_directions_hold():
    assert_directions(
        "bolt_preload",
        stress_area=(2e-5, 1e-4),
        yield_strength=(600e6, 1800e6),
        yield_share=(0.3, 0.95),
    )
    assert_directions(
        "bolt_stretch",
        preload=(1e4, 1e5),
        shank_length=(0.0, 0.1),
        shank_diameter=(0.005, 0.012),
        thread_length=(0.0, 0.05),
        stress_area=(2e-5, 1e-4),
        elastic_modulus=(1e11, 2.2e11),
    )
    assert_directions(
        "bolt_torque", preload=(1e4, 1e5), nominal=(0.006, 0.014), nut_factor=(0.05, 0.4)
    )
    assert_directions(
        "bolt_torque_from_friction",
        preload=(1e4, 1e5),
        pitch=(0.5e-3, 2e-3),
        pitch_diameter=(0.006, 0.014),
        thread_friction=(0.04, 0.3),
        head_diameter=(0.008, 0.02),
        head_friction=(0.04, 0.3),
    )
