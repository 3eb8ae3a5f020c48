"""What a change of the rules does to stored jobs."""

from planner.records import record


@record
class Cause:
    """A rule that was edited and is behind a change.

    Attributes
    ----------
    rule
        Its name; for a catalog the catalog and row.
    at, was_at
        File and line now, and before; empty where it is not there.
    row, was_row
        The table row, formula or value that applied, as written.
    """

    rule: str
    at: str = ""
    row: str = ""
    was_at: str = ""
    was_row: str = ""


@record
class Moved:
    """One decision, operation or figure of the price that comes out another way.

    Attributes
    ----------
    about
        decision, operation, part or cost.
    """

    about: str
    id: str
    title: str
    before: str
    after: str
    causes: tuple[Cause, ...] = ()


@record
class JobImpact:
    """What becomes of one job.

    Attributes
    ----------
    job
        Its file, from the jobs folder.
    sha256
        Check code of the file as it was read.
    problem
        Why it could not be compared, when it could not.
    """

    job: str
    sha256: str
    moved: tuple[Moved, ...] = ()
    problem: str = ""
