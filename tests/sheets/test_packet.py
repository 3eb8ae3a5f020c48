"""The packet: nothing of the plan lost, and each reader can work from his sheet alone."""

import re
from dataclasses import replace

import pytest

from planner.models.groups import HEADLINES
from planner.sheets.boxes import check_of
from planner.sheets.packet import SHEETS, packet_of
from planner.sheets.trade_words import MEANINGS, words_in
from planner.sheets.view import Caution, Choice, Form, Picture, Points, Table, Words, as_data
from tests.sheets.packets import (
    DEMO,
    blocks,
    enquiry,
    material,
    packet,
    sheet,
    tasks,
    wide_engine,
)

BOTH = pytest.mark.parametrize("job", DEMO)


def texts(data: object) -> str:
    """Join every text of a sheet, but for drawings."""
    if isinstance(data, dict):
        return " ".join(
            texts(value) for key, value in data.items() if key not in ("light", "dark")
        )
    if isinstance(data, list):
        return " ".join(texts(each) for each in data)
    return str(data)


@BOTH
def test_a_packet_holds_a_sheet_of_each_sort_in_order(job):
    assert [each.name for each in packet(job)] == list(SHEETS)


@BOTH
def test_every_sheet_is_stamped_alike(job):
    stamps = {each.stamp for each in packet(job)}
    assert len(stamps) == 1
    stamp = stamps.pop()
    plan = material(job).plan
    assert stamp.edition == plan.stamp.rules_edition
    assert plan.stamp.rules_sha256.startswith(stamp.check_code)
    assert len(stamp.check_code) == 16
    assert re.fullmatch(r"[0-9a-f]{8}", stamp.revision)


def test_another_plan_has_another_revision():
    base = material("larch")
    other = replace(base, document=base.document + " ")
    assert base.stamp.revision != other.stamp.revision


@BOTH
def test_the_route_sheet_holds_every_operation_once_under_its_lane(job):
    plan = material(job).plan
    route = sheet("route", job)
    told = [each.number for each in tasks(route)]
    assert sorted(told) == [each.step for each in plan.operations]
    for section in route.sections:
        if section.title.startswith("Lane: "):
            numbers = [each.number for each in tasks(replace(route, sections=(section,)))]
            assert numbers == sorted(numbers)


@BOTH
def test_the_route_sheet_holds_targets_instruments_holds_and_what_stands_before(job):
    plan = material(job).plan
    by_number = {each.number: each for each in tasks(sheet("route", job))}
    for step in plan.operations:
        task = by_number[step.step]
        assert task.hold == step.hold
        assert len(task.checks) == len(step.targets)
        assert [each.instrument for each in task.checks] == [
            each.instrument for each in step.targets
        ]
        assert all(each.target for each in task.checks)
        assert all(earlier.replace("_", " ") in task.after for earlier in step.after)
        assert {each.text for each in step.cautions} >= {
            each.text.removeprefix("May apply: ") for each in task.cautions
        }


@BOTH
def test_every_check_has_a_box_and_bores_one_for_each_cylinder(job):
    found = tasks(sheet("route", job))
    assert all(check.boxes for task in found for check in task.checks)
    hone = next(each for each in found if each.title.startswith("Finish hone"))
    cylinders = [f"cylinder {each}" for each in material(job).sets["cylinder"]]
    assert [label for label, _ in hone.checks[0].boxes] == cylinders
    assert [label for label, _ in hone.checks[1].boxes] == cylinders


def test_journals_have_a_box_each_and_crack_tests_one_in_all():
    by_start = {each.title.split(",")[0]: each for each in tasks(sheet("route"))}
    grind = by_start["Grind the crank journals undersize"]
    mains = [f"main {each}" for each in material("larch").sets["main"]]
    assert [label for label, _ in grind.checks[0].boxes] == mains
    crack = by_start["Crack-test the block"]
    assert crack.checks[0].boxes == (("", ""),)


def test_where_a_step_names_its_items_only_those_have_a_box():
    step = next(each for each in material("larch").plan.operations if each.id == "line_hone")
    some = replace(step, where=("main 2", "main 3"))
    check = check_of(some.targets[0], some, material("larch").sets)
    assert [label for label, _ in check.boxes] == ["main 2", "main 3"]


def test_targets_that_differ_stand_in_the_boxes():
    bore = next(each for each in tasks(sheet("route")) if each.title.startswith("Bore the"))
    walls = next(each for each in bore.checks if each.measure.startswith("Wall left"))
    assert all(told for _, told in walls.boxes)
    assert len({told for _, told in walls.boxes}) > 1


@BOTH
def test_reasons_are_short_enough_to_read_at_the_machine(job):
    for task in tasks(sheet("route", job)):
        assert 0 < len(task.why) <= 260


@BOTH
def test_the_specification_tells_every_headline_decision_with_its_status(job):
    plan = material(job).plan
    told = {
        each.title: each.status
        for each in blocks(sheet("specification", job))
        if isinstance(each, Choice)
    }
    for name in HEADLINES:
        decision = plan.decisions[name]
        assert told[decision.title] == decision.status


@BOTH
def test_the_specification_shows_every_voice_and_mark(job):
    plan = material(job).plan
    found = {
        each.title: each
        for each in blocks(sheet("specification", job))
        if isinstance(each, Choice)
    }
    for name in HEADLINES:
        decision = plan.decisions[name]
        choice = found[decision.title]
        voices = [label for label, _ in choice.notes if label.lower().startswith("practice")]
        assert len(voices) >= sum(each.name.startswith("practice") for each in decision.evidence)
        for source in decision.sources:
            assert source.status in choice.mark


@BOTH
def test_the_customer_sees_range_options_limits_and_a_line_to_sign(job):
    customer = sheet("customer", job)
    titles = [each.title for each in customer.sections]
    assert titles[:3] == ["What we found", "What we propose, and why", "What it may cost"]
    assert {"Options", "What could change the price", "Approval", "Please know"} <= set(titles)
    cost = material(job).plan.cost
    said = texts(as_data(customer))
    for amount in (cost.low, cost.likely, cost.high):
        assert f"{float(amount):,.0f}" in said
    assert any(isinstance(each, Caution) for each in blocks(customer))


@BOTH
def test_no_trade_word_on_the_customers_sheet_goes_unexplained(job):
    customer = sheet("customer", job)
    said = texts(as_data(customer.sections))
    assert set(words_in([said])) == set(customer.words)
    assert {"bore", "piston", "ring"} <= set(customer.words)


def test_no_meaning_explains_a_word_by_itself():
    for word, meaning in MEANINGS.items():
        assert word not in meaning.split()


@BOTH
def test_the_columns_of_the_price_table_add_up(job):
    table = next(
        each for each in blocks(sheet("customer", job)) if isinstance(each, Table) and each.total
    )
    for column in (1, 2, 3):
        sums = [float(row[column].replace(",", "")) for row in table.rows]
        assert sum(sums[:-1]) == pytest.approx(sums[-1], abs=len(sums) / 2)


@BOTH
def test_conflicts_are_put_to_the_customer_with_boxes_to_tick(job):
    customer = sheet("customer", job)
    section = next(each for each in customer.sections if each.title == "What you must decide")
    assert [each.text for each in section.blocks if isinstance(each, Words)] == [
        each.text for each in material(job).plan.conflicts
    ]
    assert all(each.boxes for each in section.blocks if isinstance(each, Points))


@BOTH
def test_the_measuring_sheets_ask_every_reading_of_the_rules_somewhere(job):
    said = texts(as_data(sheet("measuring", job)))
    for each in material(job).readings:
        assert (each.ask or each.finding).rstrip("?") in said


def test_bores_are_measured_at_three_depths_in_each_cylinder():
    form = next(
        each
        for each in blocks(sheet("measuring"))
        if isinstance(each, Form) and each.title == "Bore readings"
    )
    assert len(form.rows) == 4 * 3
    assert form.rows[0] == "cylinder 1, top"
    assert form.columns[:2] == ("thrust", "crank")
    assert form.unit == "mm"


def test_each_rod_bolt_has_a_row_for_its_lengths():
    forms = [each for each in blocks(sheet("torque")) if isinstance(each, Form)]
    bolts = next(each for each in forms if each.title == "Bolt by bolt")
    assert bolts.rows[:2] == ("rod 1, bolt 1", "rod 1, bolt 2")
    assert len(bolts.rows) == 8


def test_first_start_tells_every_step_and_the_commissioning_to_sign():
    plan = material("larch").plan
    first = sheet("first-start")
    lines = [line for each in blocks(first) if isinstance(each, Points) for line in each.lines]
    assert [each.text for each in plan.run_in] == [
        line.removeprefix("May apply: ") for line in lines
    ]
    assert [each.number for each in tasks(first)] == [
        each.step for each in plan.operations if each.lane == "commissioning"
    ]


@BOTH
def test_the_operations_picture_and_its_list_hold_every_step(job):
    plan = material(job).plan
    pages = [each for each in blocks(sheet("route", job)) if isinstance(each, Picture)]
    assert all(page.page and page.listed for page in pages)
    told = [int(line.split()[0]) for page in pages for line in page.listed]
    assert told == [each.step for each in plan.operations]


def test_only_the_sheets_asked_for_are_made():
    assert [each.name for each in packet_of(material("larch"), ["route"])] == ["route"]


def test_twelve_cylinders_have_twelve_boxes_and_twelve_bore_maps():
    made = {each.name: each for each in packet_of(wide_engine())}
    lapped = next(each for each in tasks(made["route"]) if each.title.startswith("Gap each ring"))
    assert len(lapped.checks[0].boxes) == 12
    maps = next(each for each in blocks(made["specification"]) if getattr(each, "columns", 0) == 2)
    assert len(maps.items) == 12


def test_inch_sheets_measure_in_inches():
    inch = packet_of(material("larch", "inch"), ["measuring"])[0]
    form = next(
        each for each in blocks(inch) if isinstance(each, Form) and each.title == "Bore readings"
    )
    assert form.unit == "in"


def test_an_enquiry_has_its_packet_with_doubts_marked(tmp_path):
    base = enquiry(tmp_path)
    made = {each.name: each for each in packet_of(base)}
    assert base.bores == ()
    perhaps = {each.step for each in base.plan.operations if each.perhaps}
    assert perhaps
    marked = {each.number for each in tasks(made["route"]) if "perhaps: ask first" in each.marks}
    assert marked == perhaps
    unsettled = [
        each
        for each in blocks(made["specification"])
        if isinstance(each, Choice) and each.status == "provisional"
    ]
    assert unsettled
    assert all(
        {"Rests on", "Waits for"} & {label for label, _ in each.notes} for each in unsettled
    )
    section = next(
        each for each in made["customer"].sections if each.title == "What could change the price"
    )
    assert "Work that may turn out to be needed:" in texts(as_data(section))


def test_a_plan_without_a_price_or_options_still_has_a_scope_to_sign():
    base = material("larch")
    bare = replace(base, plan=replace(base.plan, cost=None, conflicts=(), findings=(), missing=()))
    (customer,) = packet_of(bare, ["customer"])
    titles = [each.title for each in customer.sections]
    assert "What it may cost" not in titles
    assert "Approval" in titles


def test_a_map_that_cannot_be_drawn_says_why():
    bare = replace(material("larch"), knock=None, no_knock="methanol is outside the model.")
    (made,) = packet_of(bare, ["specification"])
    told = [each.text for each in blocks(made) if isinstance(each, Words)]
    assert "The knock map is not drawn: methanol is outside the model." in told


def test_work_that_is_done_says_when_and_by_whom():
    base = material("larch")
    steps = tuple(replace(each, done="2027-01-12 A. Smith") for each in base.plan.operations)
    (made,) = packet_of(replace(base, plan=replace(base.plan, operations=steps)), ["route"])
    assert all("done 2027-01-12 A. Smith" in each.marks for each in tasks(made))
