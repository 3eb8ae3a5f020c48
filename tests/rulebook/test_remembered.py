"""Answers of slow formulas: asked once, never stale, and a damaged file is an empty one."""

import pytest

from planner.errors import OutsideValidity
from planner.physics.registry import Q, Signature
from planner.rulebook.remembered import called, remembering
from planner.units.dimension import NONE


def slow_formula(asked, *, refuses=False):
    def function(*, x):
        asked.append(x)
        if refuses:
            raise OutsideValidity(problem="x is 9.", reason="never checked", remedy="smaller x")
        return {"twice": 2 * x}

    q = Q(NONE)
    return Signature(
        "twice", function, {"twice": q}, {"x": q}, {}, {}, "c", "v", empirical=True, slow=True
    )


def test_the_same_question_is_worked_out_once(tmp_path):
    asked = []
    formula = slow_formula(asked)
    for _ in range(3):
        with remembering(tmp_path):
            assert called(formula, {"x": 1.5}) == {"twice": 3.0}
    assert asked == [1.5]


def test_another_argument_is_another_question(tmp_path):
    asked = []
    formula = slow_formula(asked)
    with remembering(tmp_path):
        called(formula, {"x": 1.0})
        called(formula, {"x": 1.0 + 1e-15})
    assert len(asked) == 2


def test_a_refusal_is_kept_in_its_words(tmp_path):
    asked = []
    formula = slow_formula(asked, refuses=True)
    for _ in range(2):
        with remembering(tmp_path), pytest.raises(OutsideValidity, match="x is 9"):
            called(formula, {"x": 9.0})
    assert asked == [9.0]


@pytest.mark.parametrize("damage", ["", "{", "[]", '{"k": 3}', '{"k": {"answer": "x"}}', "\x00"])
def test_a_damaged_file_is_an_empty_one(tmp_path, damage):
    asked = []
    formula = slow_formula(asked)
    with remembering(tmp_path):
        called(formula, {"x": 1.0})
    (kept,) = tmp_path.glob("answers-*.json")
    kept.write_text(damage)
    with remembering(tmp_path):
        assert called(formula, {"x": 1.0}) == {"twice": 2.0}
    assert asked == [1.0, 1.0]


def test_a_folder_that_cannot_be_written_is_left_be(tmp_path):
    blocked = tmp_path / "file"
    blocked.write_text("")
    with remembering(blocked / "below"):
        assert called(slow_formula([]), {"x": 1.0}) == {"twice": 2.0}


def test_what_an_earlier_version_kept_is_dropped(tmp_path):
    (tmp_path / "answers-old.json").write_text("{}")
    with remembering(tmp_path):
        called(slow_formula([]), {"x": 1.0})
    assert not (tmp_path / "answers-old.json").exists()


def test_quick_formulas_and_no_folder_keep_nothing(tmp_path):
    asked = []
    formula = slow_formula(asked)
    with remembering(None):
        called(formula, {"x": 1.0})
        called(formula, {"x": 1.0})
    assert asked == [1.0, 1.0]
    assert list(tmp_path.iterdir()) == []
