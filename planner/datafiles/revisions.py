"""Folders as they stood at a revision that git keeps."""

import io
import subprocess
import tarfile
from pathlib import Path

from planner.errors import BorewrightError


class NoSuchRevisionError(BorewrightError):
    """A revision that git does not know, or no git to ask."""


def unpack_revision(revision: str, beside: Path, names: tuple[str, ...], into: Path) -> None:
    """Unpack some folders as they stood at a revision.

    Parameters
    ----------
    revision
        What git is asked for: a tag, a branch, a commit.
    beside
        A folder of the checkout; the folders named stand in it.
    names
        Folders wanted.
    into
        Where to put them.

    Raises
    ------
    NoSuchRevisionError
        When git is not there, or has no such revision.
    """
    command = ["git", "-C", str(beside), "archive", "--format=tar", "--end-of-options"]
    try:
        made = subprocess.run(  # noqa: S603 - no shell; the revision cannot be an option
            [*command, revision, *names], capture_output=True, check=False
        )
    except OSError as error:
        raise _refused(revision, "git is not installed") from error
    if made.returncode:
        raise _refused(revision, made.stderr.decode(errors="replace").strip())
    with tarfile.open(fileobj=io.BytesIO(made.stdout)) as archive:
        archive.extractall(into, filter="data")


def _refused(revision: str, reason: str) -> NoSuchRevisionError:
    return NoSuchRevisionError(
        problem=f"{revision} is neither a folder nor a revision that git can unpack.",
        reason=reason or "git gave no reason",
        remedy="Name a folder that holds rules/ (and catalogs/), or a commit of this checkout.",
    )
