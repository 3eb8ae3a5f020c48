"""What `check` finds out: a job that reads well, or a rulebook that proves."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from planner.errors import Problem
from planner.models.plan import Plan
from planner.planning.assemble import plan_job
from planner.planning.job_reader import read_job
from planner.route.order import prove_order
from planner.rulebook.rule_cases import CaseReport, run_cases
from planner.rulebook.syntax import Rulebook, TableBody


@dataclass(frozen=True, slots=True)
class RulesReport:
    """What was proved of a rulebook.

    Attributes
    ----------
    counts
        How many of each thing, in the order to print them.
    cases
        How the rule cases came out.
    problems
        Cases that failed, and faults found beyond loading.
    """

    rulebook: Rulebook
    counts: Mapping[str, int]
    cases: CaseReport
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class JobReport:
    """What was found of a job: the plan it leads to, and readings to ask about."""

    plan: Plan
    inputs: int
    doubts: tuple[Problem, ...]


def check_rules(rulebook: Rulebook, folders: Sequence[Path]) -> RulesReport:
    """Prove what loading does not: the order of operations, lists inside engines, rule cases.

    Parameters
    ----------
    rulebook
        The rulebook, read and proved.
    folders
        Its rules folders, for their cases.

    Returns
    -------
    RulesReport
        Counts and problems.

    Raises
    ------
    ProblemsFound
        When operations stand in a loop.
    """
    prove_order(rulebook.operations)
    cases = run_cases(rulebook, folders)
    return RulesReport(rulebook, _counts(rulebook), cases, cases.problems)


def check_job(path: Path, rulebook: Rulebook) -> JobReport:
    """Read a job and work it out, to say what it holds and what it lacks."""
    reading = read_job(path, rulebook)
    return JobReport(plan_job(reading, rulebook), len(reading.facts.inputs), reading.doubts)


def _counts(rulebook: Rulebook) -> dict[str, int]:
    forms = Counter(each.form for each in rulebook.decisions.values())
    bodies = [each.body for each in rulebook.decisions.values()]
    operations = rulebook.operations.values()
    stock = sum(len(rows) for rows in rulebook.stock_rows.values())
    return {
        "sources": len(rulebook.sources),
        "inputs": len(rulebook.inputs),
        "decisions": len(rulebook.decisions),
        **{f"  by {form}": forms[form] for form in sorted(forms)},
        "table rows": sum(len(body.rows) for body in bodies if isinstance(body, TableBody)),
        "catalog rows": stock,
        "advice": len(rulebook.advice),
        "operations": len(rulebook.operations),
        "reasons between operations": _total(each.after for each in operations),
        "hold points": sum(bool(each.hold) for each in operations),
    }


def _total(groups: Iterable[Mapping[str, str]]) -> int:
    return sum(len(each) for each in groups)
