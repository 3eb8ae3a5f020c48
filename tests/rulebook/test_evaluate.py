# ruff: noqa: E501 - rules stand as an author writes them, one to a line
"""What a rulebook answers on a job: forms, bands, items, stock, voices, given and waiting."""

import pytest

from planner.rulebook.explain import why
from planner.rulebook.values import Band, Names, Status
from tests.rulebook.books import facts, run

MM = '{unit: mm, range: "[0 mm .. 200 mm]"}'
BAND = '{unit: mm, form: band, range: "[0 mm .. 200 mm]"}'


def answer(results, name, key=()):
    decision, _ = results.rulebook.results[name]
    return results.outcomes[decision].answers[name].entries[key]


def decisions(*blocks):
    return "decisions:\n" + "".join(blocks)


def compute(name, formula, gives=MM, per=""):
    per = f", per: {per}" if per else ""
    return f"  {name}: {{means: x, gives: {gives}{per}, compute: {formula!r}, source: derived}}\n"


def value(name, text, gives=MM):
    return f"  {name}: {{means: x, gives: {gives}, value: {text}, source: practice}}\n"


def test_a_formula_is_plain_arithmetic_in_si(tmp_path):
    results = run(tmp_path, decisions(compute("x", "2 * engine.stroke / 4 + '1 mm' - 0 * '1 mm'")))
    assert answer(results, "x").value == pytest.approx(0.044)
    assert answer(results, "x").status is Status.FIRM


def test_a_band_times_a_number_is_done_part_by_part(tmp_path):
    rules = decisions(
        value("k", "0.001 / 0.002 / 0.003 mm/mm", '{unit: mm/mm, form: band, range: "[0 .. 1]"}'),
        compute("gap", "k * engine.bore", BAND),
    )
    assert answer(run(tmp_path, rules), "gap").value == Band(
        pytest.approx(0.086e-3), pytest.approx(0.258e-3), pytest.approx(0.172e-3)
    )


@pytest.mark.parametrize("formula", ["engine.stroke - gap", "-gap", "'1 mm' * '1 mm' / gap"])
def test_a_band_that_need_not_rise_is_refused(tmp_path, formula):
    from tests.rulebook.books import problems

    rules = decisions(value("gap", "0.1 / 0.2 / 0.3 mm", BAND), compute("x", formula, BAND))
    assert any(
        "write low:, target: and high: yourself" in each for each in problems(tmp_path, rules)
    )


def test_parts_written_out_must_rise(tmp_path):
    rules = decisions(
        f"  x:\n    means: x\n    gives: {BAND}\n    compute: {{low: engine.stroke, "
        "target: engine.stroke / 2, high: engine.stroke * 2}\n    source: derived\n"
    )
    found = answer(run(tmp_path, rules), "x")
    assert found.status is Status.REFUSED
    assert "does not rise" in found.refused


GUIDES = {("1",): 0.03e-3, ("2",): 0.05e-3, ("3",): 0.09e-3, ("4",): 0.04e-3}


def test_reductions_name_the_set_they_keep(tmp_path):
    rules = decisions(
        compute("worst", "largest(guide)"),
        compute("each", "largest(guide, cylinder)", per="cylinder"),
        compute("apart", "spread(guide)"),
    )
    results = run(tmp_path, rules, facts({"guide": GUIDES}))
    assert answer(results, "worst").value == pytest.approx(0.09e-3)
    assert [answer(results, "each", (c,)).value for c in "12"] == pytest.approx([5e-5, 9e-5])
    assert answer(results, "apart").value == pytest.approx(0.06e-3)


def test_an_items_owner_is_found_for_it(tmp_path):
    rules = decisions(compute("sum", "guide + score", per="valve"))
    scores = {("1",): 0.0, ("2",): 0.04e-3}
    results = run(tmp_path, rules, facts({"guide": GUIDES, "score": scores}))
    assert answer(results, "sum", ("2",)).value == pytest.approx(0.05e-3)
    assert answer(results, "sum", ("3",)).value == pytest.approx(0.13e-3)


def test_a_grid_is_reduced_within_its_item(tmp_path):
    grids = {("1",): ((0.0861, 0.08605), (0.0860, 0.0860)), ("2",): ((0.0862, 0.0861),)}
    rules = decisions(
        compute(
            "top",
            "largest(bores)",
            '{unit: mm, kind: diameter, range: "[0 mm .. 200 mm]"}',
            per="cylinder",
        ),
        compute(
            "worst",
            "largest(largest(bores))",
            '{unit: mm, kind: diameter, range: "[0 mm .. 200 mm]"}',
        ),
    )
    results = run(tmp_path, rules, facts({"bores": grids}))
    assert answer(results, "top", ("1",)).value == 0.0861
    assert answer(results, "worst").value == 0.0862


USES = """  rule:
    means: x
    gives: {unit: mm, range: "[0 mm .. 9 mm]"}
    table:
      columns: [use, boost]
      rows:
        - {use: street, boost: up to 1 bar, rule: 4 mm}
        - {use: street, boost: over 1 bar, rule: 5 mm}
        - {use: track, boost: up to 3 bar, rule: 6 mm, source: recalled}
        - {use: track, boost: over 3 bar, impossible: no rule above 3 bar; ask the maker}
    source: practice
"""


@pytest.mark.parametrize(
    ("use", "boost", "expected"),
    [("street", 1e5, 4e-3), ("street", 1.0001e5, 5e-3), ("track", 0.0, 6e-3)],
)
def test_a_table_answers_by_its_row(tmp_path, use, boost, expected):
    results = run(tmp_path, decisions(USES), facts({"use": use, "boost": boost}))
    assert answer(results, "rule").value == pytest.approx(expected)


def test_an_impossible_row_refuses_with_its_words(tmp_path):
    results = run(tmp_path, decisions(USES), facts({"use": "track", "boost": 3.5e5}))
    assert answer(results, "rule").refused == "no rule above 3 bar; ask the maker"


def test_a_missing_input_makes_its_readers_wait_and_is_listed(tmp_path):
    results = run(tmp_path, decisions(USES, compute("y", "rule * 2")), facts({"use": "street"}))
    assert answer(results, "y").status is Status.WAITING
    missing = {each.name: each for each in results.missing}
    assert missing["boost"].blocks == ("rule", "y")
    assert missing["boost"].due


def test_an_assumed_value_makes_only_its_readers_provisional(tmp_path):
    rules = decisions(
        compute(
            "fast",
            "speed * 1",
            '{unit: rpm, kind: speed of rotation, range: "[0 rpm .. 20000 rpm]"}',
        ),
        compute("still", "engine.stroke"),
    )
    results = run(tmp_path, rules)
    assert answer(results, "fast").status is Status.PROVISIONAL
    assert answer(results, "still").status is Status.FIRM
    assert results.assumptions == (("speed", "6500 rpm", "usual for a road car"),)


SIZES = """  size:
    means: One oversize
    choose:
      from: sizes
      needs:
        cleans the worst bore: sizes.size >= worst + '0.10 mm'
        leaves enough wall: "'6 mm' - (sizes.size - engine.bore) / 2 >= '5.4 mm'"
      prefer: [least sizes.size]
      none: no stocked size cleans it; sleeve it
    source: practice
"""
DIAMETER = '{unit: mm, kind: diameter, range: "[0 mm .. 200 mm]"}'


def test_a_choice_keeps_what_it_rejected_with_numbers(tmp_path):
    results = run(tmp_path, decisions(value("worst", "86.332 mm", DIAMETER), SIZES))
    assert answer(results, "size").value == "86.50"
    trace = results.outcomes["size"].traces[()]
    assert [(r.choice, r.failed, r.why) for r in trace.rejected] == [
        ("86.25", "cleans the worst bore", "86.250 mm < 86.432 mm")
    ]
    assert trace.passed == ("87.00",)
    lines = why(results, "size")
    assert any("fails 'cleans the worst bore' (86.250 mm < 86.432 mm)" in line for line in lines)
    assert any("87.00: passes, not preferred" in line for line in lines)


def test_no_row_passing_is_told_in_the_rules_words(tmp_path):
    results = run(tmp_path, decisions(value("worst", "87.5 mm", DIAMETER), SIZES))
    assert answer(results, "size").refused == "no stocked size cleans it; sleeve it"


def test_a_comparison_prints_digits_enough_to_show_its_truth(tmp_path):
    results = run(tmp_path, decisions(value("worst", "86.15000001 mm", DIAMETER), SIZES))
    (rejected,) = results.outcomes["size"].traces[()].rejected
    assert rejected.why == "86.25 mm < 86.25000001 mm"


def test_fields_of_the_chosen_row_follow(tmp_path):
    rules = decisions(
        value("worst", "86.332 mm", DIAMETER), SIZES, compute("b", "size.size * 1", DIAMETER)
    )
    assert answer(run(tmp_path, rules), "b").value == 0.0865


def test_a_refusal_that_all_rows_share_is_passed_on(tmp_path):
    rules = decisions(USES, SIZES.replace("worst + '0.10 mm'", "engine.bore + rule"))
    results = run(tmp_path, rules, facts({"use": "track", "boost": 3.5e5}))
    assert answer(results, "size").refused == "no rule above 3 bar; ask the maker"


def weigh(governs, extra=""):
    return (
        value("ours", "4 / 5 / 6 mm", BAND)
        + value("theirs", "3 / 5.5 / 7 mm", BAND)
        + f"  w:\n    means: x\n    gives: {BAND}\n    weigh: {{says: {{our practice: ours, "
        f"their physics: theirs}}, governs: {governs}{extra}}}\n    source: practice\n"
    )


@pytest.mark.parametrize(
    ("governs", "expected"),
    [
        ("first", (4, 5, 6)),
        ("their physics", (3, 5.5, 7)),
        ("larger", (4, 5.5, 7)),
        ("smaller", (3, 5, 6)),
    ],
)
def test_the_governing_voice_answers(tmp_path, governs, expected):
    found = answer(run(tmp_path, decisions(weigh(governs))), "w").value
    assert found.parts() == pytest.approx([each / 1e3 for each in expected])


def test_voices_far_apart_become_a_conflict(tmp_path):
    results = run(tmp_path, decisions(weigh("first", ", question_over: 5 %")))
    (conflict,) = results.outcomes["w"].conflicts
    assert "our practice says" in conflict.text
    assert "our practice governs" in conflict.text


FLOOR = (
    value("ours", "4 mm")
    + "  floor:\n    means: x\n    gives: "
    + MM
    + "\n    weigh: {says: {engine maker: engine.wall_floor, practice: ours}, "
    "governs: engine maker else practice, ask_if: engine maker is smaller}\n    source: practice\n"
)


def test_an_optional_voice_speaks_only_when_stated(tmp_path):
    assert answer(run(tmp_path, decisions(FLOOR)), "floor").value == pytest.approx(4e-3)
    stated = facts(record={"wall_floor": 3e-3})
    results = run(tmp_path, decisions(FLOOR), stated)
    assert answer(results, "floor").value == pytest.approx(3e-3)
    assert "smaller than ours" in results.outcomes["floor"].questions[0].text


def test_a_voice_that_refuses_leaves_the_larger_provisional(tmp_path):
    rules = decisions(
        USES,
        value("ours", "4 mm"),
        (
            f"  w:\n    means: x\n    gives: {MM}\n    weigh: {{says: {{physics: rule, "
            "practice: ours}, governs: larger}\n    source: practice\n"
        ),
    )
    found = answer(run(tmp_path, rules, facts({"use": "track", "boost": 3.5e5})), "w")
    assert (found.value, found.status) == (pytest.approx(4e-3), Status.PROVISIONAL)


def test_a_given_value_wins_is_firm_and_is_questioned_when_far_off(tmp_path):
    rules = decisions(
        compute(
            "fast",
            "speed * 1",
            '{unit: rpm, kind: speed of rotation, range: "[0 rpm .. 20000 rpm]"}',
        ).replace("source: derived", "source: derived, given: {question_over: 10 %}"),
    )
    results = run(tmp_path, rules, facts(given={"fast": 900.0}))
    found = answer(results, "fast")
    assert (found.value, found.status) == (900.0, Status.FIRM)
    assert "please confirm" in results.outcomes["fast"].questions[0].text
    assert results.outcomes["fast"].traces[()].own.value == pytest.approx(680.678, abs=0.001)


def test_what_reads_a_given_value_outside_its_range_is_refused(tmp_path):
    rules = decisions(value("a", "4 mm"), compute("b", "a * 2"))
    results = run(tmp_path, rules, facts(given={"a": 0.3}))
    assert answer(results, "a").value == 0.3
    assert "outside the range" in answer(results, "b").refused


def test_a_result_outside_its_range_stops_that_decision(tmp_path):
    results = run(tmp_path, decisions(compute("b", "engine.stroke * 4")))
    assert "outside what it can be" in answer(results, "b").refused


CALLS = """  calls:
    means: x
    gives: {form: names}
    per: cylinder
    table:
      hit: collect
      columns: [score]
      rows:
        - {score: over 0.02 mm, calls: "bore, hone"}
        - {score: any, calls: hone}
    source: practice
advice:
  scores:
    about: [calls]
    when: {score: some(over 0.02 mm)}
    builder: "Scores in {where}; the deepest is {score.largest}."
    cautions:
      - {severity: caution, when: {boost: over 1 bar}, text: "Boost {boost}."}
    source: practice
operations:
  strip: {does: Strip, lane: block, station: bench, if_skipped: no, hours: {low: 1 h, likely: 2 h, high: 3 h}, source: practice}
  wash: {does: Wash, lane: block, station: sink, if_skipped: no, when: called, hours: {low: 1 h, likely: 2 h, high: 3 h}, source: practice}
  hone: {does: Hone, lane: block, station: hone, if_skipped: no, when: called, needs: [wash], after: {bore: size first}, hours: {low: 1 h, likely: 2 h, high: 3 h}, source: practice}
  bore: {does: Bore, lane: block, station: mill, if_skipped: no, when: called, hours: {low: 1 h, likely: 2 h, high: 3 h}, source: practice}
  plug: {does: Plug, lane: block, station: bench, if_skipped: no, when: {use: track}, hours: {low: 1 h, likely: 2 h, high: 3 h}, source: practice}
"""


def test_findings_call_operations_and_remember_which_items(tmp_path):
    scores = {("1",): 0.0, ("2",): 0.04e-3}
    results = run(tmp_path, decisions(CALLS), facts({"score": scores, "use": "street"}))
    called = {each.operation.name: each for each in results.called}
    assert set(called) == {"strip", "wash", "hone", "bore"}
    assert called["bore"].where == ("cylinder 2",)
    assert called["hone"].where == ("cylinder 1", "cylinder 2")
    assert not any(each.perhaps for each in called.values())
    assert answer(results, "calls", ("2",)).value == Names(
        ("bore", "hone"), (), {"bore": ("cylinder 2",), "hone": ("cylinder 2",)}
    )


def test_what_is_not_known_is_perhaps_called_and_may_apply(tmp_path):
    results = run(tmp_path, decisions(CALLS))
    called = {each.operation.name: each.perhaps for each in results.called}
    assert called == {"strip": False, "wash": False, "hone": False, "bore": True, "plug": True}
    (advised,) = results.advice
    assert advised.may_apply
    assert advised.cautions[0].may_apply


def test_advice_fills_its_names_and_items(tmp_path):
    scores = {("1",): 0.0, ("2",): 0.04e-3}
    results = run(tmp_path, decisions(CALLS), facts({"score": scores, "boost": 1.1e5}))
    (advised,) = results.advice
    assert (
        advised.voices["builder"] == "Scores in cylinder 2; the deepest is 0.040 mm (cylinder 2)."
    )
    assert advised.cautions[0].text == "Boost 1.1 bar gauge."


def test_a_decision_that_does_not_apply_says_why_and_stops_no_other(tmp_path):
    rules = decisions(
        value("a", "4 mm").replace(
            "source: practice",
            "source: practice, not_applicable: {when: {use: street}, because: street}",
        ),
        compute("b", "a * 2"),
    )
    results = run(tmp_path, rules, facts({"use": "street"}))
    assert results.outcomes["a"].not_applicable == "street"
    assert answer(results, "b").status is Status.NOT_APPLICABLE


def test_firm_from_a_stage_holds_a_decision_provisional_before(tmp_path):
    rules = decisions(
        value("a", "4 mm").replace(
            "source: practice",
            "source: practice, firm_from: {stage: released, because: not in hand}",
        )
    )
    assert answer(run(tmp_path, rules), "a").assumed == ("not in hand",)
    released = run(tmp_path, rules, facts(stage="released"))
    assert answer(released, "a").status is Status.FIRM


def test_physics_is_called_by_name_and_its_refusal_is_the_decisions(tmp_path):
    gives = '{unit: bar, kind: absolute, range: "[0 bar .. 9 bar]"}'
    rules = decisions(compute("p", "absolute(p=boost, at='0 m')", gives))
    found = answer(run(tmp_path, rules, facts({"boost": 1.0e5})), "p")
    assert found.value == pytest.approx(201325.0)
    rules = decisions(compute("p", "absolute(p=boost, at='90 km')", gives))
    refused = answer(run(tmp_path, rules, facts({"boost": 1.0e5})), "p")
    assert refused.status is Status.REFUSED
    assert "outside" in refused.refused


def test_the_same_job_gives_the_same_results_twice(tmp_path):
    first = run(tmp_path, decisions(CALLS), facts({"score": {("1",): 0.0, ("2",): 4e-5}}))
    second = run(tmp_path, decisions(CALLS), facts({"score": {("1",): 0.0, ("2",): 4e-5}}))
    assert [why(first, "calls")] == [why(second, "calls")]
