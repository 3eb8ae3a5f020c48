"""A shop changes its figures without touching a program, and a slip is told at its line."""

from decimal import Decimal

import pytest

from planner.errors import ProblemsFound
from planner.planning.assemble import plan_job
from planner.planning.job_reader import read_job
from planner.planning.shop_data import read_shop
from planner.planning.triggers import check_shop
from planner.rulebook import load_rulebook
from tests.planning import shop as small
from tests.planning.priced import ROOT, plan, shipped


def laid_over(folder, **files):
    """Load the shipped rules with a shop's own catalogs over them."""
    for name, text in files.items():
        head = f"stock_of: {name}\nsource: invented\nrows:\n"
        (folder / f"{name}.yaml").write_text(head + text, encoding="utf-8")
    return load_rulebook([ROOT / "rules"], [ROOT / "catalogs", folder])


def test_a_shop_lays_its_own_rate_over_ours(tmp_path):
    book = laid_over(
        tmp_path, stations='  honing machine: {rate: 99.50, count: 1, limited: "yes"}\n'
    )
    own = read_shop(book)
    assert own.stations["honing machine"].rate == Decimal("99.5")
    assert own.stations["line hone"].rate == read_shop(shipped()).stations["line hone"].rate
    job = ROOT / "shared" / "jobs" / "larch.yaml"
    theirs = plan_job(read_job(job, book), book).cost
    assert Decimal(theirs.likely) > Decimal(plan("larch").cost.likely)


def test_a_shop_sets_its_own_currency_tax_and_places(tmp_path):
    book = laid_over(
        tmp_path,
        shop="  this_shop: {currency: JPY, decimals: 0, hours_per_day: 7.5 h, days_per_week: 6, "
        "people: 3, tax_share: 0, tax_on: nothing, deposit_share: 0.5, valid_days: 14, "
        "approval_over: 40000, perhaps_share: 0.4, low_share: 0.05, high_share: 0.95, "
        "common_share: 0.2, trials: 200, seed: 1}\n",
    )
    job = ROOT / "shared" / "jobs" / "larch.yaml"
    cost = plan_job(read_job(job, book), book).cost
    assert cost.currency == "JPY"
    assert "." not in cost.likely
    assert not any(line.kind == "tax" for line in cost.lines)
    assert sum(Decimal(line.high) for line in cost.lines) == Decimal(cost.high)
    assert "not compared" in cost.budget.text


@pytest.mark.parametrize(
    ("files", "message"),
    [
        (
            {"part_lines": "  shims: {each: set, with: [cam_timming]}\n"},
            "part_lines: shims names 'cam_timming'",
        ),
        (
            {"part_lines": "  shims: {each: set, with: [turbo_route=rebuild]}\n"},
            "part_lines: shims names 'rebuild'",
        ),
        (
            {"part_lines": "  shims: {each: set, must_have: [bore_oversise]}\n"},
            "part_lines: shims names 'bore_oversise'",
        ),
        (
            {"turn_rounds": "  crank_heat_treet: {days_low: 1, days_likely: 2, days_high: 3}\n"},
            "turn_rounds names 'crank_heat_treet'",
        ),
    ],
)
def test_a_name_the_rules_do_not_know_is_told_at_its_line(tmp_path, files, message):
    with pytest.raises(ProblemsFound, match=message) as caught:
        check_shop(laid_over(tmp_path, **files))
    assert caught.value.problems[0].place.line == 4


def test_a_closed_day_that_is_no_date_is_told(tmp_path):
    with pytest.raises(ProblemsFound, match="closed_days: 'Christmas' is no date"):
        read_shop(laid_over(tmp_path, closed_days='  Christmas: {says: ["year end"]}\n'))


def test_the_shipped_shop_names_nothing_unknown():
    check_shop(shipped())


def test_without_a_shop_a_plan_has_no_price():
    assert read_shop(small.rulebook()) is None
