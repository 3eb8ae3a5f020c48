"""The plain part of a job: its name, what the customer said, money, and what has been done."""

import re
from collections.abc import Mapping as AnyMapping
from datetime import date
from typing import TypeVar

from planner.asbuilt.fits import ACCEPTED, fit_names
from planner.datafiles.nodes import Mapping, Node, Scalar
from planner.errors import Problem, nearest
from planner.models.job import SHEET_UNITS, Budget, Done, FindingEntry, Job, QuoteKeys
from planner.planning.job_keys import FORMAT
from planner.planning.job_nodes import unknown_keys
from planner.planning.job_torques import typed_torques
from planner.planning.job_walk import Walk, text_of
from planner.rulebook.syntax import STAGES, Rulebook

DONE_KEYS = ("done", "by", "note", "spec")
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
_CURRENCY = re.compile(r"[A-Z]{3}")


def job_record(
    walk: Walk, engine: str, findings: tuple[FindingEntry, ...], rulebook: Rulebook
) -> Job:
    """Gather the plain part of the job.

    Parameters
    ----------
    walk
        What the walk through the file found; gets the problems found here.
    engine
        The engine's id, or ``inline``.
    findings
        Findings as typed.
    rulebook
        Knows the operations that may be marked done.

    Returns
    -------
    Job
        The record.
    """
    texts, problems = walk.texts, walk.problems
    _check_format(texts, problems)
    return Job(
        name=text_of(texts, "job.name") or "unnamed job",
        reference=text_of(texts, "job.reference"),
        sheet_units=_one_of("job.sheet_units", SHEET_UNITS, texts, problems) or "metric",
        stage_held=_one_of("job.stage", STAGES, texts, problems),
        engine=engine,
        complaint=text_of(texts, "history.complaint"),
        budget=_budget(texts, problems),
        deadline=_day("goals.deadline", texts, problems),
        accessories=text_of(texts, "goals.accessories"),
        history={
            path.partition(".")[2]: node.text
            for path, node in texts.items()
            if path.startswith("history.") and path != "history.complaint"
        },
        findings=findings,
        progress=_progress(walk.special.get("progress"), rulebook, problems),
        as_built=_names(walk.special.get("as_built"), rulebook, problems),
        quote=QuoteKeys(
            number=text_of(texts, "quote.number"),
            date=_day("quote.date", texts, problems),
            start=_day("quote.start", texts, problems),
        ),
        torque_sheet=typed_torques(walk.special.get("torque_sheet"), rulebook, problems),
    )


def _check_format(texts: AnyMapping[str, Scalar], problems: list[Problem]) -> None:
    found = texts.get("format")
    if found is not None and found.text != FORMAT:
        problems.append(format_problem(found))


def format_problem(found: Scalar) -> Problem:
    """Word what is wrong with a format number that this program does not read.

    A newer one is never to be changed by hand: the same keys may mean something else there.
    """
    if found.text.isdecimal() and int(found.text) > int(FORMAT):
        what = f"this job is written in format {found.text}, and this program reads {FORMAT}"
        fix = "bring the program up to date; leave the number, as keys may mean something else"
        return Problem(what, fix, found.place)
    what = f"format is {found.text!r}, and there is no such format"
    return Problem(what, f"write format: {FORMAT}", found.place)


Word = TypeVar("Word", bound=str)


def _one_of(
    path: str, allowed: tuple[Word, ...], texts: AnyMapping[str, Scalar], problems: list[Problem]
) -> Word | None:
    found = texts.get(path)
    if found is None:
        return None
    for word in allowed:
        if word == found.text:
            return word
    offer = nearest(found.text, allowed)
    hint = f"did you mean {offer}? " if offer else ""
    what = f"{path} is {found.text!r}"
    problems.append(Problem(what, f"{hint}allowed: {', '.join(allowed)}", found.place))
    return None


def _budget(texts: AnyMapping[str, Scalar], problems: list[Problem]) -> Budget | None:
    low, high = texts.get("goals.budget.low"), texts.get("goals.budget.high")
    currency = texts.get("goals.budget.currency")
    if low is None and high is None:
        return None
    ends = [_money(each, problems) for each in (low, high) if each is not None]
    if low and high and None not in ends and (ends[0] or 0) > (ends[1] or 0):
        what = f"goals.budget runs from {low.text} down to {high.text}"
        problems.append(Problem(what, "write the smaller sum as low", low.place))
    if currency is not None and not _CURRENCY.fullmatch(currency.text):
        what = f"goals.budget.currency is {currency.text!r}"
        fix = "write its three-letter code, for example USD"
        problems.append(Problem(what, fix, currency.place))
    return Budget(
        low=low.text if low else "",
        high=high.text if high else "",
        currency=currency.text if currency else "",
    )


def _money(node: Scalar, problems: list[Problem]) -> float | None:
    number = node.value
    if isinstance(number, int | float) and not isinstance(number, bool) and number >= 0:
        return float(number)
    what = f"{node.text!r} is not a sum of money"
    problems.append(Problem(what, "write a plain number of the currency", node.place))
    return None


def _day(path: str, texts: AnyMapping[str, Scalar], problems: list[Problem]) -> str:
    found = texts.get(path)
    return "" if found is None else _checked_day(path, found, problems)


def _checked_day(label: str, node: Scalar, problems: list[Problem]) -> str:
    text = node.text.strip()
    if not _DAY.fullmatch(text) or not _is_day(text):
        what = f"{label} is {text!r}, which is no date"
        problems.append(Problem(what, "write year-month-day, for example 2027-03-01", node.place))
        return ""
    return text


def _is_day(text: str) -> bool:
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def _progress(node: Node | None, rulebook: Rulebook, problems: list[Problem]) -> dict[str, Done]:
    """Read what has been done: `crack_test_block: {done: 2027-01-12, by: ...}`."""
    if node is None or (isinstance(node, Scalar) and node.value is None):
        return {}
    if not isinstance(node, Mapping):
        fix = "write OPERATION: {done: 2027-01-12, by: ...}"
        problems.append(Problem("progress is not a block of operations", fix, node.place))
        return {}
    found = {}
    for key, inner in node.entries:
        if key.text not in rulebook.operations:
            offer = nearest(key.text, rulebook.operations)
            hint = f"did you mean {offer}? " if offer else ""
            what = f"there is no operation {key.text!r}"
            problems.append(Problem(what, f"{hint}see borewright rules names", key.place))
            continue
        done = _done(f"progress.{key.text}", inner, problems)
        if done is not None:
            found[key.text] = done
    return found


def _done(label: str, node: Node, problems: list[Problem]) -> Done | None:
    if not isinstance(node, Mapping):
        fix = "write {done: 2027-01-12, by: ...}"
        problems.append(Problem(f"{label} is not a block of keys", fix, node.place))
        return None
    problems += unknown_keys(node, label, DONE_KEYS)
    day, by = node.get("done"), node.get("by")
    if not isinstance(day, Scalar):
        problems.append(Problem(f"{label} has no day", "add done: 2027-01-12", node.place))
        return None
    who = by.text.strip() if isinstance(by, Scalar) and by.value is not None else ""
    spec = node.get("spec")
    code = spec.text.strip() if isinstance(spec, Scalar) else ""
    return Done(day=_checked_day(label, day, problems), by=who, spec=code)


def _names(node: Node | None, rulebook: Rulebook, problems: list[Problem]) -> tuple[str, ...]:
    """List the decisions that the job holds finished measurements for."""
    if not isinstance(node, Mapping):
        return ()
    known = {*rulebook.results, *fit_names(rulebook), ACCEPTED}
    for key, _ in node.entries:
        if key.text not in known:
            offer = nearest(key.text, known)
            hint = f"did you mean {offer}? " if offer else ""
            what = f"as_built has no decision {key.text!r}"
            problems.append(Problem(what, f"{hint}see borewright rules names", key.place))
    return node.keys()
