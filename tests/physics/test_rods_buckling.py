import math

import numpy as np
import pytest

from planner.errors import OutsideValidity
from planner.physics.rods_buckling import johnson_euler_stress, rankine_stress, rod_buckling
from tests.physics.directions import assert_directions

STEEL = {"yield_strength": 850e6, "elastic_modulus": 205e9}
SECTION = {
    "depth": 0.022,
    "flange_width": 0.016,
    "flange_thickness": 0.0035,
    "web_thickness": 0.003,
}
ROD = {"bore": 0.086, "pressure": 12e6, "rod_length": 0.143, **SECTION, **STEEL}


def euler_load_by_finite_differences(length, bending_stiffness, held_square):
    """Solve (E I w'')'' + P w'' = 0 for its lowest load on a fine grid."""
    points = 300
    step = length / (points + 1)
    second = np.diag(np.full(points, -2.0)) + np.diag(np.ones(points - 1), 1)
    second += np.diag(np.ones(points - 1), -1)
    second /= step**2
    fourth = second @ second
    if held_square:  # the mirror point outside equals the first inside
        fourth[0, 0] = fourth[-1, -1] = 7 / step**4
    loads = np.linalg.eigvals(np.linalg.solve(-second, bending_stiffness * fourth))
    return loads.real.min()


@pytest.mark.parametrize(
    ("held_square", "fixity", "factor"), [(False, 1.0, 1.0), (True, 4.0, 0.5)]
)
def test_a_slender_column_buckles_as_a_finite_difference_column_does(held_square, fixity, factor):
    area, gyration, length = 157e-6, 0.004, 0.7
    load = euler_load_by_finite_differences(length, 205e9 * area * gyration**2, held_square)
    column = {"elastic_modulus": 205e9, "length": length, "radius_of_gyration": gyration}
    stress = johnson_euler_stress(**column, yield_strength=850e6, end_fixity=fixity)
    assert stress * area == pytest.approx(load, rel=1e-3)
    strong = rankine_stress(**column, yield_strength=3000e6, length_factor=factor)
    assert strong * area < load


@pytest.mark.published("Shigley, columns: Johnson and Euler meet at half the yield strength")
def test_johnson_meets_euler_at_half_the_yield_strength():
    limit = math.sqrt(2 * math.pi**2 * 205e9 / 850e6)
    column = {**STEEL, "radius_of_gyration": 0.01, "end_fixity": 1.0}
    for slenderness in (limit * 0.999999, limit * 1.000001):
        stress = johnson_euler_stress(**column, length=0.01 * slenderness)
        assert stress == pytest.approx(425e6, rel=1e-5)


def test_rankine_lies_below_both_yield_and_johnson():
    column = {**STEEL, "length": 0.143, "radius_of_gyration": 0.0082}
    rankine = rankine_stress(**column, length_factor=1.0)
    assert rankine < johnson_euler_stress(**column, end_fixity=1.0) < 850e6


def gyration_by_strips(strips=2000):
    """Sum strips of the section: area, and radii of gyration in plane and across."""
    depth, width = SECTION["depth"], SECTION["flange_width"]
    step = depth / strips
    area = in_plane = across = 0.0
    for at in range(strips):
        height = (at + 0.5) * step - depth / 2
        in_flange = abs(height) > depth / 2 - SECTION["flange_thickness"]
        broad = width if in_flange else SECTION["web_thickness"]
        area += broad * step
        in_plane += broad * step * height**2
        across += step * broad**3 / 12
    return area, math.sqrt(in_plane / area), math.sqrt(across / area)


@pytest.mark.published("Rankine and Gordon, from memory: S = Sy / [1 + Sy / (pi^2 E) (K l / k)^2]")
def test_the_rods_safety_agrees_with_strips_of_its_section_and_rankine_by_hand():
    area, in_plane, across = gyration_by_strips()
    stress = 12e6 * math.pi / 4 * 0.086**2 / area
    bound = 850e6 / (math.pi**2 * 205e9)
    by_hand = [
        850e6 / (1 + bound * (share * 0.143 / radius) ** 2)
        for share, radius in ((1.0, in_plane), (0.5, across))
    ]
    rod = rod_buckling(**ROD)
    assert rod["rod_compression_stress"] == pytest.approx(stress, rel=1e-3)
    assert [rod["rankine_in_plane"], rod["rankine_across"]] == pytest.approx(by_hand, rel=1e-3)
    assert rod["rod_buckling_safety"] == pytest.approx(min(by_hand) / stress, rel=2e-3)


def test_regression_trial_figures():
    # Regression: figures of an early trial of ours, not an outside check.
    rod = rod_buckling(**ROD)
    planes = ("rankine_in_plane", "rankine_across", "johnson_in_plane", "johnson_across")
    found = [rod[plane] / 1e6 for plane in planes]
    assert found == pytest.approx([754, 746, 823, 820], abs=1.0)
    assert rod["rod_compression_stress"] / 1e6 == pytest.approx(444, abs=0.5)
    assert rod["rod_johnson_safety"] == pytest.approx(1.85, abs=0.006)


def test_a_column_slenderer_than_any_rod_is_refused():
    with pytest.raises(OutsideValidity, match="slenderness of the rod is 300"):
        rankine_stress(**STEEL, length=3.0, radius_of_gyration=0.01, length_factor=1.0)


def test_the_declared_directions_hold():
    column = {
        "yield_strength": (400e6, 1800e6),
        "elastic_modulus": (1e11, 2.2e11),
        "length": (0.1, 1.0),
        "radius_of_gyration": (0.005, 0.012),
    }
    assert_directions("rankine_stress", **column, length_factor=(0.5, 1.0))
    assert_directions("johnson_euler_stress", **column, end_fixity=(1.0, 4.0))
    assert_directions(
        "rod_buckling",
        bore=(0.07, 0.11),
        pressure=(1e6, 25e6),
        rod_length=(0.11, 0.2),
        depth=(0.018, 0.03),
        flange_width=(0.012, 0.022),
        flange_thickness=(0.0025, 0.006),
        web_thickness=(0.002, 0.006),
        yield_strength=(400e6, 1800e6),
        elastic_modulus=(1e11, 2.2e11),
    )
