"""Assemble the plan document from a job that was read and what the rulebook said of it."""

from collections.abc import Container, Iterable

from planner import __version__
from planner.errors import Problem
from planner.models.groups import HEADLINES
from planner.models.job import Budget
from planner.models.plan import (
    Assumption,
    Conflict,
    JobHeader,
    MissingDoc,
    Plan,
    QuestionDoc,
    Stamp,
)
from planner.models.steps import CautionDoc
from planner.planning.cause_docs import causes
from planner.planning.decision_docs import DecisionDocs, can_be_asked, caution_docs
from planner.planning.explaining import Explainer
from planner.planning.finding_docs import measured_findings, typed_findings
from planner.planning.job_reader import JobReading
from planner.planning.names import Names
from planner.planning.part_docs import part_docs
from planner.planning.standing import standing_cautions
from planner.planning.step_docs import StepDocs
from planner.planning.work_plan import with_work
from planner.rulebook.evaluate import evaluate
from planner.rulebook.failed import failed_assumptions
from planner.rulebook.printing import NOT_KNOWN, System
from planner.rulebook.results import Advised, Missing, Results
from planner.rulebook.syntax import SEVERITIES, Decision, Rulebook


def plan_job(reading: JobReading, rulebook: Rulebook, units: System | None = None) -> Plan:
    """Work a job out and put the plan together.

    Parameters
    ----------
    reading
        The job as read.
    rulebook
        The rules.
    units
        System to print in; the job's own when none is given.

    Returns
    -------
    Plan
        The plan document.
    """
    return explainer(reading, rulebook, units).plan


def explainer(reading: JobReading, rulebook: Rulebook, units: System | None = None) -> Explainer:
    """Work a job out, to be asked about; see `plan_job`."""
    system = system_of(reading, units)
    results = evaluate(rulebook, reading.facts, system)
    steps = StepDocs(results, Names(results, system), reading.job.progress)
    plan = with_work(_assemble(reading, results, steps), reading, results, steps)
    return Explainer(results, plan, steps)


def system_of(reading: JobReading, units: System | None) -> System:
    """Return the system to print in: as asked, else as the job says."""
    return units or reading.job.sheet_units


def _assemble(reading: JobReading, results: Results, steps: StepDocs) -> Plan:
    names = steps.names
    decisions, stocks = DecisionDocs(results, names), results.rulebook.stocks
    shown = [each for each in results.outcomes.values() if _is_shown(each.decision, stocks)]
    outcomes = results.outcomes.values()
    return Plan(
        stamp=Stamp(
            rules_edition=results.rulebook.edition,
            rules_sha256=results.rulebook.sha256,
            version=__version__,
            overridden=results.rulebook.overridden,
        ),
        job=_header(reading, results, names.system),
        decisions={each.decision.name: decisions.document(each) for each in shown},
        findings=(
            *typed_findings(reading.job.findings, names),
            *measured_findings(outcomes, names, steps.readings),
        ),
        diagnosis=causes(outcomes, names),
        conflicts=_conflicts(results),
        questions=_questions(reading, results, steps),
        operations=steps.steps(),
        parts=part_docs(outcomes, names),
        schedule=steps.schedule(),
        cautions=_cautions(results),
        assumptions=tuple(
            Assumption(name=name, text=text, because=because)
            for name, text, because in results.assumptions
        ),
        missing=tuple(
            _missing(each)
            for each in _in_order(results.missing)
            if can_be_asked(each.name, results.rulebook)
        ),
    )


def _is_shown(decision: Decision, stocks: Container[str]) -> bool:
    """Leave out bare figures of the rulebook, and checks made on every row of a catalog.

    The figures stand by name in the inputs of decisions; a row that failed stands with its
    numbers beside the row that was chosen.
    """
    if decision.name in HEADLINES:
        return True
    return decision.form != "value" and not any(each in stocks for each in decision.per)


def _header(reading: JobReading, results: Results, system: str) -> JobHeader:
    job = reading.job
    return JobHeader(
        name=job.name,
        reference=job.reference,
        engine=job.engine,
        stage=results.facts.stage,
        stage_because=reading.stage_because,
        units=system,
        complaint=job.complaint,
        budget=_budget(job.budget),
        deadline=job.deadline,
    )


def _budget(budget: Budget | None) -> str:
    """Say the budget as it was typed."""
    if budget is None:
        return ""
    ends = " to ".join(end for end in (budget.low, budget.high) if end)
    return f"{budget.currency} {ends}".strip()


def _conflicts(results: Results) -> tuple[Conflict, ...]:
    """Gather conflicts between voices, and between goals.

    One that may apply is told once its figures are known: `May apply: not yet known` says nothing.
    """
    found = [
        Conflict(between=(each.about,), text=each.text)
        for outcome in results.outcomes.values()
        for each in outcome.conflicts
    ]
    found += [
        Conflict(
            between=each.conflict_between, text=_first_voice(each), ways_out=tuple(each.ways_out)
        )
        for each in results.advice
        if each.conflict_between and not (each.may_apply and NOT_KNOWN in _first_voice(each))
    ]
    return tuple(found)


def _first_voice(advised: Advised) -> str:
    text = next(iter(advised.voices.values()), advised.name)
    return f"May apply: {text}" if advised.may_apply else text


def _questions(reading: JobReading, results: Results, steps: StepDocs) -> tuple[QuestionDoc, ...]:
    asked = [_doubt(each) for each in reading.doubts]
    noted = [
        *reading.notes,
        *(each for outcome in results.outcomes.values() for each in outcome.questions),
        *steps.questions(),
        *failed_assumptions(results),
    ]
    asked += [QuestionDoc(about=each.about, text=each.text) for each in noted]
    return tuple(asked)


def _doubt(problem: Problem) -> QuestionDoc:
    about = problem.what.partition(":")[0]
    return QuestionDoc(about=about, text=problem.what, at=str(problem.place), fix=problem.fix)


def _cautions(results: Results) -> tuple[CautionDoc, ...]:
    """Gather the cautions of all advice, the gravest first, and close with the standing ones."""
    lines = [line for each in results.advice for line in each.cautions]
    mine = sorted(caution_docs(lines), key=lambda each: SEVERITIES.index(each.severity))
    return (*mine, *standing_cautions())


def _missing(each: Missing) -> MissingDoc:
    return MissingDoc(
        name=each.name, what=each.what, how=each.how, due=each.due, blocks=each.blocks
    )


def _in_order(missing: Iterable[Missing]) -> list[Missing]:
    """Put what is due before what is not yet due, and what blocks most first."""
    return sorted(missing, key=lambda each: (not each.due, -len(each.blocks), each.name))
