"""Practice, physics and a given value stand side by side, and the plan says which governs."""

import pytest

from planner.physics import find_formula
from planner.planning.assemble import plan_job
from planner.planning.job_reader import read_job
from planner.units import parse_quantity
from tests.rules.demo_builds import ROOT, build, shipped

WEIGHED = {
    "piston_to_wall": "{low: 0.085 mm, high: 0.095 mm, from: piston drawing}",
    "top_ring_gap": "{low: 0.45 mm, high: 0.55 mm, from: ring sheet}",
    "pin_wall": "{value: 5.5 mm, from: pin maker}",
    "main_bearing_clearance": "{low: 0.05 mm, high: 0.06 mm, from: shell maker}",
    "rod_bearing_clearance": "{low: 0.05 mm, high: 0.06 mm, from: shell maker}",
    "rod_bolt_preload": "{value: 40 kN, from: bolt sheet}",
    "clamp_margin": "{value: 2.6, from: stud maker}",
}


def planned(job, *settings):
    rulebook = shipped()
    reading = read_job(ROOT / "shared/jobs" / f"{job}.yaml", rulebook, settings)
    return plan_job(reading, rulebook)


@pytest.mark.parametrize("job", ["larch", "sorrel"])
@pytest.mark.parametrize("name", WEIGHED)
def test_practice_and_physics_are_both_heard_and_one_governs(job, name):
    evidence = planned(job).decisions[name].evidence
    assert {"practice", "physics"} <= {each.kind for each in evidence}
    assert any(each.governs for each in evidence)
    assert all(each.source for each in evidence)


@pytest.mark.parametrize("name", WEIGHED)
def test_a_given_value_wins_and_the_rules_own_voices_stay(name):
    decision = planned("larch", f"given.{name}={WEIGHED[name]}").decisions[name]
    assert decision.given
    kinds = [each.kind for each in decision.evidence]
    assert {"practice", "physics", "given"} <= set(kinds)
    (given,) = [each for each in decision.evidence if each.kind == "given"]
    assert given.governs


@pytest.mark.parametrize("name", WEIGHED)
def test_the_builder_is_told_why(name):
    told = planned("larch").decisions[name].because["builder"]
    assert len(told) > 60


def test_physics_outside_its_range_is_refused_by_name_and_practice_answers():
    # 900 kW on these pistons is 3.9 kW/cm2, over twice what the heat factor was fitted to.
    decision = planned("larch", "goals.power=900 kW").decisions["piston_to_wall"]
    refused = [each for each in decision.evidence if each.refused]
    assert {each.kind for each in refused} == {"physics"}
    assert "3.87343 kW/cm2, outside 0.3 to 1.7 kW/cm2" in refused[0].refused
    assert [each.kind for each in decision.evidence if each.governs] == ["practice"]


def test_without_the_plate_it_needs_a_boosted_engine_gets_no_clearance():
    outcome = build("larch", "goals.torque_plate=no").outcomes["piston_to_wall"]
    (entry,) = outcome.answers["piston_to_wall"].entries.values()
    assert entry.value is None
    assert "need a torque plate" in entry.refused


def test_the_oils_in_stock_keep_to_the_grade_table():
    for name, row in shipped().stock_rows["oils"].items():
        grade = find_formula("sae_hot_grade").function(
            grade=row.values["hot"], winter=row.values["winter"]
        )
        assert row.values["hot_strength"] == pytest.approx(grade["high_shear_150"]), name
        assert row.values["thinnest_hot"] == pytest.approx(grade["viscosity_100_low"]), name
        assert row.values["thickest_hot"] == pytest.approx(grade["viscosity_100_high"]), name


def test_low_tension_means_under_the_limit():
    limit = parse_quantity("10 N").si
    for name, row in shipped().stock_rows["ring_packs"].items():
        assert (row.values["top_tension"] < limit) == (row.values["tension"] == "low"), name
