"""What happened to a job file: revisions, each with who, when, what changed, old and new."""

from planner.records import record

SCHEMA = "borewright.revision/1"


@record(kw_only=True, slots=False)
class Change:
    """One key of the job, before and after, as YAML writes it; nothing where it was not there."""

    key: str
    old: str = ""
    new: str = ""


@record(kw_only=True, slots=False)
class MadeWith:
    """The rules and the program that were in use."""

    rules_edition: str = ""
    rules_sha256: str = ""
    version: str = ""


@record(kw_only=True, slots=False)
class Revision:
    """One state of a job file.

    Attributes
    ----------
    number
        Counted from 1.
    when
        Time in UTC, to the second.
    who
        Who made the change.
    why
        The command or the reason.
    changes
        Keys that changed.
    before, after
        Check codes of the file's text before and after.
    text
        The whole file as it was left.
    chain
        Check code of the line before in the history; a line changed afterwards breaks it.
    """

    number: int
    when: str
    who: str
    why: str
    before: str
    after: str
    text: str
    chain: str = ""
    changes: tuple[Change, ...] = ()
    made_with: MadeWith = MadeWith()
    schema: str = SCHEMA
