"""Handlers of the route board: what can start, what is held, and signing steps done."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from starlette.responses import Response

from planner.datafiles.reader import read_yaml_text
from planner.datafiles.splice import plain, spliced
from planner.errors import BorewrightError, Problem, ProblemsFound
from planner.faces.web.bench import Ask, Bench, onwards
from planner.faces.web.workshop import on_a_copy
from planner.models.plan import Plan
from planner.models.steps import Step
from planner.planning.marking import mark_done

STATES = ("reopened", "can start", "waits", "done")


class NotOpenedError(BorewrightError):
    """A step that cannot be opened again, because it is not done."""


@dataclass(frozen=True, slots=True)
class Card:
    """One step on the board, with its state and what it waits for."""

    step: Step
    state: str
    waits: tuple[str, ...]
    reopened: str = ""


@dataclass(frozen=True, slots=True)
class Lane:
    """The steps of one component or bench, in their order."""

    name: str
    cards: tuple[Card, ...]

    def count(self, state: str) -> int:
        """Count the cards in a state."""
        return sum(each.state == state for each in self.cards)


def lanes_of(plan: Plan) -> list[Lane]:
    """Sort the steps of a plan in lanes, lanes in the order of their first step."""
    titles = {each.id: f"{each.step} {each.title}" for each in plan.operations}
    lanes: dict[str, list[Card]] = {}
    for step in plan.operations:
        lanes.setdefault(step.lane, []).append(_card(plan, step, titles))
    return [Lane(name, tuple(cards)) for name, cards in lanes.items()]


def _card(plan: Plan, step: Step, titles: Mapping[str, str]) -> Card:
    schedule = plan.schedule
    waits = tuple(titles.get(each, each) for each in schedule.waits_for.get(step.id, ()))
    again = schedule.reopened.get(step.id, "")
    if again:
        return Card(step, "reopened", waits, again)
    if step.id in schedule.done:
        return Card(step, "done", ())
    return Card(step, "can start" if step.id in schedule.can_start_now else "waits", waits)


def board_page(bench: Bench, ask: Ask) -> Response:
    """Show the board; `lane` narrows it to one lane, `show` to steps in one state."""
    job = bench.store.job(ask.name)
    lanes = lanes_of(bench.workshop.explained(job.text).plan)
    lane, state = ask.said("lane"), ask.said("show")
    return bench.job_page(
        ask,
        "board",
        job,
        title="Work",
        here="board",
        lanes=[_narrowed(each, state) for each in lanes if lane in ("", each.name)],
        names=[each.name for each in lanes],
        lane=lane,
        show=state,
        states=STATES,
        counts=_counts(lanes),
        today=_today().isoformat(),
    )


def _narrowed(lane: Lane, state: str) -> Lane:
    if state not in STATES:
        return lane
    return Lane(lane.name, tuple(each for each in lane.cards if each.state == state))


def _counts(lanes: Sequence[Lane]) -> dict[str, int]:
    return {state: sum(each.count(state) for each in lanes) for state in STATES}


def sign_step(bench: Bench, ask: Ask) -> Response:
    """Mark a step done: who, and when; a hold point passes only when all is measured."""
    job = bench.store.job(ask.name)
    operation, day = ask.said("operation"), _day(ask.said("day"))
    entry = bench.entry(ask, f"{operation} done")
    rulebook = bench.workshop.rulebook
    text, _ = on_a_copy(
        job.text, lambda path: mark_done(path, operation, day, entry.who, rulebook)
    )
    bench.store.add(ask.name, text, bench.base(ask), entry)
    return onwards(f"/job/{ask.name}/board#s-{operation}")


def open_step(bench: Bench, ask: Ask) -> Response:
    """Open a step again that failed its check; its signature stays in the history."""
    job = bench.store.job(ask.name)
    operation = ask.said("operation")
    reason = ask.said("reason")[:200] or "no reason given"
    entry = bench.entry(ask, f"{operation} opened again: {reason}")
    root = read_yaml_text(job.text, "job")
    held = plain(root)
    done = held.get("progress") if isinstance(held, Mapping) else None
    if not isinstance(done, Mapping) or operation not in done:
        raise NotOpenedError(
            problem=f"{operation[:60]} is not done.",
            reason="Only a step that was signed can be opened again.",
            remedy="Look at the board: its state is written on it.",
        )
    kept = {name: value for name, value in done.items() if name != operation}
    text = spliced(job.text, ("progress",), kept)
    bench.store.add(ask.name, text, bench.base(ask), entry)
    return onwards(f"/job/{ask.name}/board#s-{operation}")


def _today() -> date:
    return datetime.now().astimezone().date()


def _day(said: str) -> date:
    if not said:
        return _today()
    try:
        return date.fromisoformat(said)
    except ValueError as error:
        problem = Problem(f"{said[:40]!r} is no day", "write it as 2027-02-03")
        raise ProblemsFound([problem]) from error
