"""Readings as text: what a table brings to a job, and blank sheets to measure by."""

from collections.abc import Collection, Sequence

from planner.errors import BorewrightError, nearest
from planner.sheets.layout import counted, wrapped
from planner.teardown.asked import Asked
from planner.teardown.blank import blank_sheet, components
from planner.teardown.filling import Change

PAGE = "\f"


class NoSuchSheetError(BorewrightError):
    """A component that the rulebook measures nothing of."""


def taken_text(changes: Sequence[Change], same: int, job: str, *, written: bool) -> str:
    """Tell what a table brings to a job.

    Parameters
    ----------
    changes
        Items filled or changed.
    same
        Figures that the job holds already.
    job
        The job file.
    written
        Whether it was written.

    Returns
    -------
    str
        A line for each item, and what became of it.
    """
    lines: list[str] = []
    for each in changes:
        lead = f"{each.label}: "
        lines += wrapped(f"{each.before or 'empty'}  ->  {each.after}", "", lead)
    if same:
        lines.append(f"{counted(same, 'figure')} stood in the job already.")
    if not changes:
        lines.append(f"Nothing to change in {job}.")
    elif written:
        lines.append(f"Wrote {counted(len(changes), 'item')} to {job}.")
    else:
        lines.append(f"Nothing was written; {job} would get {counted(len(changes), 'item')}.")
    return "\n".join(lines)


def export_told(text: str, target: str) -> str:
    """Say how much was written out."""
    return f"Wrote {counted(text.count(chr(10)) - 1, 'figure')} to {target}."


def blank_text(asked: Asked, only: Collection[str] = ()) -> str:
    """Write blank sheets, one to a page.

    Raises
    ------
    NoSuchSheetError
        When a component asked for has no sheet, with the nearest.
    """
    sheets = components(asked)
    for name in only:
        if name not in sheets:
            offer = nearest(name, sheets)
            raise NoSuchSheetError(
                problem=f"There is no sheet {name!r}.",
                reason="Sheets go by component, as the readings stand in the job.",
                remedy=f"Did you mean {offer}?" if offer else f"Known: {', '.join(sheets)}.",
            )
    wanted = only or sheets
    pages = ["\n".join(blank_sheet(asked, name, sheets[name])) for name in wanted]
    return f"\n{PAGE}".join(pages)
