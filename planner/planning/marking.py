"""Mark an operation done in the job file: who, when, and to which specification."""

from collections.abc import Mapping as AnyMapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from planner.datafiles.nodes import Mapping
from planner.datafiles.reader import read_yaml_text
from planner.datafiles.splice import Plain, flow, plain, spliced
from planner.datafiles.text import decoded
from planner.datafiles.writing import locked
from planner.errors import BorewrightError, nearest
from planner.planning.assemble import explainer
from planner.planning.explaining import Explainer
from planner.planning.history import NOBODY, made_with, put_down
from planner.planning.job_reader import read_job
from planner.planning.reopened import Specs
from planner.planning.verification import unproved_at
from planner.rulebook.syntax import Rulebook


class NotMarkedError(BorewrightError):
    """Work that the plan says cannot be done yet, or is not part of it."""


@dataclass(frozen=True, slots=True)
class Marked:
    """What was written, and what is open now.

    Attributes
    ----------
    spec
        Check code of what the plan asked of the step.
    can_start_now
        Steps that can start after it.
    """

    operation: str
    day: str
    by: str
    spec: str
    can_start_now: tuple[str, ...]
    reopened: tuple[str, ...]


def mark_done(path: Path, operation: str, day: date, by: str, rulebook: Rulebook) -> Marked:
    """Write an operation into the job's progress; nothing else of the file moves.

    Parameters
    ----------
    path
        The job file.
    operation
        The step.
    day
        When it was done.
    by
        Who did it, or signed it.
    rulebook
        The rules.

    Returns
    -------
    Marked
        What was written, and what can start now.

    Raises
    ------
    NotMarkedError
        When the plan does not hold the step, a step before it is open, or nobody signs a hold
        point.
    """
    with locked(path):
        asked = explainer(read_job(path, rulebook), rulebook)
        _check(asked, operation, by)
        _check_measured(path, asked, operation)
        spec = Specs(asked.results, asked.plan.parts).code(operation)
        entry = {"done": day.isoformat(), **({"by": by} if by else {}), "spec": spec}
        text = decoded(path.read_bytes(), str(path))
        changed, rules = _written(text, operation, entry), made_with(rulebook)
        put_down(path, changed, who=by or NOBODY, why=f"{operation} done", made_with=rules)
    after = explainer(read_job(path, rulebook), rulebook).plan.schedule
    return Marked(operation, day.isoformat(), by, spec, after.can_start_now, tuple(after.reopened))


def _written(text: str, operation: str, entry: dict[str, str]) -> str:
    """Add the line; the first one opens the block, so that each step keeps its own line."""
    root = read_yaml_text(text, "job")
    if isinstance(root, Mapping) and root.get("progress") is None and root.place.column == 1:
        line = "\r\n" if "\r\n" in text else "\n"
        end = "" if text.endswith("\n") else line
        opened = f"{text}{end}progress:{line}  {operation}: {flow(entry)}{line}"
        if plain(read_yaml_text(opened, "job")) == _with(plain(root), operation, entry):
            return opened
    return spliced(text, ("progress", operation), entry)


def _with(before: Plain, operation: str, entry: dict[str, str]) -> Plain:
    held = dict(before) if isinstance(before, AnyMapping) else {}
    return {**held, "progress": {operation: entry}}


def _check(asked: Explainer, operation: str, by: str) -> None:
    step = asked.step(operation)
    if step is None:
        raise _not_in_plan(asked, operation)
    schedule = asked.plan.schedule
    finished = set(schedule.done) - set(schedule.reopened)
    if operation in finished:
        raise NotMarkedError(
            problem=f"{operation} is already done: {step.done}.",
            reason="Marking it again would lose who did it first.",
            remedy="Take its line out of progress: in the job if it is to be done again.",
        )
    before = {name: why for name, why in step.after.items() if name not in finished}
    if before:
        told = "; ".join(f"{name} ({why})" for name, why in before.items())
        raise NotMarkedError(
            problem=f"{operation} cannot be done yet: {told}.",
            reason="A step before it is open or has been reopened, and its hold point blocks it.",
            remedy=f"Do and mark {next(iter(before))} first.",
        )
    blocked = [each for each in asked.plan.torque_sheet if each.blocked]
    for line in blocked:
        if operation in line.tightened_at:
            raise NotMarkedError(
                problem=f"{operation} tightens the {line.title}, and no figure is typed in.",
                reason="A bolt tightened to a guess lets go or breaks; the maker decides.",
                remedy=f"Write torque_sheet.{line.id}: {{value: ..., from: ...}} into the job.",
            )
    if step.hold and not by:
        raise NotMarkedError(
            problem=f"{operation} is a hold point: {step.hold}.",
            reason="A hold point that nobody signed holds nothing.",
            remedy='Add --by "NAME" of the person who signs.',
        )


def _check_measured(path: Path, asked: Explainer, operation: str) -> None:
    """Hold a hold point until everything measured there has passed, or was signed for."""
    step = asked.step(operation)
    open_ = unproved_at(path, operation, asked) if step is not None and step.hold else ()
    if open_:
        more = f", and {len(open_) - SHOWN} more" if len(open_) > SHOWN else ""
        raise NotMarkedError(
            problem=f"{operation} is a hold point with open readings: "
            f"{', '.join(open_[:SHOWN])}{more}.",
            reason="A hold point is passed by measuring, not by a signature alone.",
            remedy="Enter the readings under as_built:, and see borewright asbuilt JOB.",
        )


SHOWN = 4
"""How many open readings a message names."""


def _not_in_plan(asked: Explainer, operation: str) -> NotMarkedError:
    known = [each.id for each in asked.plan.operations]
    offer = nearest(operation, known)
    if asked.is_operation(operation):
        why = "Nothing on this job calls for it."
    else:
        why = "The rulebook has no step of that name."
    return NotMarkedError(
        problem=f"{operation!r} is not in this plan.",
        reason=why,
        remedy=f"Did you mean {offer}?" if offer else "See the steps with borewright plan JOB.",
    )
