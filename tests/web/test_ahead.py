import threading
import time

import pytest

from planner.errors import BorewrightError
from planner.faces.web.ahead import Ahead
from planner.faces.web.goals import next_steps
from planner.faces.web.workshop import Workshop
from tests.web.shop import rulebook


def test_the_next_step_is_guessed_on_the_way_that_was_gone():
    on = next_steps(("goals.boost=1.1 bar gauge",), ("goals.boost=1.15 bar gauge",), rulebook())
    assert on == [
        ("goals.boost=1.2 bar gauge",),
        ("goals.boost=1.25 bar gauge",),
        ("goals.boost=1.1 bar gauge",),
    ]
    back = next_steps(("goals.boost=1.1 bar gauge",), ("goals.boost=1.05 bar gauge",), rulebook())
    assert back[0] == ("goals.boost=1 bar gauge",)


@pytest.mark.parametrize(
    "after",
    [(), ("goals.fuel=e85",), ("goals.boost=1 bar", "goals.power=200 kW"), ("goals.boost=x",)],
)
def test_what_cannot_be_guessed_is_not(after):
    assert next_steps((), after, rulebook()) == []


def test_what_two_ask_at_once_is_made_once():
    workshop, made = Workshop(rulebook()), []

    def make():
        time.sleep(0.05)
        made.append(1)
        return "made"

    found = []
    people = [
        threading.Thread(target=lambda: found.append(workshop.once("key", make))) for _ in range(5)
    ]
    for each in people:
        each.start()
    for each in people:
        each.join()
    assert (found, made) == (["made"] * 5, [1])


def test_a_failure_reaches_everybody_and_is_not_kept():
    workshop = Workshop(rulebook())

    def fail():
        raise BorewrightError(problem="p", reason="r", remedy="m")

    for _ in range(2):
        with pytest.raises(BorewrightError):
            workshop.once("key", fail)
    assert workshop.once("key", lambda: 7) == 7


def test_wishes_are_worked_out_and_a_failing_one_stops_none():
    ahead, done = Ahead(Workshop(rulebook())), threading.Event()

    def fail():
        raise BorewrightError(problem="p", reason="r", remedy="m")

    ahead.wish(fail)
    ahead.wish(done.set)
    assert done.wait(5)
