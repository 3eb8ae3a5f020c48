"""The impact of a change of the rules over many stored jobs: on every core, and resumable.

Every job's result is one line of a record file, written as it comes. A run that was stopped
goes on where it was: what the file holds for the same two rulebooks and the same bytes of a
job is not worked out again. Nothing but counts is held in memory, however many jobs there are.
"""

import gc
import hashlib
import json
from collections.abc import Callable, Iterator
from concurrent.futures import (
    FIRST_COMPLETED,
    BrokenExecutor,
    Future,
    ProcessPoolExecutor,
    wait,
)
from dataclasses import asdict, dataclass
from itertools import islice
from pathlib import Path
from typing import Any, Protocol

from planner.errors import BorewrightError
from planner.models.impact import Cause, JobImpact, Moved
from planner.planning.impact import impact_on
from planner.planning.job_reader import read_job
from planner.planning.table_cache import use_user_cache
from planner.records import record
from planner.rulebook import compiled
from planner.rulebook.definitions import Edited
from planner.rulebook.remembered import Memory, remembering

FORMAT = "borewright.impact/1"
_AHEAD = 4
"""Jobs handed out for each worker before one comes back."""


@record
class Books:
    """Where two rulebooks stand: folders of rules and of catalogs, old and new."""

    old: tuple[tuple[str, ...], tuple[str, ...]]
    new: tuple[tuple[str, ...], tuple[str, ...]]
    cache: str = ""

    def opened(self) -> Edited:
        """Open both rulebooks and find what they say differently."""
        cache = Path(self.cache) if self.cache else None
        old, new = (
            compiled.open_rulebook(
                [Path(each) for each in rules],
                [Path(each) for each in catalogs],
                cache,
                at_once=True,
            )
            for rules, catalogs in (self.old, self.new)
        )
        return Edited(old, new)


class Pool(Protocol):
    """What hands work out: a process pool, or a cluster's."""

    def submit(self, work: Callable[..., str], /, *arguments: Any) -> "Future[str]":  # noqa: ANN401
        """Start a call."""


class OtherChangeError(BorewrightError):
    """A record file that holds the impact of another change."""


class WorkerGoneError(BorewrightError):
    """A worker that ended before its work was done."""


_KEPT_EVERY = 64
"""Jobs after which a worker writes what slow formulas came to."""


@dataclass(slots=True)
class _Worker:
    """What one worker holds from job to job."""

    edited: Edited
    memory: Memory | None
    jobs: int = 0


_WORKERS: dict[Books, _Worker] = {}


def one_job(books: Books, folder: str, name: str) -> str:
    """Work out the impact on one job, as a line of the record; runs inside a worker.

    Parameters
    ----------
    books
        The two rulebooks; each worker opens them once.
    folder, name
        The jobs folder, and the job's file in it.

    Returns
    -------
    str
        One line of JSON.
    """
    if books not in _WORKERS:
        use_user_cache()
        memory = Memory(Path(books.cache)) if books.cache else None
        _WORKERS[books] = _Worker(books.opened(), memory)
        # what was opened stays; only what a job leaves behind is looked through
        gc.collect()
        gc.freeze()
    worker = _WORKERS[books]
    worker.jobs += 1
    with remembering(worker.memory):
        told = asdict(_impact(worker.edited, Path(folder), name))
    if worker.memory is not None and worker.jobs % _KEPT_EVERY == 0:
        worker.memory.keep()
    return json.dumps(told, allow_nan=False)


def _impact(edited: Edited, folder: Path, name: str) -> JobImpact:
    path = folder / name
    try:
        code = job_code(path)
        read = (read_job(path, edited.old), read_job(path, edited.new))
        return JobImpact(name, code, impact_on(*read, edited))
    except BorewrightError as error:
        return JobImpact(name, job_code(path), problem=str(error))
    except OSError as error:
        return JobImpact(name, "", problem=error.strerror or "cannot be read")


def job_code(path: Path) -> str:
    """Return the check code of a job file's bytes."""
    return hashlib.sha256(path.read_bytes()).hexdigest()


def jobs_in(folder: Path) -> Iterator[str]:
    """List the job files of a folder, in name order."""
    names = (path.relative_to(folder).as_posix() for path in folder.rglob("*.yaml"))
    yield from sorted(names)


class Record:
    """The file that results are written to, line by line.

    Parameters
    ----------
    path
        The file; made when it is not there.
    stamp
        Check codes of both rulebooks; a file of others is refused.
    """

    def __init__(self, path: Path, stamp: str) -> None:
        self.path, self.stamp = path, stamp
        self._known = dict(self._lines())
        fresh = not path.exists() or not path.stat().st_size
        self._stream = path.open("a", encoding="utf-8")
        if fresh:
            self._write(json.dumps({"format": FORMAT, "rules": stamp}))

    def has(self, folder: Path, name: str) -> bool:
        """Tell whether a job was worked out before, as its file is now."""
        try:
            return name in self._known and self._known[name] == job_code(folder / name)
        except OSError:
            return False

    def take(self, line: str) -> None:
        """Write one result."""
        self._write(line)

    def close(self) -> None:
        """Close the file."""
        self._stream.close()

    def _write(self, line: str) -> None:
        self._stream.write(line + "\n")
        self._stream.flush()

    def _lines(self) -> Iterator[tuple[str, str]]:
        """Read which jobs are in the file; a last line cut short is taken off."""
        if not self.path.exists():
            return
        whole = 0
        with self.path.open("rb") as stream:
            for number, line in enumerate(stream):
                found = _read(line)
                if found is None:
                    break
                if number == 0:
                    self._check(found)
                else:
                    yield found["job"], found["sha256"]
                whole += len(line)
        with self.path.open("rb+") as stream:
            stream.truncate(whole)

    def _check(self, head: dict[str, Any]) -> None:
        if head.get("format") != FORMAT or head.get("rules") != self.stamp:
            raise OtherChangeError(
                problem=f"{self.path} holds the impact of another change.",
                reason="Results of two changes in one file would be taken for one.",
                remedy="Name another file, or delete this one.",
            )


def _read(line: bytes) -> dict[str, Any] | None:
    try:
        found = json.loads(line) if line.endswith(b"\n") else None
    except ValueError:
        return None
    return found if isinstance(found, dict) else None


def results(path: Path, names: set[str]) -> Iterator[JobImpact]:
    """Read the results of some jobs, one at a time; the last line of a job counts."""
    last: dict[str, int] = {}
    with path.open("rb") as stream:
        at = len(stream.readline())
        for line in stream:
            last[json.loads(line)["job"]] = at
            at += len(line)
        for name in sorted(names & last.keys()):
            stream.seek(last[name])
            yield job_impact(json.loads(stream.readline()))


def job_impact(plain: dict[str, Any]) -> JobImpact:
    """Make a job's result from a line of the record."""
    moved = tuple(
        Moved(**{**each, "causes": tuple(Cause(**cause) for cause in each["causes"])})
        for each in plain["moved"]
    )
    return JobImpact(**{**plain, "moved": moved})


def run(
    books: Books, folder: Path, kept: Record, pool: Pool, workers: int
) -> Iterator[tuple[int, int]]:
    """Work out every job that the record lacks, and write each result as it comes.

    Parameters
    ----------
    books
        The two rulebooks.
    folder
        Where the jobs stand.
    kept
        The record.
    pool, workers
        What works, and how many there are.

    Yields
    ------
    tuple of int
        Jobs done, and jobs in all.
    """
    names = list(jobs_in(folder))
    open_names = (name for name in names if not kept.has(folder, name))
    done = len(names) - sum(not kept.has(folder, name) for name in names)
    yield done, len(names)
    going: set[Future[str]] = set()
    while True:
        ahead = islice(open_names, max(0, workers * _AHEAD - len(going)))
        going |= {pool.submit(one_job, books, str(folder), name) for name in ahead}
        if not going:
            return
        finished, going = wait(going, return_when=FIRST_COMPLETED)
        for each in finished:
            kept.take(_result(each, kept))
        done += len(finished)
        yield done, len(names)


def _result(each: "Future[str]", kept: Record) -> str:
    try:
        return each.result()
    except BrokenExecutor as error:
        raise WorkerGoneError(
            problem="A worker process ended before its job was done.",
            reason="It was stopped from outside, or ran out of memory.",
            remedy=f"Run the same command again: what is done stands in {kept.path}.",
        ) from error


def local_pool(workers: int) -> ProcessPoolExecutor:
    """Open a pool of processes on this machine."""
    return ProcessPoolExecutor(workers)
