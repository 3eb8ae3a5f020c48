"""Ask at the counter: one question to a line, read from the keyboard or a pipe."""

import sys
from typing import TextIO

from planner.faces.cli.output import complain
from planner.planning.asking import UNKNOWN, Asking, counter_questions, engine_questions
from planner.rulebook.syntax import Rulebook

_HEAD = (
    "An empty line means not known: it is assumed with the reason shown, or the plan waits for "
    "it. Write values with their unit, as 1.1 bar."
)


def ask_counter(rulebook: Rulebook, engine: str = "") -> dict[str, str]:
    """Ask every question until it has an answer that can stand; the end of input ends it.

    Parameters
    ----------
    rulebook
        Says what to ask.
    engine
        The engine, where the command named it already.

    Returns
    -------
    dict
        Answers by their place in the job.
    """
    complain(_HEAD)
    stream = sys.stdin
    answers = {"engine": engine} if engine else {}
    for question in counter_questions(rulebook):
        if question.path in answers:
            continue
        if not _ask(question, answers, stream):
            return answers
        unlisted = question.path == "engine" and answers["engine"].casefold() in UNKNOWN
        for each in engine_questions(rulebook) if unlisted else ():
            if not _ask(each, answers, stream):
                return answers
    return answers


def _ask(question: Asking, answers: dict[str, str], stream: TextIO) -> bool:
    """Ask one question; no answer to come means that nobody is there any more."""
    while True:
        complain(f"{question.text}\n  (empty: {question.without})")
        line = stream.readline()
        if not line:
            return False
        answer = line.strip()
        wrong = question.wrong(answer)
        if not wrong:
            answers[question.path] = answer
            return True
        complain(f"  {wrong}")
