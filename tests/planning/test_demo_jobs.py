"""The two demo jobs, all the way through the rules that ship with the program."""

import json
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planner.datafiles.nodes import Mapping, Scalar, Sequence
from planner.datafiles.reader import read_yaml
from planner.models.document import read_plan
from planner.models.groups import HEADLINES
from planner.planning.assemble import plan_job
from planner.planning.job_overrides import with_overrides
from planner.planning.job_reader import read_job_node
from planner.rulebook import load_rulebook
from planner.sheets.layout import WIDTH
from planner.sheets.plan_json import plan_json
from planner.sheets.plan_text import plan_text

ROOT = Path(__file__).resolve().parents[2]
JOBS = ("larch", "sorrel")
INCH = 25.4


@cache
def shipped():
    return load_rulebook([ROOT / "rules"], [ROOT / "catalogs"])


@cache
def job(name):
    return read_yaml(ROOT / "shared" / "jobs" / f"{name}.yaml")


def plan(name, *changes):
    return plan_job(read_job_node(with_overrides(job(name), changes), shipped()), shipped())


@cache
def document(name):
    return json.loads(plan_json(plan(name)))


def in_inches(node, unit=None):
    """Write every bare length of every millimetre block in inches."""
    if isinstance(node, Sequence):
        return Sequence(tuple(in_inches(each, unit) for each in node.items), node.place, node.span)
    if isinstance(node, Scalar):
        number = isinstance(node.value, int | float) and not isinstance(node.value, bool)
        if unit != "mm" or not number:
            return node
        value = node.value / INCH
        return Scalar(value, repr(value), quoted=False, place=node.place, span=node.span)
    stated = node.get("unit")
    unit = stated.text if isinstance(stated, Scalar) else unit
    entries = []
    for key, inner in node.entries:
        if key.text == "unit" and unit == "mm":
            turned = Scalar("in", "in", quoted=False, place=inner.place, span=inner.span)
        else:
            turned = inner if key.text == "depths" else in_inches(inner, unit)
        entries.append((key, turned))
    return Mapping(tuple(entries), node.place, node.span)


@pytest.mark.parametrize("name", JOBS)
def test_every_decision_of_the_contract_is_answered_or_does_not_apply(name):
    decisions = document(name)["decisions"]
    assert [each for each in HEADLINES if each not in decisions] == []
    for each in HEADLINES:
        found = decisions[each]
        assert found["status"] in ("firm", "provisional", "waiting", "not applicable"), each
        assert found["status"] != "waiting" or found["waiting_for"]
        assert found["status"] != "not applicable" or found["not_applicable"]


def test_the_demo_plan_asks_about_the_one_odd_bore_and_no_other_reading():
    assert [each for each in document("larch")["questions"] if "at" in each] == []
    [asked] = [each for each in document("sorrel")["questions"] if "at" in each]
    assert "cylinder 6: 0.013 mm out of round at the bottom" in asked["text"]


@pytest.mark.parametrize("name", JOBS)
def test_the_document_reads_back_and_gives_the_same_bytes_twice(name):
    made = document(name)
    assert json.loads(plan_json(read_plan(made))) == made
    assert plan_json(plan(name)) == plan_json(plan(name))


@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize("audience", ["builder", "machinist", "customer"])
def test_the_text_keeps_to_the_page(name, audience):
    for line in plan_text(plan(name), audience=audience).splitlines():
        assert len(line) <= WIDTH or " " not in line.strip(), line


@pytest.mark.parametrize("name", JOBS)
def test_the_same_readings_in_inches_give_the_same_plan(name):
    metric = plan_job(read_job_node(job(name), shipped()), shipped())
    imperial = plan_job(read_job_node(in_inches(job(name)), shipped()), shipped())
    assert plan_json(imperial) == plan_json(metric)


@settings(
    max_examples=8, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)
@given(st.lists(st.integers(0, 300), min_size=4, max_size=4), st.sampled_from([5.2, 5.6, 6.3]))
def test_worn_bores_in_inches_give_the_same_plan(worn, wall):
    readings = {
        item: [[round(86.03 + more / 1000, 3), 86.02], [86.02, 86.018]]
        for item, more in enumerate(worn, 1)
    }
    text = str(readings).replace("'", "")
    changes = (
        f"teardown.bores={{unit: mm, readings: {text}, score_depth: {{2: 0.02}}, "
        f"wall: [{wall}, 6.0, 6.1, {wall}]}}",
    )
    root = with_overrides(job("larch"), changes)
    metric = plan_job(read_job_node(root, shipped()), shipped())
    imperial = plan_job(read_job_node(in_inches(root), shipped()), shipped())
    assert plan_json(imperial) == plan_json(metric)


# The order a machinist expects (common practice): each pair wherever both are in the plan.
BEFORE = (
    ("crack_test_block", "line_hone"),
    ("measure_block", "order_pistons"),
    ("line_hone", "deck_block"),
    ("deck_block", "bore_oversize"),
    ("bore_oversize", "hone_torque_plate"),
    ("receive_pistons", "hone_torque_plate"),
    ("oil_hole_chamfer", "crank_grind"),
    ("crank_grind", "crank_polish_measure"),
    ("crank_polish_measure", "balance_crank"),
    ("hone_torque_plate", "ring_gap"),
    ("ring_gap", "piston_rod_build"),
    ("final_wash_block", "gallery_plugs"),
    ("first_start", "boost_mapping"),
)


@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize(("earlier", "later"), BEFORE)
def test_the_order_is_the_one_a_machinist_expects(name, earlier, later):
    step = {each["id"]: each["step"] for each in document(name)["operations"]}
    if earlier in step and later in step:
        assert step[earlier] < step[later]


def test_the_larch_route_holds_the_steps_that_its_findings_call_for():
    ids = {each["id"] for each in document("larch")["operations"]}
    assert {pair for pair in BEFORE if not set(pair) <= ids} == set()


@pytest.mark.parametrize("name", JOBS)
def test_every_edge_of_the_plan_runs_forward_with_a_reason(name):
    steps = document(name)["operations"]
    number = {each["id"]: each["step"] for each in steps}
    for each in steps:
        for earlier, reason in each["after"].items():
            assert number[earlier] < each["step"]
            assert len(reason.split()) > 2


@pytest.mark.parametrize("name", JOBS)
def test_every_work_step_carries_a_caution_and_what_happens_if_skipped(name):
    for each in document(name)["operations"]:
        assert each["if_skipped"]
        if each["class"] in ("work", "commissioning"):
            assert each.get("cautions"), each["id"]


def test_a_missing_key_is_never_a_guess():
    made = plan("larch", "teardown.bores=null", "job.stage=inspected")
    found = made.decisions["bore_oversize"]
    assert found.status == "waiting"
    assert found.value is None
    assert "bores" in [each.name.partition(" of ")[0] for each in made.missing]


def test_a_choice_from_stock_carries_the_figures_of_its_row():
    decisions = document("larch")["decisions"]
    size = decisions["bore_oversize"]["fields"]["size"]
    assert size == {"target": 86.5, "unit": "mm", "text": "86.500 mm"}
    assert decisions["pin_grade"]["fields"]["wall"]["target"] == decisions["pin_wall"]["target"]
    assert "fields" not in decisions["piston_to_wall"]
