from pathlib import Path

import pytest

from planner.datafiles.reader import read_yaml
from planner.physics.cycle.model import ratios_at_limit
from planner.units import find_unit, parse_quantity
from tests.physics.cycle.cases import CONSTANTS, full_boost, latest

FILE = Path(__file__).parents[3] / "rules" / "constants_cycle.yaml"
DECISIONS = {
    name.text.removeprefix("cycle_"): node
    for name, node in read_yaml(FILE).get("decisions").entries
}


def test_the_tests_run_on_the_constants_of_the_rules():
    written = {name: parse_quantity(node.get("value").text).si for name, node in DECISIONS.items()}
    assert written == pytest.approx(CONSTANTS, rel=1e-9)


@pytest.mark.parametrize("name", sorted(DECISIONS))
def test_each_constant_lies_inside_its_range_and_unit(name):
    gives = DECISIONS[name].get("gives")
    low, high = gives.get("range").text.strip("[]").split(" .. ")
    value = parse_quantity(DECISIONS[name].get("value").text)
    assert parse_quantity(low).si <= value.si <= parse_quantity(high).si
    unit = gives.get("unit")
    declared = find_unit(unit.text if unit else "")
    assert value.unit.dimension == declared.dimension


# Regression of our own model: what the anchors are for is to be the same figure twice.
@pytest.mark.parametrize(
    ("anchor", "fuel"), [("premium", "premium"), ("regular", "regular"), ("ethanol", "e85")]
)
def test_each_anchor_is_what_the_model_says_at_its_place(anchor, fuel):
    point = full_boost(fuel)
    phasing = latest()[0] + latest()[1] * point.boost
    (found,) = ratios_at_limit((point,), (phasing,))
    assert found == pytest.approx(CONSTANTS[f"anchor_ratio_{anchor}"], abs=0.01)
