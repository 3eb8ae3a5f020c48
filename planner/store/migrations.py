"""Bring a database to the form this version reads, step by step, each in one transaction."""

from collections.abc import Callable

from sqlalchemy import Connection, Engine, inspect, text

from planner.errors import BorewrightError


class NewerStoreError(BorewrightError):
    """A database written by a later version of the program."""


def _revisions(connection: Connection) -> None:
    """Make the table of revisions; their lines are those of the history beside a job file."""
    connection.execute(
        text(
            "CREATE TABLE revisions (job VARCHAR(64) NOT NULL, number INTEGER NOT NULL, "
            "line TEXT NOT NULL, PRIMARY KEY (job, number))"
        )
    )


def _only_added(connection: Connection) -> None:
    """Refuse, in the database itself, to change a revision once it is written or to drop one."""
    if connection.dialect.name == "sqlite":
        for what in ("UPDATE", "DELETE"):
            connection.execute(
                text(
                    f"CREATE TRIGGER revisions_no_{what.lower()} BEFORE {what} ON revisions "
                    "BEGIN SELECT RAISE(ABORT, 'revisions are only added'); END"
                )
            )
        return
    connection.execute(
        text(
            "CREATE FUNCTION only_added() RETURNS trigger LANGUAGE plpgsql AS "
            "$$ BEGIN RAISE EXCEPTION 'revisions are only added'; END $$"
        )
    )
    connection.execute(
        text(
            "CREATE TRIGGER revisions_only_added BEFORE UPDATE OR DELETE ON revisions "
            "FOR EACH ROW EXECUTE FUNCTION only_added()"
        )
    )


STEPS: tuple[Callable[[Connection], None], ...] = (_revisions, _only_added)


def brought_up_to_date(
    engine: Engine, steps: tuple[Callable[[Connection], None], ...] = STEPS
) -> int:
    """Run the steps that a database lacks.

    Parameters
    ----------
    engine
        The database.
    steps
        All steps there are, oldest first.

    Returns
    -------
    int
        How many were run.

    Raises
    ------
    NewerStoreError
        When the database has had more steps than this version knows.
    """
    with engine.begin() as connection:
        _lock(connection)
        done = _version(connection)
        if done > len(steps):
            raise NewerStoreError(
                problem=f"The store is at step {done}; this version knows {len(steps)}.",
                reason="An older program would write what the newer one cannot read.",
                remedy="Use the version of borewright that made it, or a later one.",
            )
        for step in steps[done:]:
            step(connection)
        connection.execute(text("UPDATE store_version SET step = :step"), {"step": len(steps)})
    return len(steps) - done


def _lock(connection: Connection) -> None:
    """Let one bench at a time bring the store up to date."""
    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(711003)"))
    elif connection.dialect.name == "sqlite":
        connection.exec_driver_sql("BEGIN IMMEDIATE")


def _version(connection: Connection) -> int:
    if not inspect(connection).has_table("store_version"):
        connection.execute(text("CREATE TABLE store_version (step INTEGER NOT NULL)"))
        connection.execute(text("INSERT INTO store_version (step) VALUES (0)"))
    return int(connection.execute(text("SELECT step FROM store_version")).scalar_one())
