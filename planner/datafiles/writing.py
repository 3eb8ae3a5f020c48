"""Write files so that whoever looks finds the old one or the new one, whole, whatever happens."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import mkstemp
from typing import BinaryIO

from planner.errors import BorewrightError


class NotWrittenError(BorewrightError):
    """A file that could not be written; the old one is still there."""


def write_whole(path: Path, text: str) -> None:
    """Replace a file in one move: written beside it, synced to the disk, then renamed.

    Parameters
    ----------
    path
        The file; a link is followed, so that the file it points to is replaced.
    text
        Its new content, line ends as they are to stand.

    Raises
    ------
    NotWrittenError
        When the disk or the system refuses.
    """
    real = path.resolve()
    try:
        handle, name = mkstemp(prefix=f".{real.name}.", suffix=".tmp", dir=real.parent)
    except OSError as error:
        raise _refusal(path, error) from error
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(text.encode("utf-8"))
            _sync(file)
        if real.exists():
            beside.chmod(real.stat().st_mode & 0o7777)
        else:
            beside.chmod(0o666 & ~_mask())
        beside.replace(real)
        _sync_folder(real.parent)
    except OSError as error:
        raise _refusal(path, error) from error
    finally:
        beside.unlink(missing_ok=True)


def add_line(path: Path, line: str) -> None:
    """Add one line to the end of a file and sync it; what stands there is never touched.

    A line that a killed program left torn is closed first, so that the new one stands alone.
    """
    try:
        with path.open("ab+") as file:
            torn = _is_torn(file)
            file.write((f"\n{line}\n" if torn else f"{line}\n").encode("utf-8"))
            _sync(file)
        _sync_folder(path.resolve().parent)
    except OSError as error:
        raise _refusal(path, error) from error


@contextmanager
def locked(path: Path) -> Iterator[None]:
    """Keep every other process that locks the same path waiting until the block is over.

    The lock is one of the system's on a file beside it, so it dies with its process: a killed
    program leaves none behind.
    """
    real = path.resolve()
    beside = real.with_name(f".{real.name}.lock")
    try:
        file = beside.open("ab")
    except OSError as error:
        raise _refusal(path, error) from error
    with file:
        _hold(file)
        try:
            yield
        finally:
            _let_go(file)


def _is_torn(file: BinaryIO) -> bool:
    if file.seek(0, os.SEEK_END) == 0:
        return False
    file.seek(-1, os.SEEK_END)
    return file.read(1) != b"\n"


def _sync(file: BinaryIO) -> None:
    file.flush()
    os.fsync(file.fileno())


def _sync_folder(folder: Path) -> None:
    """Sync the folder, so that the rename itself outlives a power cut; not every system can."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _mask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


if sys.platform != "win32":
    import fcntl

    def _hold(file: BinaryIO) -> None:
        fcntl.flock(file, fcntl.LOCK_EX)

    def _let_go(file: BinaryIO) -> None:
        fcntl.flock(file, fcntl.LOCK_UN)

else:  # pragma: no cover - the lock of the other system
    import msvcrt
    import time

    def _hold(file: BinaryIO) -> None:
        while True:
            try:
                file.seek(0)
                msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
            except OSError:
                time.sleep(0.02)
            else:
                return

    def _let_go(file: BinaryIO) -> None:
        file.seek(0)
        msvcrt.locking(file.fileno(), msvcrt.LK_UNLCK, 1)


def _refusal(path: Path, error: OSError) -> NotWrittenError:
    return NotWrittenError(
        problem=f"{path} cannot be written: {(error.strerror or str(error)).lower()}.",
        reason="A reading that is only on the screen is lost; the file itself was left as it was.",
        remedy="Check the disk and that you may write in that folder, then run it again.",
    )
