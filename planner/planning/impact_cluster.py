"""Hand jobs to a Dask cluster: for more jobs than one machine is for (extra ``[dask]``)."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from planner.errors import BorewrightError
from planner.planning.impact_run import Pool

PATIENCE = "10s"
"""How long a cluster may take to answer."""


class NoClusterError(BorewrightError):
    """A cluster that does not answer, or no library to ask it with."""


@contextmanager
def cluster(address: str) -> Iterator[tuple[Pool, int]]:
    """Open a cluster by its address; its workers need this program and the same folders.

    Parameters
    ----------
    address
        Where its scheduler listens, for example tcp://bench:8786.

    Yields
    ------
    tuple
        What work is handed to, and how many threads work.

    Raises
    ------
    NoClusterError
        When it does not answer, or has no workers.
    """
    try:
        import distributed
    except ImportError as error:
        raise NoClusterError(
            problem="A Dask cluster is asked for, and distributed is not installed.",
            reason="It is an extra: most shops work on one machine.",
            remedy="Install it: pip install 'borewright[dask]'; or leave --dask out.",
        ) from error
    library: Any = distributed  # it states no types
    try:
        client = library.Client(address, timeout=PATIENCE)
    except (OSError, TimeoutError, ValueError) as error:
        raise _silent(address, str(error)) from error
    with client:
        threads = sum(client.nthreads().values())
        if not threads:
            raise _silent(address, "it has no workers")
        yield client.get_executor(), threads


def _silent(address: str, reason: str) -> NoClusterError:
    return NoClusterError(
        problem=f"No Dask cluster works at {address}.",
        reason=reason or "it does not answer",
        remedy="Start its scheduler and workers, or leave --dask out.",
    )
