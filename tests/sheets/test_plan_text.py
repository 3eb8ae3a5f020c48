"""The plan as text: read at eighty columns, in a pipe, by three people."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.planning.assemble import plan_job
from planner.sheets.layout import WIDTH, boxed, marked, shortened, table, wrapped
from planner.sheets.plan_text import SECTIONS, plan_text
from tests.planning.shop import read, rulebook


def text(*settings, units=None, **options):
    return plan_text(plan_job(read(*settings), rulebook(), units), **options)


@pytest.mark.parametrize("audience", ["builder", "machinist", "customer"])
@pytest.mark.parametrize("units", ["metric", "inch", "both"])
def test_no_line_is_wider_than_the_page_or_ends_in_blanks(audience, units):
    for line in text(audience=audience, units=units).splitlines():
        assert len(line) <= WIDTH, line
        assert line == line.rstrip()


def test_the_six_choices_come_before_all_else():
    lines = text().splitlines()
    first = next(line for line in lines if line.isupper() and len(line) > 5 and "  " not in line)
    assert first == "THE SIX CHOICES"
    assert "6. MACHINING ORDER" in lines


def test_each_status_is_a_word_at_the_right_edge():
    lines = text("teardown.bores.readings=null").splitlines()
    waiting = next(line for line in lines if line.startswith("bore_oversize: "))
    assert waiting.endswith(" WAITING")
    assert len(waiting) == WIDTH


def test_a_waiting_decision_says_what_it_waits_for():
    assert "Waits for: Bore readings" in text("teardown.bores.readings=null")


def test_a_given_value_is_marked_as_given():
    said = text("given={piston_to_wall: {low: 0.085 mm, high: 0.095 mm, from: drawing}}")
    assert "FIRM, GIVEN" in said
    assert "> drawing, governs: 0.085 to 0.095 mm" in said
    assert "- practice: 0.080 to 0.100 mm" in said


def test_the_governing_voice_and_the_others_are_told_apart():
    said = text()
    assert "> practice, governs: 0.080 to 0.100 mm, aim 0.090 mm [common practice]" in said
    assert "- physics: 0.085 to 0.110 mm, aim 0.096 mm [derived]" in said


def test_a_rejected_row_shows_its_numbers():
    said = text("teardown.bores.readings.1=[[86.171, 86.046], [86.042, 86.031]]")
    assert "not 86.25: fails 'cleans the worst bore' (86.250 mm < 86.271 mm)" in said


def test_a_refusal_gives_its_reason_and_way_out():
    said = text("teardown.bores.readings.1=[[86.971, 86.046], [86.042, 86.031]]")
    assert "REFUSED" in said
    assert "no stocked size cleans it; sleeve it" in said


def test_hold_points_are_framed_by_the_word():
    lines = text(full=True).splitlines()
    at = next(number for number, line in enumerate(lines) if "HOLD POINT" in line)
    assert lines[at].strip().startswith("+-- HOLD POINT: sign before going on ")
    assert lines[at + 1].strip() == f"| {'crack decision before money':<71} |"
    assert set(lines[at + 2].strip()) == {"+", "-"}


def test_cautions_carry_their_signal_word_the_gravest_first():
    lines = text(only=["cautions"]).splitlines()
    words = [line.split(":")[0] for line in lines if line.split(":")[0].isupper()]
    grave = [word for word in words if word in ("DANGER", "WARNING", "CAUTION", "NOTICE")]
    order = ("DANGER", "WARNING", "CAUTION", "NOTICE")
    assert grave == sorted(grave, key=order.index)
    assert "NOTICE" in grave


def test_a_cause_stands_before_the_findings_with_its_evidence():
    said = text()
    assert said.index("WHY IT WORE OR FAILED") < said.index("FINDINGS")
    assert "LIKELY    A cylinder that ran hot, cylinder 2" in said
    assert "    for: its bore is scored" in said
    assert "    then: Prove the injector of cylinder 2." in said


def test_a_waiting_decision_keeps_only_the_sentences_that_are_known():
    said = text("teardown.bores.readings=null", only=["decisions"])
    assert "Why: One oversize" not in said
    assert "not yet known (needs" not in said


def test_the_customer_is_spared_names_and_evidence():
    said = text(audience="customer")
    assert "piston_to_wall" not in said
    assert "governs" not in said
    assert "Room for the piston to grow." in said


def test_the_machinist_keeps_targets_and_holds():
    said = text(audience="machinist", full=True)
    assert "Target, clearance: 0.080 to 0.100 mm, aim 0.090 mm [common practice] (bore" in said
    assert "HOLD POINT" in said


@pytest.mark.parametrize("section", SECTIONS)
def test_one_part_can_be_printed_alone(section):
    said = text(only=[section])
    assert said.startswith("BUILD PLAN: Test job")
    assert len(said) < len(text())


def test_a_question_stands_with_its_place():
    said = text("teardown.main_journals.readings.1=[[54.010, 53.984]]")
    assert "QUESTIONS TO SETTLE" in said
    assert "is larger than new" in said
    assert "at --set teardown.main_journals.readings.1:1:1" in said


def test_what_is_assumed_is_listed_with_its_reason():
    assert "a hot summer day" in text() or "ambient high" not in text()


WORDS = st.text(st.characters(whitelist_categories=["L", "N"]), min_size=1, max_size=30)
SENTENCES = st.lists(WORDS, max_size=40).map(" ".join)


@given(SENTENCES, WORDS, st.integers(0, 12))
def test_wrapping_loses_no_word_and_keeps_the_page(sentence, lead, indent):
    lines = wrapped(sentence, " " * indent, f"{lead}: ")
    assert " ".join(" ".join(lines).split()).split() == [f"{lead}:", *sentence.split()]
    assert all(len(line) <= WIDTH for line in lines)


@given(SENTENCES, st.sampled_from(["FIRM", "NOT APPLICABLE", "PROVISIONAL, GIVEN"]))
def test_a_mark_stands_at_the_right_edge(sentence, mark):
    lines = marked(sentence, mark)
    assert lines[0].endswith(mark)
    assert len(lines[0]) == WIDTH


@given(SENTENCES)
def test_a_box_is_as_wide_on_every_line(sentence):
    lines = boxed("HOLD", sentence, "   ")
    assert {len(line) for line in lines} == {WIDTH}


def test_a_table_hangs_its_texts_under_each_other():
    assert table([("a", "x"), ("long", "y")]) == ["a     x", "long  y"]


@pytest.mark.parametrize(
    ("long", "short"),
    [
        ("as it is", "as it is"),
        ("at not yet known (needs boost) it", "at (not yet known) it"),
        (
            "a not yet known (needs (x) y), b not yet known (needs z).",
            "a (not yet known), b (not yet known).",
        ),
        ("cut off not yet known (needs", "cut off (not yet known)"),
    ],
)
def test_what_a_figure_waits_for_is_cut_out_of_a_sentence(long, short):
    assert shortened(long) == short


def test_the_short_form_keeps_every_decision_step_hold_and_grave_caution():
    short, full = text(), text(full=True)
    assert len(short.splitlines()) < len(full.splitlines())
    for word in ("FIRM", "HOLD", "--full", "CAUTIONS"):
        assert word in short
    assert max(len(line) for line in short.splitlines()) <= 80
