"""Readings are judged by what they prove; what is not proved is never a pass."""

import re
from dataclasses import replace

import pytest

from planner.asbuilt.corrections import Route
from planner.asbuilt.fits import METALS, read_corrections, read_fits
from planner.asbuilt.verify import problems_of
from planner.errors import ProblemsFound
from planner.models.job import Done
from planner.physics.volumes_ratio import volume_ratio
from planner.rulebook.values import Names
from tests.asbuilt.bench_world import asked, judged, one
from tests.asbuilt.shop import rulebook

ROD = "rod_bearing_clearance: {{unit: mm, by: A, on: 2027-02-14, {how}, readings: {{1: {value}}}}}"


def rod(value, how="gauge: gauge_comparator"):
    return one(judged(ROD.format(value=value, how=how)), "rod_bearing_clearance", "rod 1")


# limits 0.0413 to 0.0581 mm; the comparator's guard is 1.65 x 0.0015 = 0.0025 mm


@pytest.mark.parametrize(
    ("value", "state", "inside"),
    [
        (0.0485, "pass", True),
        (0.0440, "pass", True),
        (0.0430, "indeterminate", True),
        (0.0400, "indeterminate", False),
        (0.0385, "fail", False),
        (0.0556, "pass", True),
        (0.0606, "fail", False),
    ],
)
def test_a_clearance_passes_only_inside_its_limits_by_the_guard(value, state, inside):
    found = rod(value)
    assert (found.state, found.inside_limit) == (state, inside)


def test_two_instruments_leave_less_room_than_one_gauge():
    assert rod(0.0450).state == "pass"
    assert rod(0.0450, "uncertainty: 0.0038").state == "indeterminate"


def test_a_gauge_that_can_prove_nothing_says_so_instead_of_passing():
    found = rod(0.0497, "uncertainty: 0.0052")
    assert found.state == "gauge too coarse"
    assert found.inside_limit is True


def test_the_shops_plain_verdict_stands_beside_the_proved_one():
    found = rod(0.0430)
    assert (found.inside_limit, found.verdict) == (True, "indeterminate")
    assert found.probability == pytest.approx(0.87, abs=0.01)  # (0.0430 - 0.04128) / 0.0015


def test_a_failed_reading_names_its_side():
    assert rod(0.0385).side == "under"
    assert rod(0.0606).side == "over"


def test_the_worse_of_several_readings_counts():
    assert rod("[0.0485, 0.0385]").state == "fail"
    assert rod("[0.0485, 0.0430]").state == "indeterminate"


def test_what_nobody_measured_is_missing_and_so_is_the_rest_of_the_set():
    found = judged(ROD.format(value=0.048, how="note: x"))
    assert one(found, "rod_bearing_clearance", "rod 2").state == "missing"
    assert one(found, "main_bearing_clearance", "main 1").state == "missing"


BORES = "finished_bore: {{unit: mm, by: A, on: 2027-02-10, readings: {{1: [{rows}]}}}}"


def bore(rows):
    return judged(BORES.format(rows=rows))


def test_form_and_clearance_are_worked_out_of_one_set_of_readings():
    found = bore("[86.497, 86.495], [86.496, 86.494], [86.493, 86.492]")
    assert one(found, "bore_round", "cylinder 1").low == pytest.approx(0.002)
    assert one(found, "bore_taper_honed", "cylinder 1").low == pytest.approx(0.004)
    clearance = one(found, "piston_to_wall", "cylinder 1")
    assert (clearance.low, clearance.high) == pytest.approx((0.092, 0.097))
    assert clearance.taken.worked_out == "finished_bore, piston_bare"


def test_a_form_limit_is_passed_plainly_and_the_other_verdict_is_told():
    found = one(bore("[86.497, 86.490], [86.497, 86.491]"), "bore_round", "cylinder 1")
    assert found.state == "pass"  # 0.007 inside 0.008
    assert found.verdict == "indeterminate"
    assert "by ISO 14253-1 not proved" in found.because


def test_a_form_outside_its_limit_fails_however_little():
    found = one(bore("[86.497, 86.4888], [86.497, 86.491]"), "bore_round", "cylinder 1")
    assert found.state == "fail"


def test_one_reading_makes_no_form():
    found = bore("86.497")
    assert one(found, "bore_round", "cylinder 1").state == "missing"
    assert one(found, "finished_bore", "cylinder 1").state == "pass"


def test_a_spread_waits_for_the_whole_set():
    part = "rod_bearing_clearance: {unit: mm, readings: {1: 0.048, 2: 0.049, 3: 0.046}}"
    whole = part.replace("}}", ", 4: 0.050}}")
    assert one(judged(part), "rod_clearance_spread").state == "missing"
    assert one(judged(whole), "rod_clearance_spread").low == pytest.approx(0.004)


def test_the_second_gap_is_held_over_the_top_one():
    text = (
        "top_ring_gap: {unit: mm, readings: {1: 0.52}}\n"
        "second_ring_gap: {unit: mm, readings: {1: 0.50}}"
    )
    found = one(judged(text), "second_over_top", "cylinder 1")
    assert (found.state, found.low) == ("fail", pytest.approx(-0.02))


RATIO = """
chamber_volume: {unit: cm**3, uncertainty: 0.1, readings: {1: 48.2}}
crown_poured: {unit: cm**3, uncertainty: 0.1, readings: {1: 12.7}}
deck_clearance: {unit: mm, readings: {1: 0.02}}
finished_bore: {unit: mm, readings: {1: 86.5}}
"""


def test_the_ratio_is_that_of_the_volumes_measured():
    found = one(judged(RATIO), "ratio_as_built", "cylinder 1")
    world = asked().results.world.answers
    area = 3.14159265 / 4 * 86.5e-3**2
    held = 48.2e-6 + 12.7e-6 + 0.02e-3 * area
    held += world["gasket_volume"].value() + world["crevice"].value()
    assert found.low == pytest.approx(volume_ratio(swept=area * 86e-3, clearance=held), abs=1e-4)


def test_the_ratio_is_as_sure_as_what_was_poured():
    """The change of ratio for one deviation of each reading, taken together."""
    rough = RATIO.replace("uncertainty: 0.1", "uncertainty: 0.3")
    base = one(judged(rough), "ratio_as_built", "cylinder 1")
    moved = [
        one(judged(rough.replace(old, new)), "ratio_as_built", "cylinder 1").low
        for old, new in (("{1: 48.2}", "{1: 48.5}"), ("{1: 12.7}", "{1: 13.0}"), ("0.02", "0.03"))
    ]
    together = sum((each - base.low) ** 2 for each in moved) ** 0.5
    assert float(base.taken.uncertainty) == pytest.approx(together, rel=0.02)


def test_one_part_missing_makes_no_ratio():
    text = "\n".join(line for line in RATIO.splitlines() if not line.startswith("crown"))
    assert one(judged(text), "ratio_as_built", "cylinder 1").state == "missing"


# ---------------------------------------------------------------- slips


def slips(text):
    with pytest.raises(ProblemsFound) as found:
        judged(text)
    return [f"{each.what} | {each.fix}" for each in found.value.problems]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("top_ring_gapp: {unit: mm, readings: {1: 0.48}}", "did you mean top_ring_gap"),
        ("top_ring_gap: {unit: mm, readings: {9: 0.48}}", "has cylinder 1 to 4"),
        ("top_ring_gap: {unit: mm, readings: 0.48}", "not written cylinder by cylinder"),
        ("top_ring_gap: {readings: {1: 0.48}}", "has no unit"),
        ("top_ring_gap: {unit: mm, gage: x, readings: {1: 0.48}}", "did you mean gauge"),
        ("top_ring_gap: {unit: mm, on: 14.2.2027, readings: {1: 0.48}}", "which is no date"),
        ("top_ring_gap: {unit: kg, readings: {1: 0.48}}", "0.48"),
        ("top_ring_gap: {unit: furlng, readings: {1: 0.48}}", "furlng"),
        ("top_ring_gap: {unit: mm, readings: {1: {gauge: x}}}", "holds no value"),
        ("accepted: [{fit: top_ring_gap}]", "lacks a known fit, a name or a reason"),
        ("accepted: yes", "is not a list"),
        ("just words", "is not a block of readings"),
        (
            "top_ring_gap: {unit: mm, confirmed: {on: 2027-02-01}, readings: {1: 0.48}}",
            "lacks a day, a name or a reason",
        ),
    ],
)
def test_a_slip_is_told_with_its_cure(text, told):
    assert told in slips(text)[0]


def test_all_slips_of_a_block_are_told_at_once():
    text = "top_ring_gapp: {}\ntop_ring_gap: {unit: mm, readings: {7: 0.4, 8: 0.4}}"
    assert len(slips(text)) == 3


def test_a_reading_that_is_left_open_is_missing_and_no_slip():
    text = "top_ring_gap: {unit: mm, readings: {1: unknown, 2: 0.48}}"
    found = judged(text)
    assert one(found, "top_ring_gap", "cylinder 1").state == "missing"
    assert one(found, "top_ring_gap", "cylinder 2").state == "pass"


def test_a_reading_without_day_or_name_is_asked_about():
    asked_for = [each.what for each in problems_of(judged("thrust_clearance: {value: 0.14 mm}"))]
    assert asked_for == [
        "thrust_clearance: a reading has no date; add on: to its block",
        "thrust_clearance: a reading has no name; add by: to its block",
    ]


# ---------------------------------------------------------------- signing, time, route

ACCEPT = (
    "\naccepted: [{{fit: rod_bearing_clearance, where: rod 1, by: B. Birch, on: 2027-02-15, "
    "because: {because}}}]"
)


def test_somebody_may_sign_for_what_is_inside_and_not_proved():
    text = ROD.format(value=0.043, how="note: x") + ACCEPT.format(because="oil pressure logged")
    found = one(judged(text), "rod_bearing_clearance", "rod 1")
    assert found.state == "accepted"
    assert found.because == "not proved; B. Birch accepts it: oil pressure logged"


@pytest.mark.parametrize("value", [0.0385, 0.0400])
def test_nobody_signs_away_what_is_outside(value):
    text = ROD.format(value=value, how="note: x") + ACCEPT.format(because="in a hurry")
    assert one(judged(text), "rod_bearing_clearance", "rod 1").state in ("fail", "indeterminate")


def test_work_done_after_a_reading_makes_it_out_of_date():
    text = ROD.format(value=0.048, how="note: x")
    for day, state in (("2027-02-14", "pass"), ("2027-02-15", "out of date")):
        found = judged(text, {"rod_resize": Done(day=day, by="A")})
        assert one(found, "rod_bearing_clearance", "rod 1").state == state
    later = judged(text, {"handover": Done(day="2027-03-01", by="A")})
    assert one(later, "rod_bearing_clearance", "rod 1").state == "pass"


def test_a_reading_let_stand_by_name_and_reason_holds_again():
    how = "confirmed: {on: 2027-02-16, by: A, because: bolts only slackened}"
    found = judged(ROD.format(value=0.048, how=how), {"rod_resize": Done(day="2027-02-15")})
    assert one(found, "rod_bearing_clearance", "rod 1").state == "pass"


def test_cures_come_with_the_least_metal_first():
    found = judged(ROD.format(value=0.0385, how="note: x"))
    metals = [METALS.index(each.metal) for each in found.cures]
    assert metals == sorted(metals)
    assert [each.id for each in found.cures] == [
        "thinner_shells",
        "polish_journal",
        "hone_big_end",
    ]
    assert "0.0028 mm under the low limit" in found.cures[0].amount


def test_a_cure_says_what_it_opens_again_and_what_of_it_was_done():
    done = {name: Done(day="2027-02-01", by="A") for name in ("rod_resize", "bearing_fit")}
    found = judged(ROD.format(value=0.0385, how="note: x"), done)
    hone = next(each for each in found.cures if each.id == "hone_big_end")
    assert hone.repeat_from == "rod_resize"
    assert hone.reopens_done == ("rod_resize", "bearing_fit")
    assert "dry_fit_short" in hone.reopens
    assert hone.rework.startswith("a clearance out of range")


def test_a_cure_that_does_not_suit_the_engine_is_not_offered():
    found = judged(ROD.format(value=0.0606, how="note: x"))
    assert "close_big_end" in [each.id for each in found.cures]  # Larch rods are not split
    rows = {each.id: each for each in read_corrections(rulebook())}
    assert rows["close_big_end"].only_with == ("engine.rods_fracture_split=no",)


def test_what_is_not_proved_asks_for_a_better_reading_and_for_no_metal():
    found = judged(ROD.format(value=0.0430, how="note: x"))
    assert {each.metal for each in found.cures} == {"none"}
    assert found.cures[0].reopens == ("bearing_fit",)


def test_every_fit_that_can_fail_has_a_cure_for_each_side_it_can_fail_on():
    rows = read_corrections(rulebook())
    for fit in read_fits(rulebook()).values():
        sides = {each.side for each in rows if fit.id in each.fits}
        wanted = {"both": {"under", "over"}, "at_most": {"over"}, "at_least": {"under"}}[fit.side]
        assert "either" in sides or wanted <= sides, fit.id
        assert fit.plain or "unsure" in sides, fit.id


def test_the_route_reaches_everything_after_and_everything_before():
    route = Route({"a": {}, "b": {"a": ""}, "c": {"b": ""}, "d": {}}, ("a", "b", "c", "d"), {})
    assert route.after("b") == ("b", "c")
    assert route.before("c") == ("a", "b")


def test_a_hold_point_waits_for_its_readings_and_for_the_work_before_it():
    found = {each.operation: each for each in judged("").holds}
    assert found["bearing_fit"].state == "blocked"
    assert "main_bearing_clearance main 1: missing" in found["bearing_fit"].open
    signed = judged("", {"bearing_fit": Done(day="2027-02-14", by="A")})
    hold = next(each for each in signed.holds if each.operation == "bearing_fit")
    assert hold.state == "signed but not proved"


def test_what_this_build_does_not_do_does_not_apply():
    edges = {
        name: before for name, before in asked().steps.edges.items() if name != "oil_pump_prep"
    }
    edges = {
        name: {each: why for each, why in before.items() if each != "oil_pump_prep"}
        for name, before in edges.items()
    }
    found = judged("", edges=edges)
    assert found.not_applicable == {"pump_clearance": "the plan holds no oil_pump_prep"}
    assert not found.settled


# ---------------------------------------------------------------- the catalogs


def with_row(stock, row, **values):
    book = rulebook()
    old = book.stock_rows[stock][row]
    new = replace(old, values={**old.values, **values})
    rows = {**book.stock_rows, stock: {**book.stock_rows[stock], row: new}}
    return replace(book, stock_rows=rows)


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ({"at": Names(("bearing_fitt",))}, "did you mean bearing_fit?"),
        ({"limits": Names(("main_bearing_clearence",))}, "did you mean main_bearing_clearance?"),
        ({"from": Names(("nothing_like_it",))}, "which nobody knows"),
    ],
)
def test_a_fit_that_names_what_is_not_there_is_refused(values, told):
    with pytest.raises(ProblemsFound, match=re.escape(told)):
        read_fits(with_row("fits", "main_bearing_clearance", **values))


def test_a_cure_that_names_what_is_not_there_is_refused():
    book = with_row("corrections", "thinner_shells", repeat_from=Names(("bearing_fitt",)))
    with pytest.raises(ProblemsFound, match="thinner_shells names 'bearing_fitt'"):
        read_corrections(book)
