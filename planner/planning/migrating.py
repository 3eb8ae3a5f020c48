"""Bring a job file up to the format this program writes, comments and all.

There is one format so far. A job without a number was written before there were numbers: it
means what format 1 means, and gets the line. When a format 2 comes, its step joins here, and
a job of format 1 joins the fixtures.
"""

from pathlib import Path

from planner.datafiles.nodes import Mapping, Node, Scalar
from planner.datafiles.reader import read_yaml, read_yaml_text
from planner.datafiles.splice import plain
from planner.datafiles.text import decoded
from planner.datafiles.writing import write_whole
from planner.errors import BorewrightError, Problem, ProblemsFound
from planner.planning.job_keys import FORMAT
from planner.planning.job_record import format_problem


class NotMigratedError(BorewrightError):
    """A job file that could not be brought up to this format without touching more."""


def migrate(path: Path) -> bool:
    """Bring one job file up to this format.

    Parameters
    ----------
    path
        The file.

    Returns
    -------
    bool
        Whether it was changed.

    Raises
    ------
    ProblemsFound
        When it cannot be read, or is of a newer format.
    NotMigratedError
        When the changed text would not hold exactly what it held, and the number.
    """
    root = read_yaml(path)
    if not isinstance(root, Mapping):
        fix = "start with format: 1, job:, engine:, goals:"
        raise ProblemsFound([Problem("a job is a block of keys", fix, root.place)])
    found = root.get("format")
    if found is not None:
        _check(found)
        return False
    text = decoded(path.read_bytes(), str(path))
    write_whole(path, _numbered(text, root, path))
    return True


def _check(found: Node) -> None:
    if not isinstance(found, Scalar):
        fix = f"write format: {FORMAT}"
        raise ProblemsFound([Problem("format is not one number", fix, found.place)])
    if found.text != FORMAT:
        raise ProblemsFound([format_problem(found)])


def _numbered(text: str, root: Mapping, path: Path) -> str:
    """Write the number above the first key, below any comment that opens the file."""
    lines = text.splitlines(keepends=True)
    at = root.place.line - 1
    end = "\r\n" if lines[at].endswith("\r\n") else "\n"
    changed = "".join([*lines[:at], f"format: {FORMAT}{end}", *lines[at:]])
    try:
        held = plain(read_yaml_text(changed, str(path)))
    except ProblemsFound:
        held = None
    before = plain(root)
    if isinstance(before, dict) and held == {"format": int(FORMAT), **before}:
        return changed
    raise NotMigratedError(
        problem=f"{path} has no format number, and none can be put above its first key.",
        reason="The text read back would hold more than this change.",
        remedy=f"Write format: {FORMAT} into the job yourself.",
    )
