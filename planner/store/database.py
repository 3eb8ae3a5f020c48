"""Jobs kept in a database, SQLite or PostgreSQL by URL: rows of revisions, only ever added."""

from collections.abc import Sequence
from typing import Any

from sqlalchemy import (
    Column,
    Engine,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    create_engine,
    event,
    func,
    insert,
    select,
)
from sqlalchemy.exc import IntegrityError, SQLAlchemyError
from sqlalchemy.pool import NullPool

from planner.errors import BorewrightError
from planner.models.history import Revision
from planner.store.keeping import (
    Entry,
    Kept,
    StaleError,
    checked_name,
    job_exists,
    kept,
    line_of,
    next_revision,
    no_such_job,
    read_line,
)
from planner.store.migrations import brought_up_to_date

_META = MetaData()
REVISIONS = Table(
    "revisions",
    _META,
    Column("job", String(64), primary_key=True),
    Column("number", Integer, primary_key=True),
    Column("line", Text, nullable=False),
)
BUSY_MS = 15_000


class StoreError(BorewrightError):
    """A database that cannot be opened or asked."""


class DatabaseStore:
    """A database of jobs for several benches at once.

    The number of a revision is part of its key, so of two people who write at once the database
    itself lets one through; the other is shown both texts.

    Parameters
    ----------
    url
        As SQLAlchemy takes it: ``sqlite:///shop.db``, ``postgresql+psycopg://…``.
    """

    def __init__(self, url: str) -> None:
        try:
            self.engine = _engine(url)
            brought_up_to_date(self.engine)
        except (SQLAlchemyError, ImportError) as error:
            raise StoreError(
                problem=f"The store cannot be opened: {_said(error)}.",
                reason="Jobs and readings have to be kept somewhere before any are taken.",
                remedy="Check the address, for example sqlite:///shop.db, and that it is running.",
            ) from error

    def names(self) -> tuple[str, ...]:
        """List the jobs."""
        with self.engine.connect() as connection:
            asked = select(REVISIONS.c.job).distinct().order_by(REVISIONS.c.job)
            return tuple(connection.execute(asked).scalars())

    def job(self, name: str) -> Kept:
        """Return a job as its newest revision leaves it."""
        return kept(name, self._last(name))

    def revisions(self, name: str) -> tuple[Revision, ...]:
        """Return every revision of a job, oldest first."""
        asked = (
            select(REVISIONS.c.line).where(REVISIONS.c.job == name).order_by(REVISIONS.c.number)
        )
        with self.engine.connect() as connection:
            found = tuple(read_line(line) for line in connection.execute(asked).scalars())
        if not found:
            raise no_such_job(name)
        return found

    def create(self, name: str, text: str, entry: Entry) -> Kept:
        """Begin a job.

        Raises
        ------
        JobExistsError
            When there is one of that name.
        """
        first = next_revision(None, text, entry)
        if not self._inserted(checked_name(name), [first]):
            raise job_exists(name)
        return kept(name, first)

    def add(self, name: str, text: str, base: int, entry: Entry) -> Kept:
        """Add a revision to a job, if it still is where the change began.

        Raises
        ------
        StaleError
            When somebody was quicker; nothing is written then.
        """
        last = self._last(name)
        if last.number != base:
            raise StaleError(base, kept(name, last), text)
        if last.text == text:
            return kept(name, last)
        revision = next_revision(last, text, entry)
        if not self._inserted(name, [revision]):
            raise StaleError(base, self.job(name), text)
        return kept(name, revision)

    def take_in(self, name: str, revisions: Sequence[Revision]) -> Kept:
        """Take a whole job in, with the history it had elsewhere, or not at all."""
        if name in self.names() or not self._inserted(checked_name(name), revisions):
            raise job_exists(name)
        return kept(name, revisions[-1])

    def _last(self, name: str) -> Revision:
        newest = select(func.max(REVISIONS.c.number)).where(REVISIONS.c.job == name)
        asked = select(REVISIONS.c.line).where(
            REVISIONS.c.job == name, REVISIONS.c.number == newest.scalar_subquery()
        )
        with self.engine.connect() as connection:
            line = connection.execute(asked).scalar()
        if line is None:
            raise no_such_job(name)
        return read_line(line)

    def _inserted(self, name: str, revisions: Sequence[Revision]) -> bool:
        """Add rows in one transaction; tell whether their numbers were still free."""
        rows = [{"job": name, "number": each.number, "line": line_of(each)} for each in revisions]
        try:
            with self.engine.begin() as connection:
                connection.execute(insert(REVISIONS), rows)
        except IntegrityError:
            return False
        return True


def _engine(url: str) -> Engine:
    # No pool: a bench asks now and then, and a connection kept for hours breaks unseen.
    if not url.startswith("sqlite"):
        return create_engine(url, poolclass=NullPool)
    made = create_engine(url, poolclass=NullPool, connect_args={"timeout": BUSY_MS / 1000})
    event.listen(made, "connect", _durable)
    return made


def _durable(connection: Any, _: object) -> None:  # noqa: ANN401 - the driver's own connection
    """Make a commit outlive a power cut, and let readers read while one writes."""
    cursor = connection.cursor()
    cursor.execute("PRAGMA journal_mode=WAL")
    cursor.execute("PRAGMA synchronous=FULL")
    cursor.execute(f"PRAGMA busy_timeout={BUSY_MS}")
    cursor.close()


def _said(error: Exception) -> str:
    """Say what the driver said, without the address, which may hold a password."""
    cause = getattr(error, "orig", None) or error
    return str(cause).splitlines()[0].rstrip(".") if str(cause) else type(cause).__name__
