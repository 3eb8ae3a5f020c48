"""Evaluating a rulebook on a job: every decision in order, then advice and operations."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from planner.rulebook.advising import advise, printed_text
from planner.rulebook.calling import called_operations
from planner.rulebook.choosing import decide_choose
from planner.rulebook.deciding import Answers, Item, decide_compute, decide_value
from planner.rulebook.evidence import decide_evidence
from planner.rulebook.facts import Answer, Facts, Given
from planner.rulebook.intervals import unsettled
from planner.rulebook.judging import judge
from planner.rulebook.looking_up import decide_table
from planner.rulebook.printing import show_value
from planner.rulebook.questions import given_questions, voice_conflicts, voice_questions
from planner.rulebook.results import Missing, Outcome, Results, Trace
from planner.rulebook.syntax import (
    STAGES,
    ChooseBody,
    ComputeBody,
    Decision,
    EvidenceBody,
    Rulebook,
    TableBody,
    ValueBody,
    WeighBody,
)
from planner.rulebook.values import Entry, Key, Status
from planner.rulebook.weighing import decide_weigh
from planner.rulebook.world import System, World


def evaluate(rulebook: Rulebook, facts: Facts, system: System = "metric") -> Results:
    """Work out every decision of a rulebook on a job.

    Parameters
    ----------
    rulebook
        The proved rulebook.
    facts
        What the job says.
    system
        Units that advice and reasons are printed in.

    Returns
    -------
    Results
        Answers with their reasons, advice, operations called, what is missing and assumed.
    """
    world = World(rulebook, facts, system)
    outcomes: dict[str, Outcome] = {}
    for name in rulebook.order:
        outcomes[name] = _decide(world, rulebook.decisions[name])
        world.answers.update(outcomes[name].answers)
    ordered = {name: outcomes[name] for name in rulebook.decisions}
    return Results(
        rulebook=rulebook,
        facts=facts,
        outcomes=ordered,
        advice=advise(world, ordered),
        called=called_operations(world, ordered),
        missing=_missing(world, ordered),
        assumptions=_assumptions(world),
        world=world,
    )


def decide_only(world: World, names: Iterable[str]) -> dict[str, Outcome]:
    """Work out some decisions and what they read, stopping at values that are given.

    Parameters
    ----------
    world
        The job; its answers are filled in.
    names
        Decisions wanted.

    Returns
    -------
    dict of str to Outcome
        Each decision worked out on the way.
    """
    book = world.rulebook
    wanted: set[str] = set()
    waiting = list(names)
    while waiting:
        name = waiting.pop()
        if name not in wanted:
            wanted.add(name)
            waiting.extend(each for each in book.decisions[name].reads if _open(world, each))
    outcomes = {}
    for name in (each for each in book.order if each in wanted or not _open(world, each)):
        outcomes[name] = _decide(world, book.decisions[name])
        world.answers.update(outcomes[name].answers)
    return outcomes


def _open(world: World, name: str) -> bool:
    """Tell whether a decision is still to be worked out: none of its results is given."""
    return not any(each in world.facts.given for each in world.rulebook.decisions[name].gives)


def _decide(world: World, decision: Decision) -> Outcome:
    skipped = decision.not_applicable
    idle = judge(world, skipped.when).holds if skipped is not None else False
    if skipped is not None and idle:
        because = printed_text(world, skipped.because)
        entry = Entry(status=Status.NOT_APPLICABLE, refused=because)
        return Outcome(decision, _spread(world, decision, entry), {}, not_applicable=because)
    found: dict[str, dict[Key, Entry]] = {name: {} for name in decision.gives}
    traces: dict[Key, Trace] = {}
    for key in world.keys(decision.per):
        bound = dict(zip(decision.per, key, strict=True))
        answers, trace = _body(Item(world, decision, key, bound))
        answers = _firmness(world, decision, answers)
        if idle is None:
            answers = {name: replace(each, may_refuse=True) for name, each in answers.items()}
        answers, trace = _given(world, decision, key, answers, trace)
        traces[key] = trace
        for name, entry in answers.items():
            found[name][key] = entry
    answered = {
        name: Answer(name, decision.gives[name].type, entries) for name, entries in found.items()
    }
    outcome = Outcome(decision, answered, traces, given=_given_of(world, decision))
    questions = (*given_questions(outcome), *voice_questions(outcome))
    conflicts = voice_conflicts(outcome)
    if not questions and not conflicts:
        return outcome
    return replace(outcome, questions=questions, conflicts=conflicts)


def _spread(world: World, decision: Decision, entry: Entry) -> Mapping[str, Answer]:
    return {
        name: Answer(name, give.type, dict.fromkeys(world.keys(decision.per), entry))
        for name, give in decision.gives.items()
    }


def _body(item: Item) -> tuple[Answers, Trace]:
    body = item.decision.body
    if isinstance(body, ValueBody):
        return decide_value(item, body)
    if isinstance(body, TableBody):
        return decide_table(item, body, body.refs)
    if isinstance(body, ComputeBody):
        return decide_compute(item, body)
    if isinstance(body, ChooseBody):
        return decide_choose(item, body)
    return _judged(item, body)


def _judged(item: Item, body: WeighBody | EvidenceBody) -> tuple[Answers, Trace]:
    """Hear voices, or findings for and against a cause."""
    if isinstance(body, EvidenceBody):
        return decide_evidence(item, body)
    return decide_weigh(item, body)


def _firmness(world: World, decision: Decision, answers: Answers) -> Answers:
    """Hold a decision provisional until the stage from which it can be firm."""
    if decision.firm_from is None:
        return answers
    stage, because = decision.firm_from
    if STAGES.index(world.facts.stage) >= STAGES.index(stage):
        return answers
    return {
        name: replace(entry, status=Status.PROVISIONAL, assumed=(*entry.assumed, because))
        if entry.status <= Status.PROVISIONAL
        else entry
        for name, entry in answers.items()
    }


def _given_of(world: World, decision: Decision) -> Given | None:
    given = world.facts.given
    for name in (decision.name, *decision.gives):
        if name in given:
            return given[name]
    return None


def _given(
    world: World, decision: Decision, key: Key, answers: Answers, trace: Trace
) -> tuple[Answers, Trace]:
    """Let a value given in the job win; the rules' own answer is kept beside it."""
    for name in decision.gives:
        given = world.facts.given.get(name)
        if given is None or key not in given.entries:
            continue
        value = given.entries[key]
        declared = decision.gives[name].type
        numbers = value.parts() if hasattr(value, "parts") else (value,)
        inside = all(declared.holds(number) for number in numbers if isinstance(number, float))
        own = answers[name]
        answers = {**answers, name: Entry(value, Status.FIRM, unproved=not inside)}
        trace = replace(trace, own=own)
    return answers, trace


def _missing(world: World, outcomes: Mapping[str, Outcome]) -> tuple[Missing, ...]:
    """List every reading waited for, with how to take it and what it blocks."""
    blocks: dict[str, list[str]] = {}
    for name, outcome in outcomes.items():
        for answer in outcome.answers.values():
            for entry in answer.entries.values():
                for waited in (*entry.waiting_for, *_open_readings(world, entry)):
                    listed = blocks.setdefault(waited, [])
                    if name not in listed:
                        listed.append(name)
    return tuple(_one_missing(world, name, tuple(listed)) for name, listed in blocks.items())


def _open_readings(world: World, entry: Entry) -> Iterator[str]:
    """Name the readings that would settle an answer, while two ends stand for them."""
    if not unsettled(entry.value):
        return
    for name in entry.assumed:
        field = world.rulebook.inputs.get(name)
        if field is not None and field.how and name in world.assumed:
            yield name


def _one_missing(world: World, name: str, blocks: tuple[str, ...]) -> Missing:
    head, _, item = name.partition(" of ")
    field = world.rulebook.inputs.get(head)
    if field is None and "." in head:
        record, _, part = head.partition(".")
        known = world.rulebook.records.get(record)
        field = known.fields.get(part) if known else None
    if field is None:
        return Missing(name, name.replace("_", " "), "", blocks, due=False)
    what = f"{field.ask or head}, {item}" if item else field.ask or head
    due = STAGES.index(field.stage) <= STAGES.index(world.facts.stage)
    return Missing(name, what, field.how, blocks, due)


def _assumptions(world: World) -> tuple[tuple[str, str, str], ...]:
    lines = []
    for name in sorted(world.assumed):
        field = world.assumed[name]
        assume = field.assume
        if assume is None:
            continue
        value, still = world.assumption(field)
        if value is not None and still:
            lines.append((name, show_value(value, field.type), assume.because))
    return tuple(lines)
