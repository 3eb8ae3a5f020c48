"""A job's finished engine held against its plan: readings judged, hold points to sign."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path

from planner.asbuilt.verify import Work, open_fits, verify
from planner.datafiles.nodes import Mapping, Node
from planner.datafiles.reader import read_yaml
from planner.models.asbuilt import Verification
from planner.models.job import Done
from planner.planning.assemble import explainer, system_of
from planner.planning.cure_parts import with_parts
from planner.planning.explaining import Explainer
from planner.planning.job_overrides import with_overrides
from planner.planning.job_reader import JobReading, read_job_node
from planner.rulebook.printing import System
from planner.rulebook.syntax import Rulebook


@dataclass(frozen=True, slots=True)
class Verified:
    """A job with its plan and what was measured of the finished engine.

    Attributes
    ----------
    root
        The job as read, what-if settings in it.
    """

    root: Node
    reading: JobReading
    asked: Explainer
    verification: Verification


def verify_job(
    path: Path, rulebook: Rulebook, settings: Iterable[str] = (), units: System | None = None
) -> Verified:
    """Read a job, work its plan out and judge its as-built readings.

    Parameters
    ----------
    path
        The job file.
    rulebook
        The rules.
    settings
        What-if settings `KEY=VALUE`.
    units
        System to print in; the job's own when none is given.

    Returns
    -------
    Verified
        Plan and verification.

    Raises
    ------
    ProblemsFound
        With every slip of the file.
    """
    root = with_overrides(read_yaml(path), settings)
    return verify_node(root, rulebook, units)


def verify_node(root: Node, rulebook: Rulebook, units: System | None = None) -> Verified:
    """Judge a job that is already YAML nodes; see `verify_job`."""
    reading = read_job_node(root, rulebook)
    asked = explainer(reading, rulebook, units)
    found = verify_asked(root, asked, system_of(reading, units))
    cures = with_parts(found, root, asked.results, asked.steps.names)
    return Verified(root, reading, asked, replace(found, cures=cures))


def verify_asked(root: Node, asked: Explainer, system: System = "metric") -> Verification:
    """Judge the readings of a job whose plan is worked out already."""
    held = root.get("as_built") if isinstance(root, Mapping) else None
    steps = asked.steps
    return verify(asked.results, held, Work(steps.edges, steps.order, _valid(asked)), system)


def unproved_at(path: Path, operation: str, asked: Explainer) -> tuple[str, ...]:
    """List the readings that stand in the way of signing a hold point.

    Parameters
    ----------
    path
        The job file.
    operation
        The hold point.
    asked
        The plan of that job.

    Returns
    -------
    tuple of str
        Readings that are missing or did not pass; nothing when it may be signed.
    """
    return open_fits(verify_asked(read_yaml(path), asked).fits, operation)


def _valid(asked: Explainer) -> dict[str, Done]:
    """Return what is done, but for the names of steps that have been opened again.

    A step done to a specification that has changed keeps its day, so that readings taken before
    it stay out of date, but its signature no longer holds.
    """
    again = asked.plan.schedule.reopened
    return {
        name: replace(done, by="") if name in again else done
        for name, done in asked.steps.done.items()
    }
