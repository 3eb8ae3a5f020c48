import math

import pytest

from planner.errors import OutsideValidity
from planner.physics.balance_throws import throw_unbalance, vee_primary
from tests.physics.directions import assert_directions


def row(*degrees):
    return (tuple(math.radians(each) for each in degrees),)


def places(count):
    return (tuple(0.1 * each for each in range(count)),)


@pytest.mark.parametrize(
    "throws",
    [(0, 180, 180, 0), (0, 120, 240, 240, 120, 0), (0, 90, 270, 180, 180, 270, 90, 0)],
)
def test_mirrored_cranks_leave_nothing_and_spin_bare(throws):
    left = throw_unbalance(throw_angles=row(*throws), positions=places(len(throws)))
    assert left["force_share"] == pytest.approx(0, abs=1e-12)
    assert left["couple_arm"] == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize(
    ("throws", "force", "couple"),
    [
        ((0, 0), 2, 0),
        ((0, 180), 0, 0.1),
        ((0, 240, 120), 0, 0.1 * math.sqrt(3)),
        ((0, 144, 216, 288, 72), 0, None),
    ],
)
def test_in_line_twos_threes_and_fives_leave_a_force_or_a_couple(throws, force, couple):
    left = throw_unbalance(throw_angles=row(*throws), positions=places(len(throws)))
    assert left["force_share"] == pytest.approx(force, abs=1e-9)
    if couple is None:
        assert left["couple_arm"] > 0.02
    else:
        assert left["couple_arm"] == pytest.approx(couple, abs=1e-9)


@pytest.mark.parametrize("degrees", [60, 72, 90, 120])
def test_the_vee_ellipse_agrees_with_the_forces_added_round_the_turn(degrees):
    half = math.radians(degrees) / 2
    along = across = 0.0
    for step in range(3600):
        angle = step * math.pi / 1800
        left, right = math.cos(angle + half), math.cos(angle - half)
        along = max(along, abs((left + right) * math.cos(half)))
        across = max(across, abs((right - left) * math.sin(half)))
    axes = vee_primary(reciprocating_mass=1.0, vee_angle=2 * half)
    assert axes["along"] == pytest.approx(along, rel=1e-5)
    assert axes["across"] == pytest.approx(across, rel=1e-5)


def test_half_the_mass_cancels_a_ninety_degree_vee_whole():
    axes = vee_primary(reciprocating_mass=0.62, vee_angle=math.pi / 2)
    assert axes["along"] == pytest.approx(axes["across"]) == pytest.approx(0.5 * 2 * 0.62)


def test_as_many_places_as_angles_are_needed():
    with pytest.raises(OutsideValidity, match="list of throws is 2 angles and 3 places"):
        throw_unbalance(throw_angles=row(0, 180), positions=places(3))


def test_the_declared_directions_hold():
    assert_directions("vee_primary", reciprocating_mass=(0.3, 1.0), vee_angle=(0.0, math.pi))
