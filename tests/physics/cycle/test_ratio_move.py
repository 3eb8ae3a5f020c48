"""The move of a practice ratio: nothing at the anchor, held to its greatest, one way only."""

import numpy as np
import pytest

from planner.errors import OutsideValidity
from planner.physics.cycle.ratio import FALLS, RISES, knock_limited_ratio
from planner.physics.cycle.ratio_move import ratio_move
from planner.physics.registry import REGISTRY
from tests.physics.cycle.cases import BAR, CONSTANTS
from tests.physics.cycle.test_ratio import FORMULA_MOVES, arguments

HELD = CONSTANTS["greatest_move"]


def move(anchor=8.51, greatest=HELD, step=0.001, **changed):
    return ratio_move(**arguments(**changed), anchor=anchor, greatest_move=greatest, step=step)


def test_it_is_the_ratio_less_the_anchor():
    found = knock_limited_ratio(**arguments())["knock_limited_ratio"]
    assert move(greatest=3.0) == pytest.approx(found - 8.51, abs=0.0006)
    assert move(anchor=found) == 0.0


def test_it_is_rounded_to_its_step():
    exact = move(boost=1.0 * BAR, full_boost_temperature=342.0)
    rounded = move(boost=1.0 * BAR, full_boost_temperature=342.0, step=0.1)
    assert rounded == round(exact, 1)
    assert rounded != exact


def test_it_is_held_either_way():
    assert move(octane=100.0) == HELD
    assert move(octane=84.0) == -HELD
    assert move(octane=100.0, greatest=0.1) == 0.1


@pytest.mark.parametrize(
    ("changed", "most"),
    [({"boost": 2.9 * BAR, "octane": 80.0}, -HELD), ({"boost": 0.0, "octane": 125.0}, HELD)],
)
def test_a_ratio_that_is_not_known_moves_by_the_greatest(changed, most):
    assert move(**changed) == most


def test_a_move_is_tried_for_each_declared_direction():
    assert sorted([*FORMULA_MOVES, "anchor"]) == sorted((*RISES, *FALLS, "anchor"))
    assert REGISTRY["ratio_move"].falls["ratio_move"] == (*FALLS, "anchor")


@pytest.mark.parametrize("boost", [0.35, 1.0])
@pytest.mark.parametrize("name", sorted(FORMULA_MOVES))
def test_it_moves_as_it_declares(name, boost):
    here = arguments(boost=boost * BAR)
    there = {**here, name: here[name] + FORMULA_MOVES[name]}
    low, high = (
        ratio_move(**each, anchor=9.0, greatest_move=3.0, step=0.001) for each in (here, there)
    )
    assert (high - low) * (1 if name in RISES else -1) >= -1e-9


def test_a_higher_anchor_moves_down():
    found = [move(anchor=anchor, greatest=3.0) for anchor in np.linspace(7.0, 10.0, 5)]
    assert (np.diff(found) < 0).all()


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"anchor": 4.0}, "anchor is 4"),
        ({"greatest": 5.0}, "greatest move is 5"),
        ({"step": 0.0}, "step of the move is 0"),
    ],
)
def test_it_refuses_an_anchor_or_a_move_out_of_bounds(changed, words):
    with pytest.raises(OutsideValidity, match=words):
        move(**changed)
