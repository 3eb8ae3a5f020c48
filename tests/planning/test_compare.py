"""Two plans side by side, and the rule that makes each difference."""

import pytest

from planner.planning.compare import compare
from planner.sheets.compare_text import compare_text
from planner.sheets.layout import WIDTH
from tests.planning.priced import asked

ETHANOL = ("goals.fuel=e85", "goals.ethanol=always")


@pytest.fixture(scope="module")
def told():
    return compare(asked("larch"), asked("larch", *ETHANOL), ("petrol", "always ethanol"))


def change(told, name):
    return next(each for each in told.specification if each.id == name)


def test_ethanol_changes_the_ratio_by_the_row_for_ethanol(told):
    ratio = change(told, "compression_ratio")
    assert ratio.before.startswith("8.3 to 8.8")
    assert ratio.after.startswith("9.8 to 10.3")
    assert ratio.rule.startswith(("rules/ratio.yaml:", "rules/cycle_ratio.yaml:"))
    assert "ethanol" in ratio.decided_by


def test_every_change_of_the_specification_names_its_rule(told):
    for each in told.specification:
        assert each.rule.partition(":")[2].isdigit(), each
        assert each.decided_by, each


def test_one_screen_names_ratio_gaps_valves_fuel_and_cost(told):
    text = compare_text(told)
    lines = text.splitlines()
    assert len(lines) <= 50
    assert all(len(line) <= WIDTH for line in lines)
    for words in ("compression ratio:", "top ring gap", "exhaust valve", "fuel flow:", "Cost:"):
        assert words in text
    assert "goals.fuel: premium -> e85" in text
    assert "ethanol injectors: not bought -> 4" in text.replace("\n       ", " ")


def test_a_value_that_does_not_change_is_told_as_the_same(told):
    same = dict(told.same)
    assert "top_ring_gap" in same
    assert not {each.id for each in told.specification} & set(same)


def test_ethanol_costs_more_by_the_fuel_parts(told):
    likely = told.cost[1]
    assert float(likely.after) > float(likely.before)
    moved = {each.id: each for each in told.cost[3:]}
    assert moved["ethanol_injectors"].before == "0"
    assert float(moved["ethanol_injectors"].after) > 0


def test_a_job_compared_with_itself_is_the_same():
    text = compare_text(compare(asked("larch"), asked("larch"), ("this", "the same")))
    assert "Nothing else changes" in text


def test_a_part_that_fails_a_need_is_named_with_the_figures():
    higher = compare(asked("larch"), asked("larch", "goals.boost=1.9 bar"), ("now", "more"))
    gasket = change(higher, "head_gasket")
    assert "steel_3_layer fails 'carries the boost'" in gasket.decided_by
    assert "1.6 bar" in gasket.decided_by


def test_a_step_that_comes_in_is_told_with_what_called_it():
    wish = compare(
        asked("larch"), asked("larch", "goals.options.vapour_hone=wanted"), ("now", "looks")
    )
    step = next(each for each in wish.operations if each.id == "vapour_hone_castings")
    assert step.before == "not in the plan"
    assert step.decided_by
    assert "new: vapour hone castings" in compare_text(wish)
