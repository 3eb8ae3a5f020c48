"""Which operations a job calls for: always, by condition, by findings, or pulled in by others."""

from collections.abc import Mapping

from planner.rulebook.advising import cautions_of, printed_text
from planner.rulebook.facts import Answer
from planner.rulebook.judging import judge
from planner.rulebook.results import Called, Outcome
from planner.rulebook.syntax import ChooseBody, Operation
from planner.rulebook.values import Names
from planner.rulebook.world import World


class Calls:
    """Who called each operation, surely or perhaps, with items and reasons."""

    def __init__(self) -> None:
        self.sure: dict[str, dict[str, None]] = {}
        self.perhaps: dict[str, None] = {}
        self.because: dict[str, dict[str, None]] = {}

    def call(self, name: str, items: tuple[str, ...], because: str, *, sure: bool) -> None:
        """Note one call."""
        if sure:
            self.sure.setdefault(name, {}).update(dict.fromkeys(items))
        else:
            self.perhaps[name] = None
        if because:
            self.because.setdefault(name, {})[because] = None


def called_operations(world: World, outcomes: Mapping[str, Outcome]) -> tuple[Called, ...]:
    """Select the operations of a job, each with what called it.

    Parameters
    ----------
    world
        The job with all its answers.
    outcomes
        The decisions, some of which call operations by name.

    Returns
    -------
    tuple of Called
        In the rulebook's order; the route puts them in working order.
    """
    calls = Calls()
    _from_names(world, outcomes, calls)
    _from_conditions(world, calls)
    _pulled(world.rulebook.operations, calls)
    return tuple(
        _called(world, operation, calls)
        for name, operation in world.rulebook.operations.items()
        if name in calls.sure or name in calls.perhaps
    )


def _from_names(world: World, outcomes: Mapping[str, Outcome], calls: Calls) -> None:
    for name, outcome in outcomes.items():
        for answer in outcome.answers.values():
            if answer.type.form == "names":
                _from_answer(world, name, answer, calls)
        body = outcome.decision.body
        if isinstance(body, ChooseBody) and body.calls and _says_none(outcome, body):
            for called in body.calls:
                calls.call(called, (), name, sure=True)


def _says_none(outcome: Outcome, body: ChooseBody) -> bool:
    """Tell whether any item of a choice ended with no row that passes."""
    return any(
        entry.refused == body.none
        for answer in outcome.answers.values()
        for entry in answer.entries.values()
    )


def _from_answer(world: World, name: str, answer: Answer, calls: Calls) -> None:
    for key, entry in answer.entries.items():
        label = world.label(answer.type.per, key)
        items = (label,) if label else ()
        if isinstance(entry.value, Names):
            for called in entry.value.called:
                calls.call(called, items, name, sure=True)
            for called in entry.value.perhaps:
                calls.call(called, items, name, sure=False)


def _from_conditions(world: World, calls: Calls) -> None:
    for name, operation in world.rulebook.operations.items():
        if operation.called_only:
            continue
        judged = judge(world, operation.when)
        if judged.holds is False:
            continue
        calls.call(name, judged.where, ", ".join(judged.because), sure=judged.holds is True)


def _pulled(operations: Mapping[str, Operation], calls: Calls) -> None:
    """Pull in what selected operations cannot do without."""
    waiting = [name for name in (*calls.sure, *calls.perhaps) if name in operations]
    while waiting:
        name = waiting.pop()
        for needed in operations[name].needs:
            sure = name in calls.sure
            known = needed in calls.sure or (not sure and needed in calls.perhaps)
            if not known:
                calls.call(needed, (), f"needed by {name}", sure=sure)
                waiting.append(needed)


def _called(world: World, operation: Operation, calls: Calls) -> Called:
    name = operation.name
    where = tuple(calls.sure.get(name, {}))
    texts = {who: printed_text(world, text, where) for who, text in operation.why.items()}
    texts["if_skipped"] = printed_text(world, operation.if_skipped, where)
    texts["does"] = printed_text(world, operation.does, where)
    texts["hold"] = printed_text(world, operation.hold, where)
    return Called(
        operation,
        name not in calls.sure,
        where,
        tuple(calls.because.get(name, {})),
        cautions_of(world, operation.cautions),
        texts,
    )
