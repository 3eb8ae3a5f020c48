"""Somebody signs for a reading that lies inside its limit and is not proved."""

from pathlib import Path

from planner.asbuilt.fits import ACCEPTED
from planner.datafiles.nodes import Mapping
from planner.datafiles.reader import read_yaml
from planner.datafiles.splice import Plain, plain
from planner.errors import BorewrightError
from planner.models.asbuilt import UNPROVED, ItemVerdict
from planner.models.history import Revision
from planner.planning.history import Edit, change_job, made_with
from planner.planning.verification import verify_job
from planner.rulebook.syntax import Rulebook


class NotAcceptableError(BorewrightError):
    """A reading that nobody may sign for: it is missing, failed, or already proved."""


def accept_reading(
    job: Path, what: tuple[str, str, str], signed: tuple[str, str], rulebook: Rulebook
) -> Revision:
    """Write a signature into the job for one reading.

    Parameters
    ----------
    job
        The job file.
    what
        The fit, the item in shop words, and the reason.
    signed
        Who signs, and the day.
    rulebook
        The rules.

    Returns
    -------
    Revision
        What was written down.

    Raises
    ------
    NotAcceptableError
        When the reading is not one that is inside its limit and not proved. What failed is
        corrected, not signed for.
    """
    fit, where, because = what
    verdict = _verdict(job, fit, where, rulebook)
    if verdict is None or verdict.state not in UNPROVED or not verdict.inside_limit:
        state = "not among the readings" if verdict is None else verdict.state
        raise NotAcceptableError(
            problem=f"{fit} {where} cannot be signed for: it is {state}.",
            reason="A signature stands only for a reading inside its limit that is not proved.",
            remedy="Measure it, or correct it; see borewright asbuilt JOB.",
        )
    entry: dict[str, Plain] = {
        "fit": fit,
        "where": where,
        "by": signed[0],
        "on": signed[1],
        "because": because,
    }
    made = change_job(
        job,
        [Edit(("as_built", ACCEPTED), [*_signed(job), entry])],
        who=signed[0],
        why=f"signed for {fit} {where}",
        made_with=made_with(rulebook),
    )
    if made is None:  # pragma: no cover - a signature always changes the file
        raise AssertionError
    return made


def _verdict(job: Path, fit: str, where: str, rulebook: Rulebook) -> ItemVerdict | None:
    fits = verify_job(job, rulebook).verification.fits
    found = [each for doc in fits if doc.id == fit for each in doc.items if each.where == where]
    return found[0] if found else None


def _signed(job: Path) -> list[Plain]:
    """Return the signatures that the job holds already."""
    root = read_yaml(job)
    held = root.get("as_built") if isinstance(root, Mapping) else None
    listed = plain(held.get(ACCEPTED)) if isinstance(held, Mapping) else None
    return list(listed) if isinstance(listed, list) else []
