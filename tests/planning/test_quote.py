"""Quotes of the demo jobs: they add up, they narrow, and they say what they leave out."""

from dataclasses import replace
from decimal import Decimal

import pytest

from planner.models.job import Budget
from planner.planning.budget import held_against
from planner.planning.cost_lines import RawLine
from planner.planning.cost_trials import totals
from tests.planning.priced import JOBS, enquiry, plan, shop

COLUMNS = ("low", "likely", "high")


def added(cost, column):
    return sum(Decimal(getattr(line, column)) for line in cost.lines)


@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize("column", COLUMNS)
def test_every_column_of_a_demo_quote_adds_up_to_the_cent(name, column):
    for cost in (plan(name).cost, enquiry(name).cost):
        assert added(cost, column) == Decimal(getattr(cost, column))
        assert all(Decimal(line.low).as_tuple().exponent == -2 for line in cost.lines)


@pytest.mark.parametrize(
    "changes", [(), ("goals.boost=0.6 bar",), ("goals.use=track",), ("goals.fuel=e10",)]
)
@pytest.mark.parametrize("name", JOBS)
def test_the_enquiry_range_contains_the_inspected_range(name, changes):
    before, after = enquiry(name, *changes).cost, plan(name, *changes).cost
    assert Decimal(before.low) <= Decimal(after.low)
    assert Decimal(after.high) <= Decimal(before.high)
    assert Decimal(after.high) - Decimal(after.low) < Decimal(before.high) - Decimal(before.low)


@pytest.mark.parametrize("name", JOBS)
def test_every_line_rises_and_stays_inside_its_own_band(name):
    cent = Decimal("0.01")
    tax = 1 + shop().tax_share
    for line in plan(name).cost.lines:
        low, likely, high = (Decimal(getattr(line, column)) for column in COLUMNS)
        least, _, most = (Decimal(each) for each in line.alone)
        assert low <= likely + cent
        assert likely <= high + cent
        if line.kind != "tax":
            assert least - 1 <= low * tax, line
            assert high <= most + 1, line


@pytest.mark.parametrize("name", JOBS)
def test_the_tax_line_is_the_tax_on_the_parts(name):
    cost = plan(name).cost
    for column in COLUMNS:
        parts = sum(Decimal(getattr(x, column)) for x in cost.lines if x.kind == "part")
        tax = sum(Decimal(getattr(x, column)) for x in cost.lines if x.kind == "tax")
        assert abs(parts * shop().tax_share - tax) <= Decimal("0.01")


def test_a_work_line_is_its_hours_at_the_rate_of_its_station():
    larch = plan("larch")
    step = next(each for each in larch.operations if each.id == "hone_torque_plate")
    line = next(each for each in larch.cost.lines if each.id == "hone_torque_plate")
    rate = shop().stations[step.station].rate
    assert [Decimal(each) for each in line.alone] == [
        (Decimal(str(hours)) * rate).quantize(Decimal("0.01")) for hours in step.hours
    ]


def test_a_part_line_is_its_pieces_at_the_price_of_the_row_chosen():
    larch = plan("larch")
    part = next(each for each in larch.parts if each.id == "piston_alloy")
    line = next(each for each in larch.cost.lines if each.id == "piston_alloy")
    assert part.quantity == 4
    assert Decimal(line.alone[0]) == 4 * Decimal(part.price[0])
    assert Decimal(line.alone[2]) == 4 * Decimal(part.price[1])


def test_nothing_of_a_demo_job_is_left_without_a_price():
    for name in JOBS:
        assert plan(name).cost.not_priced == ()
        assert enquiry(name).cost.not_priced == ()


def test_the_same_job_is_quoted_the_same_twice_and_another_is_numbered_otherwise():
    again = enquiry.__wrapped__("larch")
    assert again.cost == enquiry("larch").cost
    assert plan("larch").cost.quote.number != enquiry("larch").cost.quote.number


def test_another_seed_moves_the_quote_by_little():
    lines = (raw("hone", 200, 260, 400), raw("grind", 220, 300, 440), raw("wash", 70, 110, 190))
    one = totals(lines, shop())
    two = totals(lines, replace(shop(), seed=7))
    assert one != two
    assert abs(one.likely - two.likely) < one.likely * Decimal("0.02")


def raw(name, low, likely, high, counts=(1.0, 1.0, 1.0)):
    band = (Decimal(low), Decimal(likely), Decimal(high))
    return RawLine(
        kind="work", group="", id=name, what=name, cheap=band, usual=band, dear=band, counts=counts
    )


def test_one_line_alone_is_quoted_at_the_shares_of_its_own_spread():
    found = totals([raw("hone", 0, 10, 20)], replace(shop(), trials=2000, common_share=0.0))
    # A tenth of the area of a triangle over 0, 10, 20 lies below the root of 20, and a tenth
    # above its mirror image.
    assert float(found.low) == pytest.approx(20**0.5, abs=0.05)
    assert float(found.likely) == pytest.approx(10.0, abs=0.05)
    assert float(found.high) == pytest.approx(20 - 20**0.5, abs=0.05)


def test_lines_that_go_together_give_a_wider_range_than_lines_that_do_not():
    lines = [raw(str(number), 80, 100, 140) for number in range(30)]
    alone = totals(lines, replace(shop(), common_share=0.0))
    together = totals(lines, replace(shop(), common_share=0.9))
    assert together.high - together.low > 2 * (alone.high - alone.low)


def test_a_risk_that_happens_once_in_four_raises_the_high_end_only():
    sure = [raw("hone", 100, 100, 100)]
    risky = [*sure, raw("broken bolt", 400, 400, 400, counts=(0.25, 0.25, 0.25))]
    found = totals(risky, shop())
    assert (found.low, found.likely, found.high) == (Decimal(100), Decimal(100), Decimal(500))


def test_what_may_fall_away_is_in_the_high_end_and_not_in_the_low():
    found = totals([raw("grind", 300, 300, 300, counts=(0.0, 0.5, 1.0))], shop())
    assert (found.low, found.high) == (Decimal(0), Decimal(300))


def test_an_undated_quote_says_so_and_a_dated_one_ends_when_the_shop_says():
    assert "quote.date" in plan("larch").cost.quote.valid_until
    dated = plan("larch", "quote.date=2027-01-04", "quote.number=A-17").cost.quote
    assert (dated.number, dated.date, dated.valid_until) == ("A-17", "2027-01-04", "2027-02-03")


def test_the_deposit_is_the_shop_s_share_of_the_likely_total():
    cost = plan("larch").cost
    share = Decimal(cost.likely) * shop().deposit_share
    assert abs(Decimal(cost.quote.deposit) - share) <= Decimal("0.5")


def test_an_option_is_priced_apart_until_it_is_chosen():
    without, with_ = plan("larch"), plan("larch", "goals.options.vapour_hone=wanted")
    states = [
        next(each.state for each in both.cost.options if each.id == "option_vapour_hone")
        for both in (without, with_)
    ]
    assert states == ["leave", "included"]
    assert "vapour_hone_castings" not in {line.id for line in without.cost.lines}
    assert Decimal(with_.cost.likely) > Decimal(without.cost.likely)


def test_a_short_budget_gives_up_looks_first_and_never_what_keeps_it_alive():
    wishes = ("vapour_hone", "cold_treatment", "peening")
    larch = plan("larch", *(f"goals.options.{each}=wanted" for each in wishes))
    budget = larch.cost.budget
    assert budget.state == "over"
    cut = [each.id for each in budget.cut_first]
    assert cut[:3] == ["vapour_hone_castings", "cryo_treat_parts", "crank_fine_peen"]
    assert set(budget.never) == {
        "crack test",
        "measuring",
        "final wash",
        "bearing check",
        "rod bolts",
    }
    assert not set(cut) & {name for names in budget.never.values() for name in names}
    conflict = next(each for each in larch.conflicts if "cost" in each.between)
    assert "looks only" in conflict.ways_out[0]
    assert "never cut: crack test, measuring" in conflict.ways_out[-1]


@pytest.mark.parametrize(
    ("most", "state"),
    [("20000", "inside"), ("18000", "perhaps over"), ("16000", "over"), ("9000", "over")],
)
def test_a_budget_is_held_against_the_range(most, state):
    budget = Budget(low="", high=most, currency="USD")
    verdict = held_against(budget, ("14000.00", "17000.00", "19000.00"), (), shop())
    assert verdict.state == state
    if most == "9000":
        assert verdict.over_by == "8000.00"
        assert "Even the low end is 5,000.00 above it" in verdict.text


def test_a_budget_in_another_currency_is_not_compared():
    budget = Budget(low="", high="9000", currency="EUR")
    verdict = held_against(budget, ("1.00", "2.00", "3.00"), (), shop())
    assert verdict.state == "no budget"
    assert "EUR" in verdict.text


def test_a_large_extra_waits_for_a_signature():
    for each in plan("larch").cost.approvals:
        assert Decimal(each.high) > shop().approval_over
