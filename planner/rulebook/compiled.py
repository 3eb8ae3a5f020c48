"""The compiled rulebook: proved once, kept as JSON by content, and read back in its stead.

The file's name is a hash of every rule and catalog file, of the names they are shown by, and
of the program's own files: whatever changes, another file is asked for, so an old answer is
never read. What is read back is only records of the classes below. Formulas are kept as their
text and go through the whitelisted syntax tree again, with every name, unit and kind checked;
tables are cut again from their cells. A file that is missing, damaged or foreign counts as
none: the rules are read and proved from their own files.
"""

import hashlib
import json
import os
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

from planner.errors import BorewrightError
from planner.rulebook.compiled_kinds import kinds
from planner.rulebook.packing import Packer, Unpacker
from planner.rulebook.ranges import Unreadable
from planner.rulebook.scope import AlreadyTold, scope_of
from planner.rulebook.source_files import shown, yaml_files
from planner.rulebook.stamps import program_stamp
from planner.rulebook.syntax import Rulebook

FORMAT = 1
MOST_FILES = 8
MOST_BYTES = 64 * 1024 * 1024
_PROGRAM = ("units", "datafiles", "physics", "rulebook")
_DAMAGED = (
    OSError,
    ValueError,
    TypeError,
    LookupError,
    AttributeError,
    RecursionError,
    MemoryError,
    BorewrightError,
    Unreadable,
    AlreadyTold,
)


def open_rulebook(
    rules: Sequence[Path], catalogs: Sequence[Path], folder: Path | None, *, at_once: bool = False
) -> Rulebook:
    """Open a rulebook: compiled where these very files were proved before, else prove it.

    It is kept the second time it is proved: rules that someone is editing are asked for once,
    and keeping them would cost more than it gives. Until then an empty file marks the first.

    Parameters
    ----------
    rules, catalogs
        Folders (or files), ours first, as `load_rulebook` takes them.
    folder
        Where compiled rulebooks are kept; none keeps nothing.
    at_once
        Keep it the first time, for work that will open it again and again.

    Returns
    -------
    Rulebook
        The proved rulebook.

    Raises
    ------
    ProblemsFound
        With everything wrong in it, as `load_rulebook` does.
    """
    path = None if folder is None else folder / f"rulebook-{content_key(rules, catalogs)}.json"
    asked_before = path is not None and path.exists()
    found = None if path is None or not asked_before else read_compiled(path)
    if found is not None:
        return found
    # what reads and proves rules is opened only where it is needed
    from planner.rulebook.load import load_rulebook

    proved = load_rulebook(rules, catalogs)
    if path is not None:
        _keep(path, proved if asked_before or at_once else None)
    return proved


def content_key(rules: Sequence[Path], catalogs: Sequence[Path]) -> str:
    """Hash everything a rulebook comes from: files, the names shown, and the program."""
    version = f"{FORMAT} {sys.version_info[:2]} {program_stamp(*_PROGRAM)}\n"
    digest = hashlib.sha256(version.encode())
    for layer, folders in (("rules", rules), ("catalogs", catalogs)):
        for order, each in enumerate(folders):
            for path in yaml_files(each):
                raw = path.read_bytes()
                digest.update(f"{layer} {order} {len(raw)} {shown(path)}\n".encode())
                digest.update(raw)
    return digest.hexdigest()[:32]


def read_compiled(path: Path) -> Rulebook | None:
    """Read a compiled rulebook back; nothing where the file is missing, damaged or foreign."""
    with suppress(*_DAMAGED):
        if path.stat().st_size > MOST_BYTES:
            return None
        check, _, text = path.read_bytes().partition(b"\n")
        if hashlib.sha256(text).hexdigest().encode() != check:
            return None
        _, rulebook = Unpacker(kinds()).unpack(json.loads(text))
        return rulebook if isinstance(rulebook, Rulebook) else None
    return None


def write_compiled(path: Path, rulebook: Rulebook) -> None:
    """Keep a proved rulebook, whole or not at all; a folder that cannot be written is left be."""
    _keep(path, rulebook)


def _keep(path: Path, rulebook: Rulebook | None) -> None:
    """Write a file; an empty one only says that this rulebook was asked for."""
    with suppress(OSError, TypeError, RecursionError):
        text = b"" if rulebook is None else _packed(rulebook)
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent, suffix=".part")
        with os.fdopen(handle, "wb") as stream:
            stream.write(text)
        Path(name).replace(path)
        _drop_oldest(path.parent)


def _packed(rulebook: Rulebook) -> bytes:
    packed: list[Any] = Packer(kinds()).pack((scope_of(rulebook), rulebook))
    text = json.dumps(packed, separators=(",", ":")).encode()
    return hashlib.sha256(text).hexdigest().encode() + b"\n" + text


def _drop_oldest(folder: Path) -> None:
    """Keep a few: a shop has some overlays, and each edit of a rule leaves one behind."""
    for old in sorted(_by_age(folder))[:-MOST_FILES]:
        old[1].unlink(missing_ok=True)


def _by_age(folder: Path) -> Iterator[tuple[int, Path]]:
    for path in folder.glob("rulebook-*.json"):
        with suppress(OSError):
            yield path.stat().st_mtime_ns, path
