"""A shop lays its own decision over ours: it is reported, and nothing else moves by itself."""

import json
from pathlib import Path

import pytest

from planner.planning.assemble import plan_job
from planner.planning.job_reader import read_job
from planner.rulebook import load_rulebook
from planner.rulebook.syntax import Rulebook
from planner.sheets.plan_json import plan_json
from tests.trade.conftest import ROOT

OURS = """
sources:
  own_bench: {status: common practice, cite: "a shop of the test, invented"}
decisions:
  honing_stock:
    means: Metal left on the diameter for the hone
    gives: {unit: mm, form: band, kind: clearance on diameter, range: "[0 mm .. 1 mm]"}
    value: 0.18 / 0.20 / 0.22 mm
    source: own_bench
"""


@pytest.fixture(scope="module")
def laid_over(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    """Return our rulebook with a shop's honing stock over it."""
    folder = tmp_path_factory.mktemp("shop")
    (folder / "ours.yaml").write_text(OURS, encoding="utf-8")
    return load_rulebook([ROOT / "rules", folder], [ROOT / "catalogs"])


def planned(rulebook: Rulebook, job: str) -> dict[str, dict[str, object]]:
    """Return each decision of a demonstration job as the document carries it."""
    reading = read_job(Path(ROOT) / "shared" / "jobs" / f"{job}.yaml", rulebook)
    plan = json.loads(plan_json(plan_job(reading, rulebook)))
    kept = ("status", "low", "target", "high", "value", "per", "results", "called", "fields")
    return {
        name: {key: each[key] for key in kept if key in each}
        for name, each in plan["decisions"].items()
    }


def standing_on(rulebook: Rulebook, name: str) -> set[str]:
    """Return a decision and every decision that reads it, however far down."""
    found = {name}
    while True:
        more = {
            each.name
            for each in rulebook.decisions.values()
            if found & {read.partition(".")[0] for read in each.reads}
        }
        more |= {result for result, (owner, _) in rulebook.results.items() if owner in more}
        if more <= found:
            return found
        found |= more


def test_the_report_names_the_decision_that_was_replaced_and_no_other(
    laid_over: Rulebook, rulebook: Rulebook
) -> None:
    assert len(laid_over.overridden) == 1
    assert "honing_stock" in str(laid_over.overridden[0])
    assert rulebook.overridden == ()
    assert laid_over.sha256 != rulebook.sha256


@pytest.mark.parametrize("job", ["larch", "sorrel"])
def test_only_what_rests_on_the_replaced_decision_moves(
    laid_over: Rulebook, rulebook: Rulebook, job: str
) -> None:
    before, after = planned(rulebook, job), planned(laid_over, job)
    assert before.keys() == after.keys()
    moved = {name for name in before if before[name] != after[name]}
    assert "bore_size_needed" in moved
    assert moved <= standing_on(rulebook, "honing_stock")


def test_more_honing_stock_takes_the_worn_block_to_its_next_size(
    laid_over: Rulebook, rulebook: Rulebook
) -> None:
    # by hand: the worst bore cleans at 86.332 mm; with 0.20 mm of stock that makes 86.532 mm
    assert planned(rulebook, "larch")["bore_oversize"]["value"] == "86.50"
    assert planned(laid_over, "larch")["bore_oversize"]["value"] == "87.00"
