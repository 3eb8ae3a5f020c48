"""What every store of jobs does, whatever it keeps them in: files, SQLite or PostgreSQL."""

import json
import re
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from typing import Protocol

from planner.errors import BorewrightError
from planner.models.history import SCHEMA, Change, MadeWith, Revision
from planner.planning.history import changes_between, code_of

_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,63}")
BEGINS = "the history begins"


class JobNameError(BorewrightError):
    """A name that no job may have: it must be safe as the name of a file."""


class NoSuchJobError(BorewrightError):
    """A job that the store does not hold."""


class JobExistsError(BorewrightError):
    """A job of that name is there already."""


class DamagedRevisionError(BorewrightError):
    """A revision in the store that does not read as one."""


@dataclass(frozen=True, slots=True)
class Kept:
    """A job as it stands in the store: its text, and the number of its newest revision."""

    name: str
    text: str
    number: int
    when: str = ""
    who: str = ""


@dataclass(frozen=True, slots=True)
class Entry:
    """Who makes a change, why, and with which rules."""

    who: str
    why: str
    made_with: MadeWith


class StaleError(BorewrightError):
    """A change made on a revision that is no longer the newest; nothing was overwritten.

    Parameters
    ----------
    base
        Number of the revision the change was made on.
    theirs
        The job as somebody else left it.
    mine
        The text that was not written.
    """

    def __init__(self, base: int, theirs: Kept, mine: str) -> None:
        who = f" by {theirs.who}" if theirs.who else ""
        super().__init__(
            problem=f"{theirs.name} is at revision {theirs.number}{who}; you began at {base}.",
            reason="Writing now would wipe out what was entered in between.",
            remedy="Look at both, and enter again what is still to stand.",
        )
        self.base, self.theirs, self.mine = base, theirs, mine


class Store(Protocol):
    """A place that keeps jobs."""

    def names(self) -> tuple[str, ...]:
        """List the jobs."""
        ...

    def job(self, name: str) -> Kept:
        """Return a job as it stands."""
        ...

    def revisions(self, name: str) -> tuple[Revision, ...]:
        """Return every revision of a job, oldest first."""
        ...

    def create(self, name: str, text: str, entry: Entry) -> Kept:
        """Begin a job."""
        ...

    def add(self, name: str, text: str, base: int, entry: Entry) -> Kept:
        """Add a revision to a job, if it still is where the change began."""
        ...

    def take_in(self, name: str, revisions: Sequence[Revision]) -> Kept:
        """Take a whole job in, with the history it had elsewhere."""
        ...


def checked_name(name: str) -> str:
    """Return a name that is safe as the name of a file.

    Raises
    ------
    JobNameError
        When it holds anything but letters, digits, hyphens and underscores.

    Examples
    --------
    >>> checked_name("larch-2026_01")
    'larch-2026_01'
    """
    if not _NAME.fullmatch(name):
        raise JobNameError(
            problem=f"{name[:80]!r} cannot be the name of a job.",
            reason="A job's name is also the name of its file.",
            remedy="Use up to 64 letters a to z, digits, - and _; the first a letter or digit.",
        )
    return name


def no_such_job(name: str) -> NoSuchJobError:
    """Say that a job is not there."""
    return NoSuchJobError(
        problem=f"There is no job {name!r}.",
        reason="Nothing is kept under that name.",
        remedy="Choose one from the list of jobs, or begin it.",
    )


def job_exists(name: str) -> JobExistsError:
    """Say that a job is there already."""
    return JobExistsError(
        problem=f"There is a job {name!r} already.",
        reason="Beginning it again would hide the first one.",
        remedy="Choose another name.",
    )


def next_revision(last: Revision | None, text: str, entry: Entry) -> Revision:
    """Make the revision that comes after another.

    Parameters
    ----------
    last
        The newest one; none for a job that begins.
    text
        The job as it is to stand.
    entry
        Who, why, and with which rules.

    Returns
    -------
    Revision
        Chained to the one before by the check code of its line.
    """
    before = last.text if last else ""
    return Revision(
        number=last.number + 1 if last else 1,
        when=datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ"),
        who=entry.who,
        why=entry.why,
        before=code_of(before) if last else "",
        after=code_of(text),
        text=text,
        chain=code_of(line_of(last)) if last else "",
        changes=changes_between(before, text) if last else (),
        made_with=entry.made_with,
    )


def line_of(revision: Revision) -> str:
    """Write a revision on one line, as the history beside a job file holds it."""
    return json.dumps(asdict(revision), ensure_ascii=False)


def read_line(line: str) -> Revision:
    """Read a revision back.

    Raises
    ------
    DamagedRevisionError
        When the line is not one.
    """
    try:
        found = json.loads(line)
        found["changes"] = tuple(Change(**each) for each in found["changes"])
        found["made_with"] = MadeWith(**found["made_with"])
        revision = Revision(**found)
    except (ValueError, TypeError, KeyError) as error:
        raise _damaged(line) from error
    if revision.schema != SCHEMA:
        raise _damaged(line)
    return revision


def _damaged(line: str) -> DamagedRevisionError:
    return DamagedRevisionError(
        problem=f"A line of a history does not read as a revision: {line[:60]!r}.",
        reason="It was torn or changed, and a guess at it could lose readings.",
        remedy="Take the job from a backup, or take that line out by hand.",
    )


def kept(name: str, last: Revision) -> Kept:
    """Return a job as its newest revision leaves it."""
    return Kept(name, last.text, last.number, last.when, last.who)
