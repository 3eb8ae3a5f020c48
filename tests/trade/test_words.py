"""What the rulebook says: every row tried, three voices for each key decision, no two alike."""

from collections import Counter
from pathlib import Path

import pytest

from planner.rulebook.rule_cases import run_cases
from planner.rulebook.syntax import Rulebook
from tests.trade.conftest import ROOT

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


TRIED = (
    "goals ratio crown block walls deck main_line finish block_calls pistons piston_clearance"
    " pins rings rods rod_bolts conflicts"
)


def test_every_row_of_the_top_half_is_tried_by_a_case(rulebook: Rulebook) -> None:
    report = run_cases(rulebook, [ROOT / "rules"])
    files = {f"{name}.yaml" for name in TRIED.split()}
    assert [str(each) for each in report.problems] == []
    assert [
        f"{name} at {place}" for name, place in report.unreached if Path(place.file).name in files
    ] == []


@pytest.mark.parametrize("name", TOP_HALF)
def test_a_key_decision_speaks_in_three_voices(rulebook: Rulebook, name: str) -> None:
    voices = {
        voice
        for advice in rulebook.advice.values()
        if name in advice.about
        for voice in advice.voices
    }
    assert voices == {"builder", "machinist", "customer"}


def test_no_two_customer_reasons_are_copies(rulebook: Rulebook) -> None:
    said = Counter(
        advice.voices["customer"]
        for advice in rulebook.advice.values()
        if "customer" in advice.voices
    )
    assert [text for text, times in said.items() if times > 1] == []
