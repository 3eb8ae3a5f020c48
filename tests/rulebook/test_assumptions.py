"""What is assumed until it is measured: ends beside the engine, words left, what comes firm."""

import pytest

from planner.rulebook.values import Band, Interval, OneOf, Status
from tests.rulebook import books

RULES = """
inputs:
  journals:
    ask: Journal
    unit: mm
    kind: diameter
    per: cylinder
    range: "[30 mm .. 100 mm]"
    stage: inspected
    how: micrometer
    assume: {between: "[0 mm .. 0.05 mm]", below: engine.housing.low, because: usual wear, until: inspected, source: practice}
  bore_now:
    ask: Bore
    unit: mm
    kind: diameter
    per: cylinder
    range: "[60 mm .. 120 mm]"
    stage: inspected
    how: bore gauge
    assume: {between: "[0.03 mm .. 0.20 mm]", above: engine.bore, because: usual wear, until: inspected, source: practice}
  caps:
    finding: Fretting
    one_of: [heavy, light, none]
    stage: inspected
    how: eye
    assume: {between: "light, none", because: heavy fretting is heard, until: inspected, source: practice}
decisions:
  worn:
    means: How worn
    per: cylinder
    gives: {one_of: [badly, a_little]}
    table:
      columns: [bore_now]
      rows:
        - {bore_now: over 86.1 mm, worn: badly}
        - {bore_now: up to 86.1 mm, worn: a_little}
    source: practice
  sleeve:
    means: Whether a sleeve is needed
    per: cylinder
    gives: {one_of: ["yes", "no"]}
    table:
      columns: [bore_now]
      rows:
        - {bore_now: over 87 mm, sleeve: "yes"}
        - {bore_now: up to 87 mm, sleeve: "no"}
    source: practice
  brace:
    means: Whether it flexes
    gives: {one_of: ["yes", "no"]}
    table:
      columns: [caps]
      rows:
        - {caps: heavy, brace: "yes"}
        - {caps: not heavy, brace: "no"}
    source: practice
  least:
    means: Smallest journal
    gives: {unit: mm, kind: diameter, range: "[30 mm .. 100 mm]"}
    compute: smallest(journals)
    source: derived
"""  # noqa: E501 - rules stand as an author writes them, one to a line


def entry(folder, name, stage, inputs=None, key=("1",)):
    results = books.run(
        folder,
        RULES,
        books.facts(inputs, stage=stage, record={"housing": Band(0.058, 0.058018)}),
    )
    return results, results.outcomes[name].answers[name].entries[key]


def test_ends_above_a_figure_of_the_engine_follow_it(tmp_path):
    results, _ = entry(tmp_path, "worn", "enquiry")
    field = results.rulebook.inputs["bore_now"]
    value = results.world.input(field, ("1",)).value
    assert value == Interval(pytest.approx(0.08603), pytest.approx(0.0862))


def test_ends_below_a_limit_are_counted_down(tmp_path):
    _, found = entry(tmp_path, "least", "enquiry", key=())
    assert found.value.low == pytest.approx(0.05795)
    assert found.value.high == pytest.approx(0.058)


def test_words_that_are_left_may_settle_an_answer(tmp_path):
    results, found = entry(tmp_path, "brace", "enquiry", key=())
    assert found.value == "no"
    assert found.status is Status.FIRM
    field = results.rulebook.inputs["caps"]
    assert results.world.input(field, ()).value == OneOf(("light", "none"))


def test_what_comes_out_open_is_provisional_and_names_the_reading(tmp_path):
    results, found = entry(tmp_path, "worn", "enquiry")
    assert found.value == OneOf(("badly", "a_little"))
    assert found.status is Status.PROVISIONAL
    wanted = next(each for each in results.missing if each.name == "bore_now")
    assert (wanted.how, wanted.blocks, wanted.due) == ("bore gauge", ("worn",), False)


def test_after_its_stage_an_open_answer_waits_and_a_settled_one_stays_firm(tmp_path):
    results, found = entry(tmp_path, "worn", "inspected")
    assert found.status is Status.WAITING
    assert found.waiting_for == ("bore_now",)
    assert results.outcomes["sleeve"].answers["sleeve"].entries["1",].value == "no"
    assert results.outcomes["sleeve"].status is Status.FIRM
    assert next(each for each in results.missing if each.name == "bore_now").due


def test_an_item_left_out_of_its_block_is_waited_for_by_its_own_name(tmp_path):
    _, found = entry(tmp_path, "worn", "inspected", {"bore_now": {("2",): 0.0861}})
    assert found.waiting_for == ("bore_now of cylinder 1",)


def test_an_assumption_is_listed_only_while_it_holds(tmp_path):
    early, _ = entry(tmp_path, "worn", "enquiry")
    late, _ = entry(tmp_path, "worn", "inspected")
    assert "bore_now" in [name for name, _, _ in early.assumptions]
    assert "bore_now" not in [name for name, _, _ in late.assumptions]


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("above: engine.bore", "above: engine.bor", "did you mean engine.bore?"),
        ("above: engine.bore", "above: engine.cylinders", "of another unit"),
        ("above: engine.bore", "above: engine.bore, below: engine.bore", "both above and below"),
        ('between: "light, none"', 'between: "lite, none"', "did you mean light?"),
        ('between: "light, none"', "between: none", "leaves one word"),
        ('{between: "light, none"', "{value: none, above: engine.bore", "no ends to count from"),
    ],
)
def test_a_slip_in_an_assumption_is_told_where_it_stands(tmp_path, old, new, told):
    [problem] = books.problems(tmp_path, RULES.replace(old, new))
    assert told in problem


POINTS = """
inputs:
  heights: {ask: Heights, unit: mm, grid: [end, side], points: {end: [front, back], side: [left, right]}, range: "[1 mm .. 400 mm]"}
decisions:
  least: {means: x, gives: {unit: mm, range: "[0 mm .. 400 mm]"}, compute: smallest(heights), source: derived}
"""  # noqa: E501 - rules stand as an author writes them, one to a line


def test_the_points_of_a_grid_are_kept_for_sheets_and_starters(tmp_path):
    points = books.load(tmp_path, POINTS).inputs["heights"].points
    assert points == {"end": ("front", "back"), "side": ("left", "right")}


def test_points_that_do_not_follow_the_grid_are_refused(tmp_path):
    [problem] = books.problems(tmp_path, POINTS.replace("side: [left", "flank: [left"))
    assert "points does not follow its grid" in problem
