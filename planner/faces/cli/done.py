"""The `done` command."""

from datetime import date, datetime
from pathlib import Path

import click

from planner.faces.cli.output import say
from planner.faces.cli.rulebooks import open_rulebook, overlays
from planner.planning.marking import mark_done
from planner.sheets.layout import wrapped


@click.command("done")
@click.argument("job", type=click.Path(path_type=Path))
@click.argument("operation")
@click.option("--by", default="", metavar="NAME", help="Who did it; a hold point needs a name.")
@click.option(
    "--on",
    "day",
    type=click.DateTime(["%Y-%m-%d"]),
    metavar="YYYY-MM-DD",
    help="When; today if not given.",
)
@overlays
def command(
    job: Path,
    operation: str,
    by: str,
    day: datetime | None,
    rules: tuple[Path, ...],
    catalogs: tuple[Path, ...],
) -> None:
    """Mark an OPERATION of the JOB done: who and when.

    One line is added to progress: in the job file; the rest stays as it is.
    """
    when: date = (day or datetime.now().astimezone()).date()
    marked = mark_done(job, operation, when, by.strip(), open_rulebook(rules, catalogs))
    who = f" by {marked.by}" if marked.by else ""
    lines = [f"{marked.operation}: done {marked.day}{who}, specification {marked.spec}"]
    lines += wrapped(", ".join(marked.can_start_now) or "nothing", "", "Can start now: ")
    if marked.reopened:
        lines += wrapped(", ".join(marked.reopened), "", "REOPENED: ")
    say("\n".join(lines))
