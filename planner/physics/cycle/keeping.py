"""Where tables of burned gas are kept longer than a process: a seam for a layer that has files.

Physics reads and writes no files. A later layer hands a keeper in; without one, tables of
blends that are not shipped are built anew in each process.
"""

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


class Keeper(Protocol):
    """Finds the values of a table by its key, and keeps new ones; neither may raise."""

    def find(self, key: str) -> "NDArray[np.float64] | None":
        """Return the values kept under a key, or nothing."""
        ...

    def keep(self, key: str, values: "NDArray[np.float64]") -> None:
        """Keep the values of a table under its key."""
        ...


_keepers: list[Keeper] = []


def keep_tables_with(keeper: Keeper | None) -> None:
    """Hand the keeper in that serves from now on; none takes it away."""
    _keepers[:] = [] if keeper is None else [keeper]


def keeper() -> Keeper | None:
    """Return the keeper that serves, if one does."""
    return _keepers[0] if _keepers else None
