"""What changes between two plans, and which rule makes each difference."""

from planner.records import record


@record(kw_only=True, slots=False)
class Change:
    """One value in two plans.

    Attributes
    ----------
    rule
        File and line of the rule behind the new value.
    decided_by
        The row, the need or the input that makes the difference, in shop words.
    """

    id: str
    title: str
    before: str
    after: str
    rule: str = ""
    decided_by: str = ""


@record(kw_only=True, slots=False)
class Comparison:
    """Two plans side by side.

    Attributes
    ----------
    inputs
        Keys of the job that differ.
    specification
        Decisions every plan answers, where they differ; `behind` counts the figures that differ
        beside them.
    same
        Decisions people ask about that come out equal, as printed.
    operations, parts
        What is in one plan and not the other, or different in it.
    cost
        Totals, then the lines that move most.
    schedule
        Working days and what sets them.
    """

    before: str
    after: str
    inputs: tuple[Change, ...]
    specification: tuple[Change, ...]
    behind: int
    same: tuple[tuple[str, str], ...]
    operations: tuple[Change, ...]
    parts: tuple[Change, ...]
    cost: tuple[Change, ...]
    schedule: tuple[Change, ...]
    currency: str = ""
