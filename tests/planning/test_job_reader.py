"""Reading a job: every value found where it stands, every slip told at its place with its cure."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.errors import ProblemsFound
from planner.planning.assemble import plan_job
from planner.rulebook.values import Band
from planner.sheets.plan_text import plan_text
from tests.planning.shop import doubts, problems, read, rulebook


def one(found):
    assert len(found) == 1, found
    return found[0]


def test_a_job_in_order_reads_without_problem_or_doubt():
    reading = read()
    assert reading.facts.stage == "inspected"
    assert reading.doubts == ()
    assert reading.facts.inputs["boost"].entries[()].value == 110000.0
    grid = reading.facts.inputs["bores"].entries["2",].value
    assert grid == ((0.086138, 0.086083), (0.086074, 0.086052))
    assert reading.facts.sets["exhaust"] == ("1", "2", "3", "4")
    assert reading.facts.owned["oversizes"]["86.25"] == {"size": 0.08625}


def test_readings_in_a_list_go_to_the_items_in_order():
    entries = read().facts.inputs["guide_exhaust"].entries
    assert [entry.value for entry in entries.values()] == [0.00005, 0.00007, 0.00009, 0.00005]


def test_an_item_left_out_of_a_list_of_scores_has_none():
    entries = read().facts.inputs["score_depth"].entries
    assert entries["1",].value == 0.0
    assert entries["2",].value == 0.00004


def test_a_block_that_is_absent_says_nothing_about_scores():
    assert "score_depth" not in read("teardown.bores.score_depth=null").facts.inputs


def test_a_finding_without_a_degree_takes_the_worst_and_others_were_looked_at():
    entries = read().facts.inputs["cap_fretting"].entries
    assert [entry.value for entry in entries.values()] == ["none", "heavy", "none"]
    assert read().facts.inputs["crack_block"].entries[()].value == "sound"


def test_without_a_list_of_findings_nothing_is_taken_as_looked_at():
    assert "crack_block" not in read("teardown.findings=null").facts.inputs


def test_an_empty_list_of_findings_says_that_nothing_was_found():
    facts = read("teardown.findings=[]").facts
    assert {entry.value for entry in facts.inputs["cap_fretting"].entries.values()} == {"none"}


def test_unknown_is_a_legal_answer_and_never_zero():
    facts = read("goals.boost=unknown", "teardown.bores.readings.2=unknown").facts
    assert "boost" not in facts.inputs
    assert list(facts.inputs["bores"].entries) == [("1",)]


def test_unknown_stays_a_word_where_a_choice_has_it():
    facts = read("engine={bore: 86 mm, cylinders: 2, mains: 3, treatment: unknown}").facts
    assert facts.records["engine"]["treatment"] == "unknown"


def test_an_inline_engine_gives_its_own_cylinders_and_sizes():
    inline = "engine={bore: 86 mm, cylinders: 2, mains: 3, exhaust_valves: 4, "
    facts = read(inline + 'oversizes: {"86.50": {size: 86.5 mm}}}').facts
    assert facts.sets["cylinder"] == ("1", "2")
    assert facts.owned["oversizes"] == {"86.50": {"size": 0.0865}}


def test_an_inline_engine_with_open_figures_leaves_them_open():
    facts = read("engine={bore: 86 mm, cylinders: 2, mains: 3, stroke: unknown}").facts
    assert "stroke" not in facts.records["engine"]
    assert facts.sets["exhaust"] == ()


# ------------------------------------------------------------------ what is wrong, and where

BAD = {
    "an unknown key": ("goals.bost=1 bar", "goals has no key 'bost'", "did you mean boost?"),
    "a key that belongs elsewhere": (
        "teardown.flatness=0.05 mm",
        "teardown has no key 'flatness'",
        "did you mean teardown.deck.flatness?",
    ),
    "an unknown block": ("teardwn={}", "a job has no key 'teardwn'", "did you mean teardown?"),
    "an unknown engine": ("engine=test-20", "no engine 'test-20'", "did you mean test-2.0?"),
    "no engine": ("engine=null", "the job names no engine", "catalog entry"),
    "an unknown word": ("goals.use=sreet", "goals.use is 'sreet'", "did you mean street?"),
    "no unit": ("goals.rev_ceiling=7200", "has no unit", "7200 rpm"),
    "a boost in psi typed as bar": ("goals.boost=20 bar", "20 bar", "20 psi"),
    "an absolute boost": ("goals.boost=1.1 bar absolute", "absolute", "gauge"),
    "a block of pressures left open": (
        "history.oil_pressure={unit: bar, idle: 0.7}",
        "does not say gauge or absolute",
        "gauge",
    ),
    "a pressure left open": (
        "history.oil_pressure.idle=0.7 bar",
        "does not say gauge or absolute",
        "0.7 bar gauge",
    ),
    "a unit of another sort": ("goals.boost=3 kg", "3 kg", "bar"),
    "a list for a number": ("teardown.deck.flatness=[0.1, 0.2]", "is a list", "one number"),
    "a block for a number": ("goals.boost={low: 1 bar}", "goals.boost", "one number"),
    "a negative flatness": ("teardown.deck.flatness=-0.06", "-0.06", "0 mm to 1 mm"),
    "a block that is a value": ("goals=fast", "goals is not a block of keys", "boost"),
    "a text that is a list": ("job.name=[a, b]", "job.name is a list", "one line"),
    "an inch bore typed as mm": (
        "teardown.bores.readings.1=[[3.386, 3.386], [3.386, 3.386]]",
        "3.386 mm",
        "3.386 in",
    ),
    "a block without unit": ("teardown.bores.unit=null", "no unit", "add unit: mm"),
    "a block in metres": ("teardown.main_journals.unit=m", "more like it", "53.986 mm"),
    "a block in kilograms": ("teardown.main_journals.unit=kg", "kg does not fit", "unit: mm"),
    "a unit nobody knows": ("teardown.deck.unit=furlong", "furlong", ""),
    "a mil": ("teardown.deck.flatness=2 mil", "mil", "thou"),
    "a missing reading": (
        "teardown.bores.readings={1: [[86.071, 86.046], [86.042, 86.031]]}",
        "no reading for cylinder 2",
        "2: unknown",
    ),
    "a missing depth": (
        "teardown.bores.readings.1=[[86.071, 86.046]]",
        "cylinder 1 has 1 rows, but the block lists 2",
        "take the one out",
    ),
    "rows of two lengths": (
        "teardown.bores.readings.1=[[86.071, 86.046], [86.042]]",
        "rows of 2, 1 readings",
        "same number",
    ),
    "a cylinder too many": (
        "teardown.bores.wall={1: 6 mm, 2: 6 mm, 3: 6 mm}",
        "no cylinder 3",
        "cylinder 1 to 2",
    ),
    "a list too short": ("teardown.guides.exhaust=[0.05]", "1 values for 4 items", "unknown"),
    "one value for all": ("teardown.bores.wall=6 mm", "each cylinder has its own", "{1: 6 mm"),
    "a degree nobody knows": (
        "teardown.findings=[{id: cap_fretting, where: main 2, degree: hevy}]",
        "no degree 'hevy'",
        "did you mean heavy?",
    ),
    "a finding nobody knows": (
        "teardown.findings=[{id: cap_freting, where: main 2}]",
        "no finding 'cap_freting'",
        "did you mean cap_fretting?",
    ),
    "a finding without a place": (
        "teardown.findings=[{id: cap_fretting}]",
        "does not say where",
        "where: main",
    ),
    "a finding at another part": (
        "teardown.findings=[{id: cap_fretting, where: cylinder 2}]",
        "'cylinder 2' is not a main",
        "main 3",
    ),
    "a finding at a main too many": (
        "teardown.findings=[{id: cap_fretting, where: main 4}]",
        "no main 4",
        "main 1 to 3",
    ),
    "a place for a finding without": (
        "teardown.findings=[{id: crack_block, where: main 2}]",
        "takes no where",
        "note:",
    ),
    "two degrees at one place": (
        "teardown.findings=[{id: cap_fretting, where: main 2, degree: heavy}, "
        "{id: cap_fretting, where: main 2, degree: light}]",
        "is light here and heavy at",
        "keep the one",
    ),
    "findings that are no list": ("teardown.findings=none", "not a list", "[]"),
    "altitudes the wrong way round": (
        "goals={altitude_low: 700 m, altitude_high: 100 m}",
        "cannot both be true",
        "correct",
    ),
    "a rod that throws the pin over the deck": (
        "engine={bore: 86 mm, stroke: 86 mm, rod_length: 200 mm, deck_height: 216 mm, "
        "cylinders: 2, mains: 3, exhaust_valves: 4}",
        "the pin stays below the deck",
        "correct",
    ),
    "valves that do not share out": (
        "engine={bore: 86 mm, cylinders: 2, mains: 3, exhaust_valves: 5}",
        "do not share out over 2 cylinders",
        "whole engine",
    ),
    "a newer format": ("format=2", "format 2", "bring the program up to date"),
    "a format that never was": ("format=one", "no such format", "format: 1"),
    "units of no system": ("job.sheet_units=inches", "'inches'", "did you mean inch?"),
    "a stage nobody knows": ("job.stage=inspection", "'inspection'", "inspected"),
    "a day that is none": ("goals.deadline=2027-02-30", "no date", "year-month-day"),
    "a budget upside down": (
        "goals.budget={low: 9, high: 8, currency: USD}",
        "from 9 down to 8",
        "smaller sum",
    ),
    "a budget in words": ("goals.budget.low=plenty", "'plenty'", "plain number"),
    "an operation nobody knows": (
        "progress={crak_test: {done: 2027-01-12}}",
        "no operation 'crak_test'",
        "did you mean crack_test?",
    ),
    "work done without a day": ("progress={bore: {by: me}}", "has no day", "done:"),
    "as-built of no decision": ("as_built={bor: 1}", "no decision 'bor'", ""),
    "a given nobody knows": ("given={piston_wall: {from: a}}", "'piston_wall'", "piston_to_wall"),
    "a given without its origin": (
        "given={piston_to_wall: {low: 0.08 mm, high: 0.09 mm}}",
        "where the value comes from",
        "from:",
    ),
    "a given that falls": (
        "given={piston_to_wall: {low: 0.1 mm, high: 0.09 mm, from: a}}",
        "does not rise",
        "smallest",
    ),
    "a given half band": ("given={piston_to_wall: {low: 0.1 mm, from: a}}", "no high", "high:"),
    "a given row not stocked": (
        "given={bore_oversize: {value: 86.75, from: a}}",
        "86.75",
        "86.50",
    ),
    "a given key nobody knows": (
        "given={piston_to_wall: {low: 0.08 mm, hihg: 0.09 mm, from: a}}",
        "no key 'hihg'",
        "did you mean high?",
    ),
}


@pytest.mark.parametrize("slip", BAD)
def test_a_slip_is_told_at_its_place_with_its_cure(slip):
    setting, what, fix = BAD[slip]
    told = [text for text in problems(setting) if what in text]
    first = one(told[:1])
    assert "error:" in first
    assert fix in first.partition("fix:")[2]
    place = first.partition(": error")[0]
    assert place.split(":")[-1].isdigit() or slip == "no engine"


def test_every_problem_of_a_job_is_told_in_one_run():
    found = problems("goals.use=sreet", "goals.bost=1 bar", "teardown.deck.flatness=[1]")
    assert len(found) == 3


def test_a_slip_through_a_whole_block_is_told_once_with_its_number():
    found = problems("teardown.main_journals.unit=m")
    assert len([text for text in found if "main_journals" in text]) <= 3


def test_an_engine_that_cannot_be_read_is_told_alone():
    assert "no engine" in one(problems("engine=larsh"))


@pytest.mark.parametrize("value", [".nan", ".inf", "nan mm", "1,2 mm", "0x10 mm", "", "[[1]]"])
def test_what_is_no_measurement_is_never_taken_for_one(value):
    with pytest.raises(ProblemsFound):
        read(f"teardown.deck.flatness={value or '{}'}")


# ------------------------------------------------------------------ what is asked

DOUBTS = {
    "a bore smaller than new": (
        "teardown.bores.readings.1=[[85.95, 86.046], [86.042, 86.031]]",
        "85.950 mm is smaller than new (86.000 mm)",
    ),
    "a journal larger than new": (
        "teardown.main_journals.readings.1=[[54.010, 53.984]]",
        "54.010 mm is larger than new (54.000 mm)",
    ),
    "a bore worn at the bottom": (
        "teardown.bores.readings.1=[[86.042, 86.031], [86.071, 86.046]]",
        "worn more at the bottom",
    ),
    "copied readings": (
        "teardown.main_journals.readings={1: [[53.98]], 2: [[53.98]], 3: [[53.98]]}",
        "all 3 have the same readings",
    ),
}


@pytest.mark.parametrize("doubt", DOUBTS)
def test_a_reading_that_can_hardly_be_right_is_asked_about(doubt):
    setting, what = DOUBTS[doubt]
    text = one(doubts(setting))
    assert "question:" in text
    assert what in text
    assert "fix:" in text


def test_a_reading_inside_the_allowance_is_not_asked_about():
    assert doubts("teardown.bores.readings.1=[[86.071, 85.98], [86.042, 86.031]]") == []
    assert doubts("teardown.main_journals.readings.1=[[54.003, 53.984]]") == []


def test_a_bare_boost_is_read_as_gauge_and_the_plan_says_so():
    reading = read("goals.boost=1.1 bar")
    assert reading.facts.inputs["boost"].entries[()].value == 110000.0
    assert "read as gauge" in one(reading.notes).text


def test_a_boost_said_to_be_gauge_needs_no_remark():
    assert read().notes == ()


# ------------------------------------------------------------------ given values


def test_a_given_band_of_two_ends_takes_its_middle_and_says_so():
    reading = read("given={piston_to_wall: {low: 0.085 mm, high: 0.095 mm, from: drawing}}")
    given = reading.facts.given["piston_to_wall"]
    assert given.origin == "drawing"
    assert given.entries[()] == pytest.approx(Band(85e-6, 95e-6, 90e-6))
    assert "middle was taken" in one(reading.notes).text


def test_a_value_given_for_all_stands_for_every_item():
    reading = read("given={wall_left: {value: 5 mm, from: sonic map}}")
    assert dict(reading.facts.given["wall_left"].entries) == {("1",): 0.005, ("2",): 0.005}


def test_a_value_may_be_given_by_item():
    reading = read("given={wall_left: {per: {2: 5 mm}, from: sonic map}}")
    assert dict(reading.facts.given["wall_left"].entries) == {("2",): 0.005}


def test_a_stocked_row_may_be_given():
    reading = read("given={bore_oversize: {value: 86.50, from: customer}}")
    assert reading.facts.given["bore_oversize"].entries[()] == "86.50"


# ------------------------------------------------------------------ one job in two units

SIZES = st.floats(86.0, 86.5).map(lambda size: round(size, 3))


@given(st.lists(st.lists(SIZES, min_size=2, max_size=2), min_size=2, max_size=2))
def test_readings_in_inches_are_the_same_readings(rows):
    inches = [[repr(size / 25.4) for size in row] for row in rows]
    block = "{{unit: {unit}, readings: {{1: {one}, 2: {one}}}}}"
    metric = read("teardown.bores=" + block.format(unit="mm", one=rows))
    imperial = read("teardown.bores=" + block.format(unit="in", one=str(inches).replace("'", "")))
    assert metric.facts.inputs["bores"].entries == imperial.facts.inputs["bores"].entries


# ------------------------------------------------------------------ anything at all

GARBAGE = (
    "null",
    "unknown",
    "-1",
    "1e9",
    "[]",
    "{}",
    "[1, 2]",
    "{a: 1}",
    "{1: 2}",
    '"x y"',
    "86.1 mm",
    "[[1], [2, 3]]",
    "true",
    "{unit: kg, readings: {1: 2}}",
    "[{id: cap_fretting, where: main 1}]",
)
PATHS = (
    "format",
    "job",
    "job.name",
    "engine",
    "goals",
    "goals.boost",
    "goals.use",
    "goals.budget",
    "history",
    "history.oil_pressure",
    "teardown",
    "teardown.bores",
    "teardown.bores.unit",
    "teardown.bores.depths",
    "teardown.bores.readings",
    "teardown.bores.readings.1",
    "teardown.bores.score_depth",
    "teardown.main_journals.readings.2",
    "teardown.guides.exhaust",
    "teardown.findings",
    "given",
    "given.piston_to_wall",
    "given.wall_left",
    "progress",
    "progress.hone",
    "parts_in_hand",
    "as_built",
)


SLIPS = st.lists(
    st.tuples(st.sampled_from(PATHS), st.sampled_from(GARBAGE)), min_size=1, max_size=2
)


@settings(max_examples=300, deadline=None)
@given(SLIPS)
def test_anything_at_all_is_read_or_told_at_a_place(slips):
    changes = [f"{path}={value}" for path, value in slips]
    told = problems(*changes)
    assert all(": error: " in text and "fix: " in text for text in told if "question" not in text)
    if not told:
        assert plan_text(plan_job(read(*changes), rulebook())).startswith("BUILD PLAN: ")
