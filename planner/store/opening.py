"""Open a store by what the command line says: a folder, or the address of a database."""

from pathlib import Path

from planner.errors import BorewrightError
from planner.store.files import FileStore
from planner.store.keeping import Store


class NoStoreError(BorewrightError):
    """A folder of jobs that is not there."""


def open_store(jobs: Path | None, url: str | None) -> Store:
    """Open a store.

    Parameters
    ----------
    jobs
        A folder of job files.
    url
        A database, which wins.

    Returns
    -------
    Store
        Ready to be asked.

    Raises
    ------
    NoStoreError
        When the folder is not there.
    StoreError
        When the database does not answer.
    """
    if url:
        from planner.store.database import DatabaseStore

        return DatabaseStore(url)
    folder = jobs or Path()
    if not folder.is_dir():
        raise NoStoreError(
            problem=f"{folder} is not a folder.",
            reason="The bench page keeps each job as a file in a folder.",
            remedy="Make the folder, or name another with --jobs.",
        )
    return FileStore(folder.resolve())
