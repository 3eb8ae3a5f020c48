"""The final record of a build: what was measured, signed and done, with a check code."""

import json
from collections.abc import Mapping
from dataclasses import replace
from hashlib import sha256
from pathlib import Path

from planner.errors import BorewrightError
from planner.models.asbuilt import SETTLED, BuildRecord, SignedStep
from planner.models.document import to_plain
from planner.models.groups import HEADLINES
from planner.planning.history import code_of, read_history
from planner.planning.verification import Verified


class RecordOpenError(BorewrightError):
    """A build whose record cannot be closed yet."""


def still_open(found: Verified) -> tuple[str, ...]:
    """List what stands in the way of the final record.

    Parameters
    ----------
    found
        The job, its plan and its readings.

    Returns
    -------
    tuple of str
        Readings that are missing or did not pass, hold points not signed, steps opened again.
    """
    fits = [
        f"{fit.title}{f', {each.where}' if each.where else ''}: {each.state}"
        for fit in found.verification.fits
        for each in fit.items
        if each.state not in SETTLED
    ]
    holds = [
        f"hold point {each.operation}: {each.state}"
        for each in found.verification.holds
        if each.state != "signed"
    ]
    again = [
        f"{name} is open again: {why}" for name, why in found.asked.plan.schedule.reopened.items()
    ]
    return (*fits, *holds, *again)


def build_record(job: Path, found: Verified) -> BuildRecord:
    """Close the record of a build.

    Parameters
    ----------
    job
        The job file, for its revision and check code.
    found
        The job, its plan and its readings.

    Returns
    -------
    BuildRecord
        With the check code over everything in it.

    Raises
    ------
    RecordOpenError
        While something is missing, failed, not proved or not signed.
    """
    waiting = still_open(found)
    if waiting:
        more = f", and {len(waiting) - SHOWN} more" if len(waiting) > SHOWN else ""
        raise RecordOpenError(
            problem=f"The record cannot be closed: {'; '.join(waiting[:SHOWN])}{more}.",
            reason="An engine leaves with every clearance measured and every hold point signed.",
            remedy="See all of it with borewright asbuilt JOB, and settle it.",
        )
    plan, last = found.asked.plan, read_history(job).last
    record = BuildRecord(
        name=plan.job.name,
        reference=plan.job.reference,
        engine=plan.job.engine,
        rules_edition=plan.stamp.rules_edition,
        rules_sha256=plan.stamp.rules_sha256,
        version=plan.stamp.version,
        revision=last.number if last else 0,
        job_sha256=code_of(job.read_text(encoding="utf-8")),
        specification=_specification(found),
        fits=found.verification.fits,
        not_applicable=found.verification.not_applicable,
        holds=found.verification.holds,
        steps=_steps(found),
    )
    return replace(record, sha256=record_code(record))


def record_code(record: BuildRecord) -> str:
    """Return the check code of a record, over everything but the code itself."""
    return plain_code(to_plain(replace(record, sha256="")))


def plain_code(document: object) -> str:
    """Return the check code of a record as JSON gives it; what stands under sha256 is left out."""
    held = dict(document) if isinstance(document, Mapping) else {}
    held.pop("sha256", None)
    text = json.dumps(held, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return sha256(text.encode("ascii")).hexdigest()


def record_json(record: BuildRecord) -> str:
    """Write the record as JSON, the same bytes for the same record."""
    return json.dumps(to_plain(record), indent=2, allow_nan=False) + "\n"


SHOWN = 4
"""How much of what is open one message names."""


def _specification(found: Verified) -> dict[str, str]:
    decisions = found.asked.plan.decisions
    return {decisions[name].title: decisions[name].text for name in HEADLINES if name in decisions}


def _steps(found: Verified) -> tuple[SignedStep, ...]:
    done = found.reading.job.progress
    return tuple(
        SignedStep(
            id=step.id,
            title=step.title,
            day=done[step.id].day if step.id in done else "",
            by=done[step.id].by if step.id in done else "",
        )
        for step in found.asked.plan.operations
    )
