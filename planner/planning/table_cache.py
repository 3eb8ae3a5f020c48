"""Keep tables of burned gas in the user's cache folder, so that a blend is worked out once.

A file is named by the content of its charge and carries the check code of what it holds; a
damaged one counts as not there. Nothing fails when the folder cannot be read or written.
"""

import io
import os
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from planner.datafiles.user_cache import user_cache
from planner.physics.cycle.keeping import keep_tables_with

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

CODE = 32  # bytes of check code before the table


class TableCache:
    """Tables in a folder, one file each.

    Parameters
    ----------
    folder
        Made when the first table is kept.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def find(self, key: str) -> "NDArray[np.float64] | None":
        """Return the values kept under a key; nothing for a file that is damaged."""
        import numpy as np

        try:
            held = self._file(key).read_bytes()
        except OSError:
            return None
        code, body = held[:CODE], held[CODE:]
        if sha256(body).digest() != code:
            return None
        with suppress(ValueError, EOFError, OSError):
            values: NDArray[np.float64] = np.load(io.BytesIO(body), allow_pickle=False)
            return values
        return None

    def keep(self, key: str, values: "NDArray[np.float64]") -> None:
        """Keep values under a key: written aside, then moved into place whole."""
        import numpy as np

        body = io.BytesIO()
        np.save(body, values, allow_pickle=False)
        held = sha256(body.getvalue()).digest() + body.getvalue()
        aside = self.folder / f".{key}.{os.getpid()}"
        with suppress(OSError):
            self.folder.mkdir(parents=True, exist_ok=True)
            aside.write_bytes(held)
            aside.replace(self._file(key))

    def _file(self, key: str) -> Path:
        return self.folder / f"burned_{key}.table"


def use_user_cache() -> None:
    """Keep tables in the user's cache folder from now on."""
    folder = user_cache()
    keep_tables_with(None if folder is None else TableCache(folder))
