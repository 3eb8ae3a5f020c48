import math

import pytest
from scipy.integrate import quad

from planner.errors import OutsideValidity
from planner.physics.crankshaft import (
    hardened_depth_left,
    journal_after_nitriding,
    journal_before_nitriding,
    journal_overlap,
    section_stress_ratio,
)
from tests.physics.directions import assert_directions


def test_overlap_is_the_depth_of_the_lens_two_circles_share():
    # Along the web the mains reach out from 0 and the pin reaches back from the throw.
    overlap = journal_overlap(main_journal=0.055, rod_journal=0.048, stroke=0.086)
    assert overlap == pytest.approx(0.0275 - (0.043 - 0.024))


def test_overlap_falls_by_the_mean_of_the_two_undersizes():
    before = journal_overlap(main_journal=0.055, rod_journal=0.048, stroke=0.086)
    after = journal_overlap(main_journal=0.0545, rod_journal=0.04775, stroke=0.086)
    assert before - after == pytest.approx((0.5e-3 + 0.25e-3) / 2)


def test_the_stress_ratio_agrees_with_section_moduli_by_quadrature():
    def modulus(diameter):
        radius = diameter / 2
        second, _ = quad(lambda y: 2 * math.sqrt(radius**2 - y**2) * y**2, -radius, radius)
        return second / radius

    ratio = section_stress_ratio(standard=0.048, ground=0.04775)
    assert ratio == pytest.approx(modulus(0.048) / modulus(0.04775), rel=1e-6)
    assert ratio == pytest.approx(1.016, abs=0.0005)


def test_a_quarter_under_leaves_almost_nothing_of_a_nitrided_layer():
    nitrided = hardened_depth_left(hardened_depth=0.15e-3, undersize=0.25e-3)
    induction = hardened_depth_left(hardened_depth=2e-3, undersize=0.25e-3)
    assert nitrided == pytest.approx(0.025e-3)
    assert induction == pytest.approx(1.875e-3)
    assert hardened_depth_left(hardened_depth=0.15e-3, undersize=0.5e-3) < 0


def test_growth_allowed_for_comes_back_in_the_furnace():
    ground = journal_before_nitriding(finished=0.049742, growth=0.010e-3)
    done = journal_after_nitriding(journal=ground, growth=0.015e-3, polish=0.005e-3)
    assert done == pytest.approx(0.049742)


def test_mains_in_limits_can_leave_the_furnace_too_big():
    assert journal_after_nitriding(journal=0.05999, growth=0.015e-3, polish=0.004e-3) > 0.060


def test_a_journal_ground_larger_than_standard_is_refused():
    with pytest.raises(OutsideValidity, match=r"ground journal is 48\.1 mm"):
        section_stress_ratio(standard=0.048, ground=0.0481)


def test_the_declared_directions_hold():
    journals = {"main_journal": (0.04, 0.07), "rod_journal": (0.04, 0.06)}
    assert_directions("journal_overlap", **journals, stroke=(0.07, 0.1))
    assert_directions("section_stress_ratio", standard=(0.048, 0.05), ground=(0.0455, 0.048))
    assert_directions("hardened_depth_left", hardened_depth=(0.0, 5e-3), undersize=(0.0, 1e-3))
    assert_directions("journal_before_nitriding", finished=(0.04, 0.07), growth=(0.0, 3e-5))
    assert_directions(
        "journal_after_nitriding", journal=(0.04, 0.07), growth=(0.0, 3e-5), polish=(0.0, 2e-5)
    )
