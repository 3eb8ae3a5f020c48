"""Every registered formula is held against something outside itself by some test.

Run with ``-s`` to see the list: each formula with the tests that check it.
"""

from planner.physics import load_all
from planner.physics.registry import REGISTRY
from tests.physics.formula_checks import checks_in, every_check

load_all()
FORMULAS = frozenset(
    name for name, each in REGISTRY.items() if each.function.__module__.startswith("planner.")
)


def test_every_formula_has_a_check():
    found = every_check(FORMULAS)
    for name, tests in found.items():
        print(f"{name}: {', '.join(tests) or 'NO CHECK'}")  # noqa: T201 - the list is the point
    unchecked = [name for name, tests in found.items() if not tests]
    assert not unchecked, f"no test checks {', '.join(unchecked)}"


def test_a_regression_a_refusal_and_a_direction_are_no_checks(tmp_path):
    path = tmp_path / "test_sample.py"
    path.write_text(
        "from planner.physics.clamp import clamp_ratio\n"
        "def test_regression_old_figure():\n    assert clamp_ratio() == 2.14\n"
        "def test_it_refuses():\n    with raises(ValueError):\n        clamp_ratio()\n"
        "def test_the_declared_directions_hold():\n    assert_directions('clamp_ratio')\n"
    )
    assert checks_in(path, frozenset({"clamp_ratio"})) == {}


def test_a_word_of_the_same_spelling_is_no_check(tmp_path):
    path = tmp_path / "test_sample.py"
    path.write_text(
        "from planner.physics.clamp import head_lift_force\n"
        "def test_one():\n    clamp_ratio = 1\n    assert clamp_ratio == 1\n"
    )
    assert checks_in(path, frozenset({"clamp_ratio"})) == {}


def test_a_helper_counts_for_the_test_that_calls_it(tmp_path):
    path = tmp_path / "test_sample.py"
    path.write_text(
        "from planner.physics.clamp import clamp_ratio\n"
        "def head():\n    return clamp_ratio()\n"
        "def test_one_lift_is_one():\n    assert head() == 1\n"
    )
    found = checks_in(path, frozenset({"clamp_ratio"}))
    assert found == {"clamp_ratio": ["test_sample.py::test_one_lift_is_one"]}
