"""An old plan worked out again: from a revision of the job, or from the stamp on the plan."""

import json
from collections.abc import Mapping
from pathlib import Path

from planner import __version__
from planner.datafiles.reader import read_yaml_text
from planner.errors import BorewrightError
from planner.models.document import to_plain
from planner.models.history import MadeWith
from planner.models.plan import Plan
from planner.planning.assemble import plan_job
from planner.planning.history import read_history
from planner.planning.job_reader import read_job_node
from planner.rulebook.syntax import Rulebook


class NotReproducedError(BorewrightError):
    """A plan that cannot be worked out again, with the reason."""


def plan_of_revision(job: Path, number: int, rulebook: Rulebook) -> Plan:
    """Plan a job as it stood at a revision, with the rules it was planned with then.

    Parameters
    ----------
    job
        The job file; its history stands beside it.
    number
        The revision.
    rulebook
        Today's rules.

    Returns
    -------
    Plan
        The plan of then.

    Raises
    ------
    NotReproducedError
        When today's rules or program are not those of then.
    """
    revision = read_history(job).revision(number)
    _same_rules(f"Revision {number}", revision.made_with, rulebook)
    root = read_yaml_text(revision.text, f"{job} revision {number}")
    return plan_job(read_job_node(root, rulebook), rulebook)


def revision_of_plan(job: Path, document: Path, rulebook: Rulebook) -> int:
    """Find the revision that a saved plan was made from, by making it again.

    Parameters
    ----------
    job
        The job file.
    document
        The plan as JSON, with its stamp.
    rulebook
        Today's rules.

    Returns
    -------
    int
        The revision whose plan is the same, key for key.

    Raises
    ------
    NotReproducedError
        When the rules or the program differ, or no revision leads to that plan.
    """
    try:
        saved = json.loads(document.read_text(encoding="utf-8"))
        stamp = saved["stamp"]
        told = MadeWith(
            **{name: stamp[name] for name in ("rules_edition", "rules_sha256", "version")}
        )
    except (OSError, ValueError, KeyError, TypeError) as error:
        raise NotReproducedError(
            problem=f"{document} is no plan: {error}.",
            reason="A plan carries its stamp: rules, check code, version.",
            remedy="Save one with borewright plan JOB --format json.",
        ) from error
    _same_rules(str(document), told, rulebook)
    history = read_history(job)
    for each in reversed(history.revisions):
        if each.made_with.rules_sha256 in ("", rulebook.sha256):
            root = read_yaml_text(each.text, str(job))
            if _plain(plan_job(read_job_node(root, rulebook), rulebook)) == saved:
                return each.number
    raise NotReproducedError(
        problem=f"None of the {len(history.revisions)} revisions of {job} leads to {document}.",
        reason="It was made with --set or --units, from a state before the history begins, or "
        "it was changed afterwards.",
        remedy="Write the present state down with borewright history JOB --record --by NAME.",
    )


def _plain(plan: Plan) -> Mapping[str, object]:
    found = json.loads(json.dumps(to_plain(plan), allow_nan=False))
    return found if isinstance(found, dict) else {}


def _same_rules(what: str, then: MadeWith, rulebook: Rulebook) -> None:
    if then.rules_sha256 and then.rules_sha256 != rulebook.sha256:
        raise NotReproducedError(
            problem=f"{what} was made with rules edition {then.rules_edition}, check code "
            f"{then.rules_sha256[:16]}; these are edition {rulebook.edition}, check code "
            f"{rulebook.sha256[:16]}.",
            reason="Other rules may come to other figures.",
            remedy="Lay the rules and catalogs of then in with --rules and --catalogs, or install "
            f"borewright {then.version}.",
        )
    if then.version and then.version != __version__:
        raise NotReproducedError(
            problem=f"{what} was made with borewright {then.version}; this is {__version__}.",
            reason="Another program may come to other figures from the same rules.",
            remedy=f"Install borewright {then.version}.",
        )
