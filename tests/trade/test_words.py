"""What the rulebook says: every row tried, three voices for each key decision, no two alike."""

from collections import Counter
from itertools import combinations

import pytest

from planner.rulebook.rule_cases import run_cases
from planner.rulebook.syntax import Rulebook
from tests.trade.conftest import ROOT

ALIKE = 0.5
"""Share of common runs of words past which two reasons count as copies of one another."""
TOP_HALF = [
    "compression_ratio",
    "effective_compression_ratio",
    "crown_volume",
    "quench_distance",
    "deck_clearance",
    "head_gasket",
    "peak_cylinder_pressure",
    "knock_margin",
    "expected_power",
    "mean_piston_speed",
    "fuel_flow",
    "charge_limit",
    "block_route",
    "bore_oversize",
    "finished_bore",
    "wall_after_bore",
    "deck_cut",
    "main_line_hone",
    "torque_plate",
    "bore_finish",
    "cap_and_brace",
    "piston_alloy",
    "piston_form",
    "piston_to_wall",
    "pin_grade",
    "pin_wall",
    "pin_clearance_boss",
    "pin_clearance_bush",
    "ring_pack",
    "top_ring_gap",
    "second_ring_gap",
    "oil_rail_gap",
    "ring_side_clearance",
    "rod_grade",
    "rod_bolt_grade",
    "rod_bolt_preload",
    "rod_side_clearance",
]


def test_every_row_of_the_whole_rulebook_is_tried_by_a_case(rulebook: Rulebook) -> None:
    report = run_cases(rulebook, [ROOT / "rules"])
    assert [str(each) for each in report.problems] == []
    assert [f"{name} at {place}" for name, place in report.unreached] == []


@pytest.mark.parametrize("name", TOP_HALF)
def test_a_key_decision_speaks_in_three_voices(rulebook: Rulebook, name: str) -> None:
    voices = {
        voice
        for advice in rulebook.advice.values()
        if name in advice.about
        for voice in advice.voices
    }
    assert voices == {"builder", "machinist", "customer"}


def customer_reasons(rulebook: Rulebook) -> dict[str, str]:
    """Return every reason told to a customer, of decisions and of operations."""
    advised = {
        f"advice {name}": each.voices["customer"]
        for name, each in rulebook.advice.items()
        if "customer" in each.voices
    }
    done = {
        f"operation {name}": each.why["customer"] for name, each in rulebook.operations.items()
    }
    return advised | done


def runs_of_words(text: str) -> set[tuple[str, ...]]:
    """Return every run of three words of a text."""
    words = text.lower().replace(",", "").replace(".", "").split()
    return {tuple(words[at : at + 3]) for at in range(len(words) - 2)}


def test_no_two_customer_reasons_are_copies_or_nearly(rulebook: Rulebook) -> None:
    said = {name: runs_of_words(text) for name, text in customer_reasons(rulebook).items()}
    alike = [
        f"{one} and {other}"
        for (one, left), (other, right) in combinations(said.items(), 2)
        if len(left & right) > ALIKE * min(len(left), len(right))
    ]
    assert alike == []


def test_no_two_operations_threaten_the_same_when_skipped(rulebook: Rulebook) -> None:
    said = Counter(each.if_skipped for each in rulebook.operations.values())
    assert all(said)
    assert [text for text, times in said.items() if times > 1] == []


def test_every_work_and_commissioning_operation_warns_people(rulebook: Rulebook) -> None:
    unwarned = [
        each.name
        for each in rulebook.operations.values()
        if each.work_class in ("work", "commissioning")
        and not any(caution.severity != "notice" for caution in each.cautions)
    ]
    assert unwarned == []
