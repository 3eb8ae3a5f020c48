"""A stamp of the program's own files, so that what one version kept is not read by another."""

import hashlib
import os
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

import planner

_KEPT = (".py", ".npy")


@lru_cache(maxsize=8)
def program_stamp(*packages: str) -> str:
    """Stamp some packages of the program: its version and every file by name, size and time.

    Parameters
    ----------
    packages
        Names under ``planner``, for example ``physics``.

    Returns
    -------
    str
        Sixteen hexadecimal digits.
    """
    root = Path(planner.__file__).parent
    listed = [planner.__version__]
    for package in packages:
        listed += sorted(_states(str(root / package), package))
    return hashlib.sha256("\n".join(listed).encode()).hexdigest()[:16]


def _states(folder: str, name: str) -> Iterator[str]:
    """List every file as name, size and time; scandir asks the system once a folder."""
    with os.scandir(folder) as entries:
        for entry in entries:
            inside = f"{name}/{entry.name}"
            if entry.name.endswith(_KEPT):
                state = entry.stat()
                yield f"{inside} {state.st_size} {state.st_mtime_ns}"
            elif entry.is_dir() and entry.name != "__pycache__":
                yield from _states(entry.path, inside)
