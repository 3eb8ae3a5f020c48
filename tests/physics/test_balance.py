import math

import pytest

from planner.errors import OutsideValidity
from planner.physics.balance import bobweight, permissible_unbalance, unbalance_planes
from tests.physics.directions import assert_directions

RPM = math.pi / 30


@pytest.mark.published("ISO 21940-11, U = 1000 G m / (2 pi n / 60) g mm, seen in public copies")
@pytest.mark.parametrize(
    ("grade", "mass", "rpm"), [(6.3, 18, 7500), (16, 18, 7500), (2.5, 5, 3e3)]
)
def test_permissible_unbalance_in_the_standards_own_units(grade, mass, rpm):
    in_gram_millimetres = 1000 * grade * mass / (2 * math.pi * rpm / 60)
    found = permissible_unbalance(grade=grade / 1e3, rotor_mass=mass, speed=rpm * RPM)
    assert found * 1e6 == pytest.approx(in_gram_millimetres)


def test_the_two_planes_balance_about_the_centre_of_mass():
    split = unbalance_planes(unbalance=144.4e-6, distance_a=0.12, distance_b=0.18)
    assert split["plane_a"] + split["plane_b"] == pytest.approx(144.4e-6)
    assert split["plane_a"] * 0.12 == pytest.approx(split["plane_b"] * 0.18)


def test_regression_trial_figures():
    # Regression: figures of an early trial of ours, not an outside check.
    whole = permissible_unbalance(grade=16e-3, rotor_mass=18.0, speed=7500 * RPM)
    assert whole * 1e6 == pytest.approx(366.7, abs=0.05)


def primary_couple(factor, angle, throws=(0, 240, 120)):
    """Rocking couple of an in-line three whose bobweights balance that factor, m r w2 = 1."""
    along = across = 0.0
    for place, throw in zip((-1, 0, 1), throws, strict=True):
        turned = angle + math.radians(throw)
        along += place * (math.cos(turned) - factor * math.cos(turned))
        across += place * factor * math.sin(turned)
    return math.hypot(along, across)


def worst_couple(factor):
    return max(primary_couple(factor, step * math.pi / 180) for step in range(360))


def test_half_the_reciprocating_mass_is_the_least_bad_choice_for_an_in_line_three():
    worst = {factor / 10: worst_couple(factor / 10) for factor in range(11)}
    assert min(worst, key=worst.get) == 0.5
    assert worst[0.5] == pytest.approx(worst[0.0] / 2)


def test_a_single_rod_on_the_pin_takes_one_rods_weight():
    parts = {"rotating_mass": 0.48, "reciprocating_mass": 0.62, "balance_factor": 0.5}
    one = bobweight(rods_per_pin=1.0, **parts, oil_mass=0.0)
    assert bobweight(rods_per_pin=2.0, **parts, oil_mass=0.004) == pytest.approx(2 * one + 0.004)
    assert one == pytest.approx(0.48 + 0.31)


def test_a_grade_written_without_its_unit_is_refused_with_a_hint():
    with pytest.raises(OutsideValidity, match="balance grade is 6300 mm/s") as refusal:
        permissible_unbalance(grade=6.3, rotor_mass=18.0, speed=785.0)
    assert "G 6.3 is 6.3 mm/s" in refusal.value.remedy


def test_the_declared_directions_hold():
    assert_directions(
        "permissible_unbalance", grade=(1e-3, 0.04), rotor_mass=(5.0, 60.0), speed=(100.0, 1200.0)
    )
    assert_directions(
        "unbalance_planes",
        unbalance=(1e-5, 1e-3),
        distance_a=(0.05, 0.4),
        distance_b=(0.05, 0.4),
    )
    assert_directions(
        "bobweight",
        rods_per_pin=(1.0, 2.0),
        rotating_mass=(0.3, 0.8),
        reciprocating_mass=(0.3, 1.0),
        balance_factor=(0.0, 1.0),
        oil_mass=(0.0, 0.02),
    )
