"""Readings to ask about: told with what they may be, and never put right in silence."""

import pytest

from tests.planning import shop

READ = shop.JOB.replace(
    "    score_depth: {2: 0.04}\n",
    "    repeats: {1: [[86.072, 86.046], [86.042, 86.031]]}\n    score_depth: {2: 0.04}\n",
)


GOOD = "[[86.07, 86.05], [86.04, 86.03], [86.02, 86.01]]"


@pytest.fixture
def doubts():
    def ask(*settings, job=shop.JOB):
        return "\n".join(shop.doubts(*settings, job=job))

    return ask


def test_a_good_job_raises_no_question(doubts):
    assert doubts() == ""


def test_repeats_that_agree_raise_no_question(doubts):
    assert doubts(job=READ) == ""


def test_repeats_that_disagree_are_asked_about_at_their_point(doubts):
    told = doubts(job=READ.replace("[[86.072, 86.046]", "[[86.076, 86.046]"))
    assert "teardown.bores cylinder 1, 15 thrust: read as 86.071 mm and 86.076 mm" in told
    assert "more than 0.003 mm apart" in told
    assert "bring part and gauge to 20 degC" in told


def test_repeats_of_other_points_are_asked_about(doubts):
    told = doubts(job=READ.replace("repeats: {1: [[86.072, 86.046], ", "repeats: {1: ["))
    assert "teardown.bores cylinder 1 is repeated at other points" in told


def test_a_repeat_that_cannot_be_read_is_an_error():
    [told] = shop.problems(job=READ.replace("[[86.072", "[[8607.2"))
    assert "8607.2" in told


def test_a_warm_part_is_asked_about_with_what_it_comes_to_at_20_degrees(doubts):
    told = doubts("teardown.bores.temperature=45 degC")
    # 86.071 mm less 86.071 * 11.4e-6 * 25 = 0.0245 mm, by hand
    assert "86.071 mm there is about 86.046 mm at 20 degC (iron)" in told
    assert "nothing was corrected" in told


def test_a_part_at_20_degrees_is_not_asked_about(doubts):
    assert doubts("teardown.bores.temperature=21 degC") == ""


@pytest.mark.parametrize("text", ["25 mm", "warm"])
def test_a_temperature_that_is_none_is_an_error(text):
    [told] = shop.problems(f"teardown.bores.temperature={text}")
    assert text.split()[-1] in told


def test_readings_of_a_warm_part_are_kept_as_typed():
    facts = shop.read("teardown.bores.temperature=45 degC").facts
    assert facts.inputs["bores"].entries["1",].value[0][0] == pytest.approx(0.086071)


def test_a_bore_more_oval_at_the_bottom_than_above_is_asked_about(doubts):
    low = "[[86.071, 86.046], [86.042, 86.040], [86.040, 86.020]]"
    told = doubts(
        "teardown.bores.depths=[15, 65, 115]",
        f"teardown.bores.readings={{1: {low}, 2: {GOOD}}}",
    )
    assert "cylinder 1: 0.020 mm out of round at the bottom and 0.002 mm above it" in told
    assert "cylinder 2" not in told
