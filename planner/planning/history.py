"""The history beside a job file: read it, add to it, bring an old state back to be looked at."""

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path

from planner import __version__
from planner.datafiles.reader import read_yaml_text
from planner.datafiles.splice import Plain, flow, plain, spliced
from planner.datafiles.writing import add_line, locked, write_whole
from planner.errors import BorewrightError, ProblemsFound
from planner.models.history import SCHEMA, Change, MadeWith, Revision
from planner.rulebook.syntax import Rulebook

NOBODY = "nobody named"
BY_HAND = "changed in an editor"
BEGINS = "the history begins"


class UnfinishedChangeError(BorewrightError):
    """A change that a killed program left half done, finished now."""


class NoSuchRevisionError(BorewrightError):
    """A revision that the history does not hold."""


@dataclass(frozen=True, slots=True)
class Edit:
    """A key of the job, from the root down, and what to set it to."""

    path: tuple[str, ...]
    value: Plain


@dataclass(frozen=True, slots=True)
class History:
    """The history of a job as it stands on the disk.

    Attributes
    ----------
    revisions
        In the order they were made.
    damaged
        Numbers of lines that do not read: torn by a kill, or changed by somebody.
    broken
        Numbers of revisions whose line before is not the one they were written after.
    """

    path: Path
    revisions: tuple[Revision, ...] = ()
    damaged: tuple[int, ...] = ()
    broken: tuple[int, ...] = ()

    @property
    def last(self) -> Revision | None:
        """The newest revision."""
        return self.revisions[-1] if self.revisions else None

    def revision(self, number: int) -> Revision:
        """Return a revision by its number."""
        for each in self.revisions:
            if each.number == number:
                return each
        count = len(self.revisions)
        raise NoSuchRevisionError(
            problem=f"There is no revision {number} of this job.",
            reason=f"Its history {self.path} holds {count}.",
            remedy="See them with borewright history JOB.",
        )


def history_path(job: Path) -> Path:
    """Name the history beside a job: `larch.yaml` has `larch.history.jsonl`."""
    return job.with_name(f"{job.stem}.history.jsonl")


def read_history(job: Path) -> History:
    """Read the history beside a job; an empty one when there is none yet."""
    path = history_path(job)
    if not path.exists():
        return History(path)
    revisions: list[Revision] = []
    damaged, broken = [], []
    chain = ""
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if not line:
            continue
        found = _revision(line)
        if found is None:
            damaged.append(number)
            continue
        if found.chain != chain:
            broken.append(found.number)
        chain = code_of(line)
        revisions.append(found)
    return History(path, tuple(revisions), tuple(damaged), tuple(broken))


def change_job(
    job: Path,
    edits: Sequence[Edit],
    *,
    who: str,
    why: str,
    made_with: MadeWith,
    check: Callable[[str], None] | None = None,
) -> Revision | None:
    """Change keys of a job file and write down what was changed.

    Whatever somebody changed in an editor since the last revision is written down first. The
    revision stands in the history before the file is replaced, so that a program killed between
    the two leaves the old file whole, and the next change brings the file to where it was going.

    Parameters
    ----------
    job
        The file.
    edits
        What to set; with none, only what was changed by hand is written down.
    who, why
        Who does it, and the command or reason.
    made_with
        Rules and program in use.
    check
        Looks at the changed text before it is written, and raises when it will not do.

    Returns
    -------
    Revision or None
        The newest revision this call made; nothing when there was nothing to write down.

    Raises
    ------
    ProblemsFound
        When the file is no YAML.
    NotSplicedError
        When a change would touch more than its key.
    """
    with locked(job):
        writer = _Writer(job, read_history(job), who, made_with)
        text = writer.settled(_text_of(job))
        changed = text
        for each in edits:
            changed = _edited(changed, each)
        if check is not None:
            check(changed)
        if changed != text:
            writer.add(text, changed, why)
            write_whole(job, changed)
        return writer.made


def made_with(rulebook: Rulebook) -> MadeWith:
    """Say which rules and which program are in use."""
    return MadeWith(
        rules_edition=rulebook.edition, rules_sha256=rulebook.sha256, version=__version__
    )


def put_down(job: Path, text: str, *, who: str, why: str, made_with: MadeWith) -> Revision | None:
    """Replace a job's text and write down what changed, for a caller that holds its lock.

    Parameters
    ----------
    job
        The file, locked by the caller since it was read.
    text
        Its new content.
    who, why, made_with
        As for `change_job`.

    Returns
    -------
    Revision or None
        What was written down.

    Raises
    ------
    UnfinishedChangeError
        When a killed program had left a change half done; it is finished now.
    """
    writer = _Writer(job, read_history(job), who, made_with)
    before = _text_of(job)
    if writer.settled(before) != before:
        raise UnfinishedChangeError(
            problem=f"A program that was ended had left a change of {job} half done.",
            reason="It stood in the history and not yet in the file; it does now.",
            remedy="Look at it with borewright history JOB, and run the command again.",
        )
    if text != before:
        writer.add(before, text, why)
        write_whole(job, text)
    return writer.made


def _edited(text: str, edit: Edit) -> str:
    """Set one key; one that holds the value already is left as it is written."""
    held = plain(read_yaml_text(text, "text"))
    for key in edit.path:
        held = held.get(key, MISSING) if isinstance(held, Mapping) else MISSING
    return text if held == edit.value else spliced(text, edit.path, edit.value)


MISSING = "\0"
"""Stands where a job has no such key; no text of a job can hold it."""


class _Writer:
    """Adds revisions to one history, whose lock is held."""

    def __init__(self, job: Path, history: History, who: str, made_with: MadeWith) -> None:
        self.job, self.history, self.who, self.made_with = job, history, who, made_with
        self.last = history.last
        self.made: Revision | None = None

    def settled(self, text: str) -> str:
        """Bring history and file together; return the text to go on from."""
        last = self.last
        if last is None:
            self.add("", text, BEGINS)
        elif code_of(text) == last.before and last.before != last.after:
            write_whole(self.job, last.text)
            return last.text
        elif code_of(text) != last.after:
            self.add(last.text, text, BY_HAND)
        return text

    def add(self, before: str, after: str, why: str) -> None:
        """Add one revision."""
        lines = _lines(self.history.path)
        revision = Revision(
            number=self.last.number + 1 if self.last else 1,
            when=datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ"),
            who=self.who,
            why=why,
            before=code_of(before) if before else "",
            after=code_of(after),
            text=after,
            chain=code_of(lines[-1]) if lines else "",
            changes=() if why == BEGINS else changes_between(before, after),
            made_with=self.made_with,
        )
        add_line(self.history.path, json.dumps(asdict(revision), ensure_ascii=False))
        self.last = self.made = revision


def changes_between(before: str, after: str) -> tuple[Change, ...]:
    """List the keys whose values differ between two texts of a job."""
    old, new = _leaves(before), _leaves(after)
    keys = [*old, *(key for key in new if key not in old)]
    return tuple(
        Change(key=key, old=old.get(key, ""), new=new.get(key, ""))
        for key in keys
        if old.get(key) != new.get(key)
    )


def code_of(text: str) -> str:
    """Return the check code of a text."""
    return sha256(text.encode("utf-8")).hexdigest()


def _leaves(text: str) -> dict[str, str]:
    """Return every single value and list of a job by its dotted key, as YAML writes it."""
    try:
        held = plain(read_yaml_text(text, "text")) if text.strip() else {}
    except ProblemsFound:
        return {"(the file could not be read)": code_of(text)[:8]}
    found: dict[str, str] = {}
    _gather(held, "", found)
    return found


def _gather(value: Plain, key: str, found: dict[str, str]) -> None:
    if isinstance(value, Mapping) and value:
        for name, inner in value.items():
            _gather(inner, f"{key}.{name}" if key else name, found)
    else:
        found[key] = flow(value)


def _text_of(job: Path) -> str:
    """Read a job file with its line ends and its mark as they stand."""
    try:
        return job.read_bytes().decode("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise UnreadableJobError(
            problem=f"{job} cannot be read: {error}.",
            reason="Nothing can be changed in a file that cannot be read.",
            remedy="Check the name; a job file is text in UTF-8.",
        ) from error


class UnreadableJobError(BorewrightError):
    """A job file that is not there or is no text."""


def _lines(path: Path) -> list[str]:
    """Return the lines of a history that read as revisions."""
    if not path.exists():
        return []
    lines = path.read_text(encoding="utf-8").splitlines()
    return [line for line in lines if _revision(line) is not None]


def _revision(line: str) -> Revision | None:
    try:
        found = json.loads(line)
        if found.get("schema") != SCHEMA:
            return None
        found["changes"] = tuple(Change(**each) for each in found["changes"])
        found["made_with"] = MadeWith(**found["made_with"])
        return Revision(**found)
    except (ValueError, TypeError, KeyError, AttributeError):
        return None
