from math import cos, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import OutsideValidity
from planner.physics.bores import (
    clean_up_diameter,
    clean_up_diameter_floated,
    hoop_stress_screen,
    oversize_needed,
    wall_after_boring,
)
from planner.physics.readings import deepest_smallest
from tests.physics.directions import assert_directions
from tests.physics.grid_directions import assert_grid_directions

# Invented readings of four worn bores: thrust, along the crank, between; three depths.
WORN = {
    1: ((86.071, 86.046, 86.058), (86.042, 86.031, 86.036), (86.022, 86.018, 86.020)),
    2: ((86.078, 86.049, 86.063), (86.047, 86.034, 86.040), (86.024, 86.019, 86.021)),
    3: ((86.138, 86.083, 86.110), (86.074, 86.052, 86.064), (86.031, 86.024, 86.027)),
    4: ((86.069, 86.044, 86.057), (86.040, 86.030, 86.035), (86.021, 86.017, 86.019)),
}
READINGS = {k: tuple(tuple(d / 1e3 for d in row) for row in grid) for k, grid in WORN.items()}


@pytest.mark.parametrize(
    ("cylinder", "score", "by_hand"),
    [
        (1, 0.0, 2 * 86.071 - 86.018),
        (2, 0.0, 2 * 86.078 - 86.019),
        (3, 0.04, 2 * 86.138 - 86.024 + 2 * 0.04),
        (4, 0.0, 2 * 86.069 - 86.017),
    ],
)
def test_the_clean_up_diameter_by_hand(cylinder, score, by_hand):
    grid = READINGS[cylinder]
    unworn = deepest_smallest(readings=grid)
    found = clean_up_diameter(readings=grid, unworn=unworn, score=score / 1e3)
    assert found * 1e3 == pytest.approx(by_hand, abs=1e-9)


@given(st.floats(0.0, 0.0005), st.floats(0.0, 0.0001))
def test_the_clean_up_circle_just_reaches_a_wall_worn_on_one_side(wear, score):
    # The worn wall: the old circle, but on one side `wear` further out, scored there too.
    unworn = 0.086
    wall = []
    for k in range(72):
        angle = 2 * pi * k / 72
        out = unworn / 2 + (wear + score if k == 0 else wear * max(0.0, cos(angle)))
        wall.append((out * cos(angle), out * sin(angle)))
    farthest = max((x * x + y * y) ** 0.5 for x, y in wall)
    cleaned = clean_up_diameter(readings=((unworn + wear,),), unworn=unworn, score=score)
    assert cleaned == pytest.approx(2 * farthest, abs=1e-12)


@given(st.floats(0.0860, 0.0864), st.floats(0.0, 0.0003), st.floats(0.0, 0.0001))
def test_keeping_the_centre_never_costs_less_than_floating_it(worn, wear, score):
    kept = clean_up_diameter(readings=((worn,),), unworn=worn - wear, score=score)
    assert kept >= clean_up_diameter_floated(readings=((worn,),), score=score) - 1e-15


def test_an_unworn_reading_above_the_worn_one_never_shrinks_the_bore():
    assert clean_up_diameter(readings=((0.086,),), unworn=0.08605, score=0.0) == 0.086


def test_the_oversize_leaves_the_honing_stock():
    need = oversize_needed(clean_up=0.086332, nominal=0.086, stock=0.0001)
    assert need == pytest.approx(0.000432)
    assert next(step for step in (0.00025, 0.0005, 0.001) if step >= need) == 0.0005


def test_the_wall_loses_half_the_growth_and_the_whole_shift():
    left = wall_after_boring(
        wall=0.006, bore_when_measured=0.086, finished_bore=0.087, centre_shift=0.0002
    )
    assert left == pytest.approx(0.006 - 0.0005 - 0.0002)


def test_the_hoop_stress_balances_the_pressure_on_half_the_bore():
    # One metre of cylinder cut along its axis: the push p B on the cut is held by two walls.
    stress = hoop_stress_screen(pressure=10e6, bore=0.086, wall=0.005, support=0.0)
    assert 2 * stress * 0.005 == pytest.approx(10e6 * 0.086)


def test_the_thick_wall_solution_stays_within_fifteen_percent_above():
    # Lame: hoop stress at the bore of a free thick tube, the exact elastic answer.
    inner, outer = 0.043, 0.043 + 0.0053
    lame = 12e6 * (outer**2 + inner**2) / (outer**2 - inner**2)
    screen = hoop_stress_screen(pressure=12e6, bore=0.086, wall=0.0053, support=0.0)
    assert 1.0 < lame / screen < 1.15


def test_trial_figures_have_not_drifted():
    # REGRESSION value of an earlier trial of the same equation, not an outside check.
    stress = hoop_stress_screen(pressure=12e6, bore=0.086, wall=0.0053, support=0.0)
    assert stress == pytest.approx(97e6, abs=0.5e6)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: clean_up_diameter(readings=((0.086,),), unworn=0.0845, score=0.0),
            "unworn bore is 84.5 mm, outside 85 to 87 mm",
        ),
        (
            lambda: clean_up_diameter_floated(readings=((0.086,),), score=-1e-5),
            "score depth is -0.01 mm",
        ),
        (
            lambda: wall_after_boring(
                wall=0.001, bore_when_measured=0.086, finished_bore=0.089, centre_shift=0.0
            ),
            "wall left is -0.5 mm",
        ),
        (
            lambda: hoop_stress_screen(pressure=12e6, bore=0.084, wall=0.00217, support=1.0),
            "liner support is 1, outside 0, a wall standing free",
        ),
        (
            lambda: hoop_stress_screen(pressure=12e6, bore=0.084, wall=0.00217, support=0.0),
            "wall over bore is 0.0258333, outside 0.03 to 0.15",
        ),
    ],
)
def test_what_the_formulas_cannot_judge_is_refused_by_name(call, message):
    with pytest.raises(OutsideValidity, match=message):
        call()


def test_a_deeper_score_or_more_wear_never_makes_the_bore_smaller():
    assert_grid_directions(
        "clean_up_diameter",
        "readings",
        0.0860,
        0.0864,
        unworn=(0.0859, 0.0862),
        score=(0.0, 1e-4),
    )
    assert_grid_directions(
        "clean_up_diameter_floated", "readings", 0.0860, 0.0864, score=(0.0, 1e-4)
    )


@pytest.mark.parametrize(
    ("name", "ranges"),
    [
        (
            "oversize_needed",
            {"clean_up": (0.086, 0.087), "nominal": (0.085, 0.0865), "stock": (0.0, 2e-4)},
        ),
        (
            "wall_after_boring",
            {
                "wall": (0.003, 0.008),
                "bore_when_measured": (0.0855, 0.0865),
                "finished_bore": (0.086, 0.088),
                "centre_shift": (0.0, 2e-4),
            },
        ),
        (
            "hoop_stress_screen",
            {
                "pressure": (1e6, 2e7),
                "bore": (0.075, 0.105),
                "wall": (0.0035, 0.01),
                "support": 0.0,
            },
        ),
    ],
)
def test_declared_directions_hold(name, ranges):
    assert_directions(name, **ranges)
