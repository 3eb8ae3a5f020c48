"""Tables as a rule author meets them: which row answers, and what is said of faults."""

import pytest

from planner.errors import Place, Problem
from planner.rulebook import table_proof
from planner.rulebook.axes import bits
from planner.rulebook.cells import parse_cell
from planner.rulebook.columns import ChoiceColumn, NumberColumn, OutsideDeclaredRange, parse_range
from planner.rulebook.cover import Budget, volume
from planner.rulebook.hits import Hit, gather, parse_hit
from planner.rulebook.table_proof import prove
from planner.rulebook.tables import Row, Table
from planner.rulebook.values import Interval, OneOf
from planner.units.find import find_unit

FILE = "rules/rings.yaml"
TABLE_PLACE = Place(FILE, 3, 5)
BAR = find_unit("bar")
BOOST = NumberColumn(
    "boost", parse_range("[0 bar .. 4 bar]", None, unit=BAR), BAR, "gauge", "[0 bar .. 4 bar]"
)
USE = ChoiceColumn("use", ("endurance", "track", "street_track", "street"))


def table(hit, *lines):
    """Build a table of boost and use from (boost, use, result); the first row is on line 10."""
    rows = []
    for at, (boost, use, result) in enumerate(lines):
        place = Place(FILE, 10 + at, 9)
        cells = parse_cell(boost, BOOST, place), parse_cell(use, USE, place)
        assert not any(isinstance(each, Problem) for each in cells)
        rank = USE.words.index(result) if result in USE.words else 0
        rows.append(Row(cells, result, place, rank))
    return Table((BOOST, USE), rows, hit)


GAPS = (
    ("up to 0.7 bar", "any", "near stock"),
    ("over 0.7 to 1.4 bar", "street, street_track", "street boost"),
    ("over 0.7 to 1.4 bar", "track, endurance", "track boost"),
    ("over 1.4 bar", "any", "high boost"),
)


def told(proof):
    return [str(each) for each in proof.problems(TABLE_PLACE)]


def test_a_row_boundary_belongs_to_the_row_that_includes_it():
    whole = table(Hit.UNIQUE, *GAPS)
    assert whole.lookup((0.7e5, "street")) == [0]
    assert whole.lookup((0.70000001e5, "street")) == [1]
    assert whole.lookup((1.4e5, "endurance")) == [2]
    assert whole.lookup((4e5, "endurance")) == [3]


def test_a_value_that_is_off_in_the_thirteenth_digit_lands_on_the_boundary():
    whole = table(Hit.UNIQUE, *GAPS)
    assert whole.lookup((0.7e5 * (1 + 2e-15), "street")) == [0]
    assert whole.lookup((7 * 0.1e5, "street")) == [0]


def test_a_whole_table_is_proved():
    proof = prove(table(Hit.UNIQUE, *GAPS))
    assert proof.holds
    assert told(proof) == []


def test_rows_that_meet_are_told_with_the_case_they_share():
    rows = list(GAPS)
    rows[1] = ("over 0.7 to 1.5 bar", "street, street_track", "street boost")
    assert told(prove(table(Hit.UNIQUE, *rows))) == [
        f"{FILE}:13:9: error: this row and the row at line 11 both answer "
        "boost over 1.4 to 1.5 bar, use street_track or street\n"
        "  fix: under hit: unique each case has one row: cut one of the two, "
        "or write hit: first and put the special row above the general one"
    ]


def test_rows_that_meet_in_a_single_value_are_told_it():
    rows = list(GAPS)
    rows[3] = ("at least 1.4 bar", "any", "high boost")
    first, second = told(prove(table(Hit.UNIQUE, *rows)))
    assert "the row at line 11 both answer boost 1.4 bar, use street_track or street" in first
    assert "the row at line 12 both answer boost 1.4 bar, use endurance or track" in second


def test_a_missing_case_is_told_at_the_table_with_the_row_that_would_close_it():
    rows = [each for each in GAPS if each[2] != "track boost"]
    assert told(prove(table(Hit.UNIQUE, *rows))) == [
        f"{FILE}:3:5: error: no row answers boost over 0.7 to 1.4 bar, use endurance or track\n"
        "  fix: widen a row next to it, or add a row {boost: over 0.7 to 1.4 bar, "
        'use: "endurance, track", …} with its result, or with impossible: and the reason'
    ]


def test_a_single_value_left_out_between_two_rows_is_found():
    rows = list(GAPS)
    rows[0] = ("under 0.7 bar", "any", "near stock")
    [only] = told(prove(table(Hit.UNIQUE, *rows)))
    assert "no row answers boost 0.7 bar, any use" in only


def test_gaps_apart_from_each_other_are_each_told():
    rows = (("from 1 to 2 bar", "any", "a"), ("over 2 bar", "street", "b"))
    texts = told(prove(table(Hit.UNIQUE, *rows)))
    assert ["boost under 1 bar, any use" in each for each in texts] == [True, False]
    assert "boost over 2 bar, use endurance, track or street_track" in texts[1]


def test_a_table_without_rows_lacks_every_case():
    [only] = told(prove(table(Hit.UNIQUE)))
    assert "no row answers any boost, any use" in only


def test_many_pairs_that_meet_are_counted_not_all_listed():
    rows = [("any", "any", str(at)) for at in range(10)]
    texts = told(prove(table(Hit.UNIQUE, *rows)))
    assert len(texts) == table_proof.SHOWN_OVERLAPS + 1
    assert "25 more pairs of rows of this table meet" in texts[-1]


def test_under_hit_first_the_first_matching_row_answers():
    first = table(
        Hit.FIRST, ("over 2 bar", "any", "a"), ("any", "street", "b"), ("any", "any", "c")
    )
    assert first.lookup((3e5, "street")) == [0, 1, 2]
    assert first.decide((3e5, "street")) == [0]
    assert first.decide((1e5, "street")) == [1]
    assert prove(first).holds


def test_a_row_shut_out_by_the_rows_above_it_is_told():
    rows = (
        ("up to 2 bar", "any", "a"),
        ("over 2 bar", "street", "b"),
        ("from 1 to 3 bar", "street", "c"),
        ("any", "any", "d"),
    )
    assert told(prove(table(Hit.FIRST, *rows))) == [
        f"{FILE}:12:9: error: this row is never reached: the rows at lines 10 and 11 above it "
        "take all its cases\n  fix: move the row above them, or take it out"
    ]


def test_a_row_shut_out_by_one_row_names_that_one():
    rows = (("under 1 bar", "any", "a"), ("any", "any", "b"), ("over 2 bar", "street", "c"))
    [only] = told(prove(table(Hit.FIRST, *rows)))
    assert "this row is never reached: the row at line 11 above it takes all its cases" in only


def test_a_row_shut_out_by_many_names_a_few_of_them():
    rows = [(f"from {at / 2} to {at / 2 + 0.5} bar", "any", str(at)) for at in range(8)]
    [only] = told(prove(table(Hit.FIRST, *rows, ("any", "street", "last"))))
    assert "the rows at lines 10, 11, 12, 13 and 4 more above it take all its cases" in only


def test_under_hit_any_rows_that_meet_must_say_the_same():
    alike = (("up to 2 bar", "any", "good"), ("at least 1 bar", "any", "good"))
    assert prove(table(Hit.ANY, *alike)).holds
    at_odds = (alike[0], ("at least 1 bar", "any", "bad"))
    [only] = told(prove(table(Hit.ANY, *at_odds)))
    assert "the row at line 10 both answer boost from 1 to 2 bar, any use" in only
    assert "and say different things" in only
    assert "make them agree" in only


def test_under_hit_any_a_row_that_adds_nothing_is_told():
    rows = (("any", "any", "good"), ("over 2 bar", "street", "good"))
    [only] = told(prove(table(Hit.ANY, *rows)))
    assert "this row adds nothing: the row at line 10 already takes all its cases" in only


def test_under_hit_priority_the_most_careful_word_wins_wherever_its_row_stands():
    rows = (
        ("any", "any", "street"),
        ("over 1 bar", "any", "track"),
        ("over 2 bar", "track", "endurance"),
    )
    priority = table(Hit.PRIORITY, *rows)
    assert priority.decide((3e5, "track")) == [2]
    assert priority.decide((3e5, "street")) == [1]
    assert priority.decide((1e5, "street")) == [0]
    assert prove(priority).holds


def test_under_hit_priority_a_row_that_never_wins_is_told():
    rows = (("over 2 bar", "any", "street"), ("any", "any", "track"))
    [only] = told(prove(table(Hit.PRIORITY, *rows)))
    assert only.startswith(f"{FILE}:10:9: error: this row is never reached: the row at line 11")
    assert "and win over it" in only


@pytest.mark.parametrize("hit", [Hit.COLLECT, Hit.COLLECT_SUM, Hit.COLLECT_COUNT])
def test_a_table_that_collects_may_find_nothing(hit):
    collect = table(hit, ("over 2 bar", "any", "a"), ("over 3 bar", "any", "b"))
    assert collect.decide((1e5, "street")) == []
    assert collect.decide((3.5e5, "street")) == [0, 1]
    assert prove(collect).holds


@pytest.mark.parametrize("hit", [Hit.COLLECT_MIN, Hit.COLLECT_MAX])
def test_a_least_or_greatest_of_no_rows_is_a_missing_case(hit):
    proof = prove(table(hit, ("over 2 bar", "any", "a"), ("over 3 bar", "any", "b")))
    assert "no row answers boost up to 2 bar, any use" in told(proof)[0]


def test_numbers_are_gathered_as_the_hit_policy_says():
    numbers = [3.0, 1.0, 2.5]
    policies = (Hit.COLLECT_MIN, Hit.COLLECT_MAX, Hit.COLLECT_SUM, Hit.COLLECT_COUNT)
    assert [gather(each, numbers) for each in policies] == [1.0, 3.0, 6.5, 3.0]
    assert gather(Hit.COLLECT_SUM, []) == gather(Hit.COLLECT_COUNT, []) == 0.0


@pytest.mark.parametrize("hit", list(Hit))
def test_each_hit_policy_is_read_by_its_word(hit):
    assert parse_hit(hit.value, TABLE_PLACE) is hit
    assert parse_hit(f"  {hit.value.replace(' ', '   ')} ", TABLE_PLACE) is hit


@pytest.mark.parametrize(
    ("text", "offer"),
    [("uniqe", "unique"), ("collect maximum", "collect max"), ("sum", "collect sum")],
)
def test_a_misspelt_hit_policy_gets_an_offer(text, offer):
    problem = parse_hit(text, TABLE_PLACE)
    assert isinstance(problem, Problem)
    assert problem.what == f"hit is {text!r}"
    assert problem.fix.startswith(f"did you mean {offer}? allowed: unique, any, first")
    assert problem.place == TABLE_PLACE


@pytest.mark.parametrize(
    ("values", "problem"),
    [
        ((4.1e5, "street"), "boost is 4.1 bar."),
        ((-1.0, "street"), "boost is -1e-05 bar."),
        ((float("nan"), "street"), "boost is nan bar."),
        (("street", "street"), "boost is 'street'."),
        ((1e5, "drag"), "use is 'drag'."),
        ((1e5, 2.0), "use is 2.0."),
        ((Interval(3e5, 5e5), "street"), "boost is 5 bar."),
        ((OneOf(("street",)), "street"), "boost is 'street'."),
        ((1e5, Interval(1.0, 2.0)), "use is 1.0."),
    ],
)
def test_a_value_the_table_was_not_proved_for_is_refused(values, problem):
    with pytest.raises(OutsideDeclaredRange) as caught:
        table(Hit.UNIQUE, *GAPS).could_match(values)
    assert caught.value.problem == problem
    assert "The table was proved for" in caught.value.reason


def test_a_row_that_surely_applies_shuts_out_those_that_give_way_to_it():
    first = table(
        Hit.FIRST, ("over 3 bar", "any", "a"), ("over 1 bar", "any", "b"), ("any", "any", "c")
    )
    values = (Interval(2e5, 3.5e5), OneOf(("street", "track")))
    assert first.could_match(values).rows == [0, 1, 2]
    assert first.could_match(values).surely == [1, 2]
    assert first.could_decide(values) == [0, 1]
    assert first.could_decide((Interval(0.5e5, 1.5e5), "street")) == [1, 2]


def test_slots_show_where_a_value_lies_between_the_bounds_of_the_rows():
    whole = table(Hit.UNIQUE, *GAPS)
    assert [whole.slots((at, "street")) for at in (0.0, 0.3e5, 0.7e5, 1e5)] == [
        (0, 3), (1, 3), (2, 3), (3, 3),
    ]  # fmt: skip
    assert list(bits(whole.rows_at((3, 3)))) == [1]


def test_a_row_takes_up_the_points_and_gaps_its_cells_admit():
    whole = table(Hit.UNIQUE, *GAPS)  # boost: 0, gap, 0.7, gap, 1.4, gap, 4 bar
    assert [whole.volume(row) for row in range(4)] == [3 * 4, 2 * 2, 2 * 2, 2 * 4]
    assert [volume(box) for box in (*whole.sides, whole.domain)] == [12, 4, 4, 8, 7 * 4]


def test_a_table_without_columns_has_one_case():
    row = Row((), "always", Place(FILE, 10, 9))
    assert prove(Table((), (row,), Hit.UNIQUE)).holds
    assert Table((), (row,), Hit.UNIQUE).decide(()) == [0]
    assert prove(Table((), (row, row), Hit.UNIQUE)).overlaps[0].case.words == "every case"
    assert told(prove(Table((), (), Hit.UNIQUE)))[0].startswith(
        f"{FILE}:3:5: error: no row answers every case"
    )


def test_a_search_that_runs_too_long_is_given_up_and_told(monkeypatch):
    monkeypatch.setattr(table_proof, "Budget", lambda: Budget(steps=5))
    proof = prove(table(Hit.FIRST, *GAPS))
    assert proof.given_up
    assert not proof.holds
    [only] = told(proof)
    assert "the 4 rows of this table cross each other too often to be proved" in only
    assert "split the table in two decisions" in only
