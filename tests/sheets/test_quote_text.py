"""Quote, schedule, parts, torque sheet and first start as a person reads them."""

import re
from decimal import Decimal

import pytest

from planner.sheets.layout import WIDTH
from planner.sheets.plan_text import plan_text
from tests.planning.priced import JOBS, enquiry, plan

SUMS = re.compile(r"(-?[\d,]+\.\d\d)\s+(-?[\d,]+\.\d\d)\s+(-?[\d,]+\.\d\d)$")
SECTIONS = ("parts", "cost", "schedule", "torque", "start")


def told(name, section, audience="builder", *changes):
    return plan_text(plan(name, *changes), audience=audience, only=[section])


def sums(text):
    found = [SUMS.search(line) for line in text.splitlines()]
    return [[Decimal(sum_.replace(",", "")) for sum_ in row.groups()] for row in found if row]


@pytest.mark.parametrize("audience", ["builder", "customer"])
@pytest.mark.parametrize("name", JOBS)
def test_the_printed_columns_add_up_to_the_printed_total(name, audience):
    *lines, total = sums(told(name, "cost", audience))
    assert [sum(column) for column in zip(*lines, strict=True)] == total


@pytest.mark.parametrize("section", SECTIONS)
@pytest.mark.parametrize("name", JOBS)
def test_nothing_runs_off_the_page(name, section):
    for audience in ("builder", "machinist", "customer"):
        text = told(name, section, audience)
        assert all(len(line) <= WIDTH for line in text.splitlines())


def test_the_customer_reads_a_line_for_each_lane_and_where_to_sign():
    text = told("larch", "cost", "customer")
    assert "Work: block" in text
    assert "hone torque plate" not in text
    assert "Agreed: ____" in text
    assert "Not in the price:" in text
    assert "seed 20270104" in text


def test_the_builder_reads_hours_and_rate_of_each_step():
    text = told("larch", "cost")
    assert "hone torque plate" in text
    assert "3 to 6 h, usually 4 h, 66 for 1 h" in text


def test_the_machinist_reads_no_prices():
    assert "Quote" not in told("larch", "cost", "machinist").title()


def test_an_enquiry_marks_what_is_only_perhaps_needed():
    text = plan_text(enquiry("larch"), only=["cost"])
    assert "crank grind?" in text


def test_the_schedule_tells_range_chain_starts_and_waits():
    text = told("larch", "schedule")
    assert "working days, usually" in text
    assert "Longest chain: 1 goal interview > 2 running tests" in text
    assert "Can start now: 1 goal interview" in text
    assert "part: pistons, to be ordered at" in text
    assert "day 1" in text


def test_dates_are_printed_when_the_start_is_known():
    text = told("larch", "schedule", "builder", "quote.start=2027-01-04")
    assert "Start   2027-01-04" in text
    assert "as a rule" in text


def test_a_blocked_fastener_stands_in_a_frame():
    text = told("larch", "torque", "machinist")
    assert "-- BLOCKED ---" in text
    assert "torque_sheet.rod_bolts holds it" in text
    assert "TORQUE" not in told("larch", "torque", "customer")


def test_the_parts_say_now_or_hold_with_the_reason():
    text = told("larch", "parts")
    assert "ORDER NOW  4 x pistons: forged_2618" in text
    assert "must have: bore oversize 86.50" in text
    held = plan_text(enquiry("larch"), only=["parts"])
    assert "HOLD  4 x pistons" in held
    assert "ORDER NOW" not in held


def test_first_start_carries_its_warnings():
    text = told("larch", "start", "customer")
    assert "WARNING:" in text
    assert "First drive" in text
