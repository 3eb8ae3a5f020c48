"""Photographs of findings, taken in from beside the job file and from nowhere else."""

from base64 import b64encode
from collections.abc import Iterable
from pathlib import Path

from planner.models.job import FindingEntry
from planner.sheets.letters import clean
from planner.sheets.view import Block, Photo, Words

_MOST, _MOST_BYTES = 8, 3_000_000
_STARTS = {"png": b"\x89PNG\r\n\x1a\n", "jpeg": b"\xff\xd8\xff"}


def photos_of(findings: Iterable[FindingEntry], folder: Path | None) -> tuple[Block, ...]:
    """Take in the photographs that findings name.

    Parameters
    ----------
    findings
        As typed in the job.
    folder
        Where the job lies; a photograph must lie there or below.

    Returns
    -------
    tuple of Block
        A photograph each, or a line that says why it is not shown.
    """
    named = [each for each in findings if each.photo]
    return tuple(_photo(each, folder) for each in named[:_MOST])


def _photo(finding: FindingEntry, folder: Path | None) -> Block:
    said = clean(f"{finding.title} {finding.where}".strip())
    data, why = _read(finding.photo, folder)
    form = next((name for name, start in _STARTS.items() if data.startswith(start)), "")
    if not form:
        shown = clean(finding.photo)
        return Words(text=f"Photograph {shown} of {said} is not shown: {why}.", look="small")
    note = f": {clean(finding.note)}" if finding.note else ""
    return Photo(
        form=form, data=b64encode(data).decode(), alt=f"Photograph: {said}{note}", caption=said
    )


def _read(name: str, folder: Path | None) -> tuple[bytes, str]:
    """Read a file that lies beside the job; nothing, with the reason, when that cannot be."""
    if folder is None:
        return b"", "the job's folder is not known"
    home = folder.resolve()
    try:
        path = (home / name).resolve()
        if not path.is_relative_to(home):
            return b"", "it lies outside the job's folder"
        if path.stat().st_size > _MOST_BYTES:
            return b"", "it is larger than 3 MB"
        return path.read_bytes(), "it is neither a PNG nor a JPEG file"
    except (OSError, ValueError):
        return b"", "the file cannot be read"
