"""A store as one file: a zip that holds each job file and its history, readable without us."""

import io
import zipfile
from collections.abc import Sequence
from pathlib import PurePosixPath

from planner.errors import BorewrightError
from planner.models.history import MadeWith, Revision
from planner.store.keeping import (
    Entry,
    Store,
    checked_name,
    line_of,
    next_revision,
    read_line,
)

_STAMP = (1980, 1, 1, 0, 0, 0)
MOST_BYTES = 256 * 1024 * 1024


class BadBackupError(BorewrightError):
    """A file that is not a backup of a store."""


def backup(store: Store) -> bytes:
    """Write every job with its history into one file; the same store gives the same bytes."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name in store.names():
            revisions = store.revisions(name)
            lines = "".join(f"{line_of(each)}\n" for each in revisions)
            _put(archive, f"{name}.yaml", revisions[-1].text)
            _put(archive, f"{name}.history.jsonl", lines)
    return out.getvalue()


def restore(store: Store, raw: bytes) -> tuple[str, ...]:
    """Take every job of a backup into a store.

    Parameters
    ----------
    store
        Where to; a job that is there already is refused, none is overwritten.
    raw
        The file, as `backup` wrote it; job files without a history begin one.

    Returns
    -------
    tuple of str
        Names of the jobs taken in.

    Raises
    ------
    BadBackupError
        When the file is no zip, holds other things, or is too large when unpacked.
    """
    found = _read(raw)
    here = set(store.names())
    for name in found:
        if name in here:
            raise BadBackupError(
                problem=f"The store holds a job {name!r} already.",
                reason="Taking it in again would hide one of the two.",
                remedy="Restore into an empty store.",
            )
    for name, revisions in found.items():
        store.take_in(name, revisions)
    return tuple(found)


def _put(archive: zipfile.ZipFile, name: str, text: str) -> None:
    info = zipfile.ZipInfo(name, _STAMP)
    info.compress_type = zipfile.ZIP_DEFLATED
    archive.writestr(info, text.encode("utf-8"))


def _read(raw: bytes) -> dict[str, Sequence[Revision]]:
    try:
        archive = zipfile.ZipFile(io.BytesIO(raw))
    except zipfile.BadZipFile as error:
        raise _bad("it is no zip file") from error
    with archive:
        if sum(each.file_size for each in archive.infolist()) > MOST_BYTES:
            raise _bad("it is larger than 256 MiB when unpacked")
        held = {each: archive.read(each).decode("utf-8") for each in archive.namelist()}
    return {
        checked_name(PurePosixPath(each).stem): _history(each, held)
        for each in held
        if each.endswith(".yaml")
    }


def _history(name: str, held: dict[str, str]) -> Sequence[Revision]:
    """Read a job's history and hold its last state against the job file."""
    lines = held.get(name.removesuffix(".yaml") + ".history.jsonl")
    entry = Entry("", "taken in from a backup", MadeWith())
    if lines is None:
        return (next_revision(None, held[name], entry),)
    revisions = [read_line(line) for line in lines.splitlines()]
    if not revisions or revisions[-1].text != held[name]:
        raise _bad(f"{name} is not what its history ends with")
    return revisions


def _bad(why: str) -> BadBackupError:
    return BadBackupError(
        problem=f"This is not a backup of a store: {why}.",
        reason="Half a backup would look like the whole shop's work.",
        remedy="Use a file that serve --backup wrote.",
    )
