"""The plan document: what the contract asks for, filled from the rules' answers."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.errors import BorewrightError
from planner.models.amount import Amount
from planner.models.document import plan_schema, read_plan, to_plain
from planner.models.plan import Finding
from planner.planning.assemble import explainer, plan_job
from planner.planning.stages import stage_of
from planner.sheets.plan_json import plan_json
from planner.sheets.plan_text import plan_text
from tests.planning.shop import read, rulebook


def plan(*settings, units=None):
    return plan_job(read(*settings), rulebook(), units)


def document(*settings):
    return json.loads(plan_json(plan(*settings)))


def test_a_chosen_row_comes_with_what_it_was_chosen_over():
    found = document()["decisions"]["bore_oversize"]
    assert found["value"] == "86.25"
    assert found["status"] == "firm"
    assert found["also_fit"] == ["86.50"]
    rejected = document("teardown.bores.readings.1=[[86.171, 86.046], [86.042, 86.031]]")
    row = rejected["decisions"]["bore_oversize"]["rejected"][0]
    assert row == {
        "choice": "86.25",
        "failed": "cleans the worst bore",
        "why": "86.250 mm < 86.271 mm",
    }


def test_a_band_is_written_in_its_unit_unrounded():
    found = document()["decisions"]["piston_to_wall"]
    assert (found["low"], found["target"], found["high"]) == (0.08, 0.09, 0.1)
    assert found["unit"] == "mm"


def test_items_have_their_own_values():
    per = document()["decisions"]["wall_left"]["per"]["cylinder"]
    assert per["1"]["target"] == pytest.approx(5.975)
    assert per["2"]["text"] == "5.48 mm"


def test_every_voice_is_evidence_and_one_governs():
    evidence = document()["decisions"]["piston_to_wall"]["evidence"]
    assert [(each["kind"], each["governs"]) for each in evidence] == [
        ("practice", True),
        ("physics", False),
    ]
    assert evidence[1]["target"] == 0.096


def test_a_given_value_governs_and_the_rules_stand_beside_it():
    found = document("given={piston_to_wall: {low: 0.085 mm, high: 0.095 mm, from: drawing}}")
    decision = found["decisions"]["piston_to_wall"]
    assert decision["given"]
    assert decision["status"] == "firm"
    assert decision["evidence"][0]["kind"] == "given"
    assert decision["evidence"][0]["name"] == "drawing"
    assert [each["governs"] for each in decision["evidence"]] == [True, False, False]


def test_a_given_value_far_off_is_a_question():
    found = document("given={piston_to_wall: {low: 0.2 mm, high: 0.21 mm, from: drawing}}")
    assert any("please confirm" in each["text"] for each in found["questions"])


def test_each_decision_names_its_rule_place_and_mark():
    for name, found in document()["decisions"].items():
        assert found["rule"] == name
        assert found["at"].startswith("rules/rules.yaml:")
        assert found["sources"][0]["status"] in ("common practice", "from memory", "derived")


def test_what_was_read_is_told_and_readings_are_pointed_to():
    decisions = document()["decisions"]
    assert decisions["compression_ratio"]["inputs"] == {"boost": "1.1 bar gauge", "use": "street"}
    assert decisions["bore_worn"]["inputs"] == {"bores": "as measured (teardown.bores)"}


def test_a_missing_reading_is_listed_with_its_instrument_and_what_it_blocks():
    found = document("teardown.bores.readings=null")
    missing = {each["name"]: each for each in found["missing"]}
    assert missing["bores"]["how"] == "dial bore gauge"
    assert "bore_oversize" in missing["bores"]["blocks"]
    assert missing["bores"]["due"]
    assert found["decisions"]["bore_oversize"]["status"] == "waiting"
    assert "target" not in found["decisions"]["size_needed"]


def test_findings_are_what_was_seen_and_what_was_measured():
    found = document()["findings"]
    assert found[0] == {
        "id": "cap_fretting",
        "title": "Fretting on the caps",
        "where": "main 2",
        "evidence": "heavy: brown patches",
    }
    measured = {(each["where"], each["severity"]) for each in found[1:]}
    assert measured == {("exhaust valve 2", "watch"), ("exhaust valve 3", "replace")}


def test_a_cause_is_told_with_what_speaks_for_and_against_it():
    assert document()["diagnosis"] == [
        {
            "cause": "A cylinder that ran hot, cylinder 2",
            "confidence": "likely",
            "for": ["a guide of it is worn (exhaust valve 3)", "its bore is scored"],
            "then": "Prove the injector of cylinder 2.",
        }
    ]
    against = document("goals.use=track")["diagnosis"][0]
    assert against["confidence"] == "possible"
    assert against["against"] == ["the car sees a track"]


def test_a_cause_that_hangs_on_a_reading_says_what_was_not_looked_at():
    (found,) = document("teardown.guides=null")["diagnosis"]
    assert found["confidence"] == "possible"
    assert found["for"] == ["not looked at yet: a guide of it is worn", "its bore is scored"]


def test_operations_are_in_order_with_reasons_targets_and_holds():
    steps = document()["operations"]
    assert [each["id"] for each in steps] == [
        "crack_test",
        "line_hone",
        "bore",
        "receive_pistons",
        "hone",
    ]
    assert steps[1]["where"] == ["main 2"]
    assert steps[2]["after"]["line_hone"] == "bores are set from the crank line"
    assert steps[2]["targets"][0]["per"] == {"cylinder 1": "5.98 mm", "cylinder 2": "5.48 mm"}
    assert steps[4]["targets"][0]["high"] == 0.1
    assert steps[4]["hold"] == "a second person signs"
    assert steps[0]["hours"] == [1, 2, 3]


def test_an_operation_nothing_calls_is_not_in_the_plan():
    steps = document("teardown.findings=[]")["operations"]
    assert "line_hone" not in [each["id"] for each in steps]
    bore = next(each for each in steps if each["id"] == "bore")
    assert list(bore["after"]) == ["crack_test"]


def test_an_operation_that_may_be_called_is_perhaps_in_the_plan():
    steps = document("teardown.findings=null")["operations"]
    assert [each["perhaps"] for each in steps if each["id"] == "line_hone"] == [True]


def test_work_done_lets_the_next_start_and_closes_its_hold():
    before = document()["schedule"]
    assert before["can_start_now"] == ["crack_test", "receive_pistons"]
    after = document("progress={crack_test: {done: 2027-01-12, by: me}}")
    assert after["schedule"]["can_start_now"] == ["line_hone", "receive_pistons"]
    assert after["schedule"]["hold_points"] == ["hone"]
    assert after["operations"][0]["done"] == "2027-01-12 me"


def test_work_done_out_of_turn_or_unsigned_is_a_question():
    found = document("progress={hone: {done: 2027-01-12}}")
    texts = [each["text"] for each in found["questions"]]
    assert any("bore before it is not" in text for text in texts)
    assert any("who signed?" in text for text in texts)


def test_every_plan_ends_with_the_standing_cautions():
    cautions = document()["cautions"]
    texts = " ".join(each["text"] for each in cautions)
    for word in (
        "part maker",
        "local law",
        "Crack test before money",
        "Lifting",
        "Rotating",
        "caustic",
        "ultraviolet",
        "beryllium copper",
        "Compressed air",
        "Fuel",
        "Ethanol",
        "detonation",
        "flywheel",
        "Emissions",
    ):
        assert word.lower() in texts.lower(), word


def test_a_boost_read_as_gauge_is_said_on_the_plan():
    assert any(
        "read as gauge" in each["text"] for each in document("goals.boost=1 bar")["questions"]
    )


def test_the_document_fits_its_schema_and_reads_back_the_same():
    made = plan("given={piston_to_wall: {low: 0.085 mm, high: 0.095 mm, from: drawing}}")
    plain = json.loads(plan_json(made))
    assert json.loads(plan_json(read_plan(plain))) == plain
    keys = set(plan_schema()["properties"])
    assert set(plain) <= keys


def test_the_schema_names_keys_as_the_document_spells_them():
    definitions = plan_schema()["$defs"]
    assert "class" in definitions["Part"]["properties"]
    assert "for" in definitions["Cause"]["properties"]


def test_the_same_job_gives_the_same_bytes_twice():
    assert plan_json(plan()) == plan_json(plan())
    assert plan_text(plan()) == plan_text(plan())


THOUSANDTHS = st.integers(0, 480)
INCH = 25.4
PSI = 6894.757293168361


def lengths(unit, worn, walls, guides):
    """Write the same readings in millimetres or in inches, to the digits a float holds."""
    size = INCH if unit == "in" else 1.0
    bores = {
        item: [[repr((86.0 + each / 1000) / size) for each in row] for row in rows]
        for item, rows in worn.items()
    }
    text = str(bores).replace("'", "")
    return (
        f"teardown.bores={{unit: {unit}, readings: {text}, "
        f"wall: {{1: {walls[0] / size!r}, 2: {walls[1] / size!r}}}}}",
        f"teardown.guides={{unit: {unit}, exhaust: {[each / 1000 / size for each in guides]}}}",
        f"teardown.deck={{unit: {unit}, flatness: {0.06 / size!r}}}",
        "goals.boost=" + (f"{110000 / PSI!r} psi gauge" if unit == "in" else "1.1 bar gauge"),
    )


@settings(max_examples=40, deadline=None)
@given(
    worn=st.fixed_dictionaries(
        {
            item: st.lists(st.lists(THOUSANDTHS, min_size=2, max_size=2), min_size=2, max_size=2)
            for item in (1, 2)
        }
    ),
    walls=st.tuples(st.sampled_from([4.0, 5.3, 6.1]), st.sampled_from([4.9, 5.6])),
    guides=st.lists(st.sampled_from([40, 60, 61, 80, 81, 133]), min_size=4, max_size=4),
)
def test_a_job_in_inches_gives_the_same_plan(worn, walls, guides):
    metric = document(*lengths("mm", worn, walls, guides))
    imperial = document(*lengths("in", worn, walls, guides))
    for found in (metric, imperial):
        for question in found["questions"]:
            question.pop("at", None)  # the same reading stands in another column
    assert imperial == metric


def test_inch_sheets_print_inches_and_the_document_keeps_its_units():
    text = plan_text(plan(units="inch"))
    assert "3.2 to 3.9 thou" in text
    assert plan(units="inch").decisions["piston_to_wall"].target == 0.09


def test_nothing_empty_is_written_and_zero_is():
    assert to_plain(plan().job).keys() == {
        "name",
        "engine",
        "stage",
        "stage_because",
        "units",
    }
    assert to_plain(Finding(id="x", severity=None)) == {"id": "x"}
    assert to_plain(Amount(target=0.0, unit="mm")) == {"target": 0.0, "unit": "mm"}


@pytest.mark.parametrize(
    ("held", "blocks", "stage"),
    [
        (None, set(), "enquiry"),
        (None, {"teardown"}, "inspected"),
        (None, {"teardown", "parts_in_hand"}, "released"),
        (None, {"teardown", "parts_in_hand", "as_built"}, "built"),
        (None, {"parts_in_hand"}, "enquiry"),
        ("enquiry", {"teardown"}, "enquiry"),
        ("built", {"teardown"}, "inspected"),
    ],
)
def test_the_stage_is_as_far_as_the_data_allow_and_only_ever_held_back(held, blocks, stage):
    assert stage_of(held, blocks)[0] == stage


def test_why_before_gives_the_reasons_in_either_direction():
    asked = explainer(read(), rulebook())
    told = asked.before("line_hone", "hone")
    assert told[0] == "line_hone stands before hone:"
    assert "bores are set from the crank line" in told[1]
    assert asked.before("hone", "line_hone")[0].startswith("It is the other way round")
    assert "may run side by side" in asked.before("receive_pistons", "bore")[0]


def test_why_of_an_operation_outside_the_plan_says_so():
    asked = explainer(read("teardown.findings=[]"), rulebook())
    assert asked.before("line_hone", "hone") == ["line_hone is not in this plan."]


def test_why_of_a_name_nobody_knows_offers_the_nearest():
    asked = explainer(read(), rulebook())
    with pytest.raises(BorewrightError, match="no decision") as error:
        asked.decision("piston_to_wal", "metric", deep=False)
    assert "Did you mean piston_to_wall?" in str(error.value)
