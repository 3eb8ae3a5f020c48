"""An enquiry at the counter: every answer checked, unknown legal, and the job reads as it is."""

import pytest

from planner.datafiles.reader import read_yaml_text
from planner.planning.asking import counter_questions, engine_questions, enquiry_job
from planner.planning.job_reader import read_job_node
from tests.planning import shop


@pytest.fixture
def questions():
    return {each.path: each for each in counter_questions(shop.rulebook())}


def test_the_complaint_and_the_engine_come_first(questions):
    assert list(questions)[:3] == ["job.name", "history.complaint", "engine"]


def test_a_question_says_what_is_taken_without_an_answer(questions):
    assert questions["goals.boost"].without == "not known: what needs it waits"


@pytest.mark.parametrize(
    ("path", "answer", "told"),
    [
        ("engine", "test-2.1", "did you mean test-2.0?"),
        ("goals.use", "stret", "did you mean street?"),
        ("goals.boost", "20 bar", "psi"),
        ("goals.boost", "1.1", "unit"),
        ("goals.rev_ceiling", "lots", "lots"),
    ],
)
def test_an_answer_that_cannot_stand_is_told_with_the_cure(questions, path, answer, told):
    assert told in questions[path].wrong(answer)


@pytest.mark.parametrize("answer", ["", "unknown", "?"])
def test_not_knowing_is_an_answer_to_everything(questions, answer):
    assert all(each.wrong(answer) == "" for each in questions.values())


def test_the_answers_make_a_job_that_reads(questions):
    answers = {
        "job.name": "Miller: the blue one, #2",
        "history.complaint": "burns oil",
        "engine": "test-2.0",
        "goals.use": "street",
        "goals.boost": "1.1 bar",
        "goals.rev_ceiling": "unknown",
    }
    text = enquiry_job(answers)
    assert "rev_ceiling" not in text
    reading = read_job_node(read_yaml_text(text, "job"), shop.rulebook())
    assert reading.job.name == "Miller: the blue one, #2"
    assert reading.facts.stage == "enquiry"
    assert reading.facts.inputs["boost"].entries[()].value == pytest.approx(1.1e5)


def test_an_engine_that_is_not_listed_is_asked_for_by_four_figures():
    paths = [each.path for each in engine_questions(shop.rulebook())]
    assert paths == ["engine.cylinders", "engine.bore", "engine.stroke"]
    text = enquiry_job({"engine.cylinders": "4", "engine.bore": "86 mm"})
    assert "engine:\n  cylinders: 4\n  bore: 86 mm\n" in text
