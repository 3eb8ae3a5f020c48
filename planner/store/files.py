"""Jobs kept as files in one folder, each with its history beside it."""

from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

from planner.datafiles.writing import add_line, locked, write_whole
from planner.models.history import MadeWith, Revision
from planner.planning.history import change_job, code_of, history_path, read_history
from planner.store.keeping import (
    Entry,
    JobNameError,
    Kept,
    StaleError,
    checked_name,
    job_exists,
    kept,
    line_of,
    next_revision,
    no_such_job,
)

_ENDING = ".yaml"
_BY_HAND = Entry("", "read by the bench page", MadeWith())


class FileStore:
    """A folder of job files.

    A file may be changed in an editor at any time; the next look writes that down as a revision
    of its own, so that nothing is overtaken unseen.

    Parameters
    ----------
    folder
        Where the job files lie.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def names(self) -> tuple[str, ...]:
        """List the jobs: every job file whose name is safe."""
        found = []
        for path in sorted(self.folder.glob(f"*{_ENDING}")):
            with suppress(JobNameError):
                found.append(checked_name(path.stem))
        return tuple(found)

    def job(self, name: str) -> Kept:
        """Return a job as its file stands, after writing down what an editor changed."""
        path = self._path(name)
        if not path.exists():
            raise no_such_job(name)
        last = read_history(path).last
        if last is None or last.after != code_of(_text(path)):
            change_job(path, (), who=_BY_HAND.who, why=_BY_HAND.why, made_with=_BY_HAND.made_with)
            last = read_history(path).last
        if last is None:
            raise no_such_job(name)
        return kept(name, last)

    def revisions(self, name: str) -> tuple[Revision, ...]:
        """Return every revision of a job, oldest first."""
        self.job(name)
        return read_history(self._path(name)).revisions

    def create(self, name: str, text: str, entry: Entry) -> Kept:
        """Begin a job.

        Raises
        ------
        JobExistsError
            When there is one of that name.
        """
        path = self._path(name)
        with locked(path):
            if path.exists():
                raise job_exists(name)
            return self._written(path, None, text, entry)

    def add(self, name: str, text: str, base: int, entry: Entry) -> Kept:
        """Add a revision to a job, if it still is where the change began.

        The revision stands in the history before the file is replaced; a program killed between
        the two leaves a file that the next look brings to where it was going.

        Raises
        ------
        StaleError
            When somebody was quicker; nothing is written then.
        """
        self.job(name)
        path = self._path(name)
        with locked(path):
            last = read_history(path).last
            if last is None:
                raise no_such_job(name)
            if last.number != base or last.after != code_of(_text(path)):
                raise StaleError(base, kept(name, last), text)
            if last.text == text:
                return kept(name, last)
            return self._written(path, last, text, entry)

    def take_in(self, name: str, revisions: Sequence[Revision]) -> Kept:
        """Take a whole job in, with the history it had elsewhere."""
        path = self._path(name)
        with locked(path):
            if path.exists() or history_path(path).exists():
                raise job_exists(name)
            for each in revisions:
                add_line(history_path(path), line_of(each))
            write_whole(path, revisions[-1].text)
        return kept(name, revisions[-1])

    def _written(self, path: Path, last: Revision | None, text: str, entry: Entry) -> Kept:
        revision = next_revision(last, text, entry)
        add_line(history_path(path), line_of(revision))
        write_whole(path, text)
        return kept(path.stem, revision)

    def _path(self, name: str) -> Path:
        return self.folder / f"{checked_name(name)}{_ENDING}"


def _text(path: Path) -> str:
    return path.read_bytes().decode("utf-8", "replace")
