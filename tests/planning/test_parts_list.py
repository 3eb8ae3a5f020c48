"""What is bought for the demo jobs, and when."""

import csv
from io import StringIO

import pytest

from planner.rulebook.syntax import ChooseBody
from planner.sheets.parts_text import COLUMNS, _safe, parts_csv
from tests.planning.priced import JOBS, enquiry, plan, shipped, shop


def part(the_plan, name):
    return next(each for each in the_plan.parts if each.id == name)


def test_every_stock_with_a_price_has_a_line_in_the_shop_s_list():
    book = shipped()
    for decision in book.decisions.values():
        if not isinstance(decision.body, ChooseBody):
            continue
        stock = book.stocks[decision.body.stock]
        if stock.owner is None and "price_low" in stock.fields:
            assert decision.name in shop().part_lines, decision.name


def test_every_station_and_lane_of_an_operation_is_the_shop_s():
    for operation in shipped().operations.values():
        assert operation.station in shop().stations, operation.station
        assert operation.lane in shop().lanes, operation.lane


def test_a_step_that_leaves_the_shop_has_its_days_and_its_price():
    for operation in shipped().operations.values():
        if operation.station == "outside service":
            assert shop().turn_rounds[operation.name].price is not None, operation.name


@pytest.mark.parametrize("name", JOBS)
def test_before_the_engine_is_apart_nothing_is_ordered(name):
    assert {each.order for each in enquiry(name).parts} == {"hold"}
    assert "crack test before money" in part(enquiry(name), "piston_alloy").because


def test_pistons_go_out_with_everything_the_maker_must_know():
    pistons = part(plan("larch"), "piston_alloy")
    assert pistons.order == "now"
    assert pistons.quantity == 4
    assert pistons.must_have["bore_oversize"] == "86.50"
    for name in ("crown_volume", "compression_height_order", "pin_clearance_boss"):
        assert pistons.must_have[name]
    assert pistons.ordered_at == "order_pistons"
    assert pistons.needed_at == ("receive_pistons",)


def test_only_the_guides_and_seats_called_for_are_bought():
    larch = plan("larch")
    assert part(larch, "valve_guide").quantity == 8
    assert part(larch, "valve_seat").quantity == 2
    assert part(enquiry("larch"), "valve_guide").quantity_low == 0


def test_a_part_that_rests_on_a_missing_reading_is_held_and_says_on_what():
    thread = plan("larch", "teardown.main_journals=null")
    shells = part(thread, "bearing_material")
    assert shells.order == "hold"
    assert "main journals" in shells.because


def test_parts_that_have_come_are_in_hand():
    sizes = "{unit: mm, gauge_point: {1: 86.412, 2: 86.411, 3: 86.413, 4: 86.412}}"
    larch = plan("larch", f"parts_in_hand.pistons={sizes}", "job.stage=released")
    assert part(larch, "piston_alloy").order == "in hand"


def test_the_buyer_s_table_reads_back():
    larch = plan("larch")
    rows = list(csv.DictReader(StringIO(parts_csv(larch), newline="")))
    assert tuple(rows[0]) == COLUMNS
    assert [row["id"] for row in rows] == [each.id for each in larch.parts]
    assert rows[0]["part"] == "pistons"
    assert rows[0]["currency"] == "USD"


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-0.25", "@x"])
def test_a_cell_that_a_spreadsheet_would_run_is_marked_as_text(cell):
    assert _safe(cell) == f"'{cell}"
