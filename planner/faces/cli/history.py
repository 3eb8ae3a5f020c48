"""The `history` command."""

import sys
from pathlib import Path

import click

from planner.faces.cli.output import complain, say
from planner.faces.cli.rulebooks import open_rulebook, overlays
from planner.planning.history import change_job, made_with, read_history
from planner.sheets.history_text import history_text
from planner.sheets.plain_json import plain_json


@click.command("history")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--text", "number", type=int, metavar="N", help="Print the job as of revision N.")
@click.option("--plan", "planned", type=int, metavar="N", help="Plan the job as of revision N.")
@click.option(
    "--reproduce",
    type=click.Path(path_type=Path, dir_okay=False),
    metavar="PLAN.json",
    help="Find the revision that a saved plan was made from, by making it again.",
)
@click.option("--record", is_flag=True, help="Write down what was changed in an editor.")
@click.option("--by", default="", metavar="NAME", help="Who changed it.")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    help="Text for people, JSON for programs.",
)
@overlays
def command(  # noqa: PLR0913, PLR0917 - a command takes its flags one by one
    job: Path,
    number: int | None,
    planned: int | None,
    reproduce: Path | None,
    record: bool,
    by: str,
    form: str,
    rules: tuple[Path, ...],
    catalogs: tuple[Path, ...],
) -> None:
    """Say what happened to a JOB: who changed what, when, old and new.

    The history stands beside the job file and only grows; any state of the
    job can be looked at and planned again.
    """
    if sum((number is not None, planned is not None, reproduce is not None, record)) > 1:
        raise click.UsageError("Ask one thing at a time.")
    if record:
        _record(job, by.strip(), rules, catalogs)
    elif number is not None:
        say(read_history(job).revision(number).text)
    elif planned is not None:
        from planner.planning.reproducing import plan_of_revision
        from planner.sheets.plan_text import plan_text

        say(plan_text(plan_of_revision(job, planned, open_rulebook(rules, catalogs))))
    elif reproduce is not None:
        from planner.planning.reproducing import revision_of_plan

        found = revision_of_plan(job, reproduce, open_rulebook(rules, catalogs))
        say(f"{reproduce} is the plan of revision {found}, key for key.")
    else:
        _show(job, form)


def _show(job: Path, form: str) -> None:
    history = read_history(job)
    if form == "json":
        say(plain_json({"revisions": history.revisions}))
    else:
        say(history_text(history, job))
    if history.broken or history.damaged:
        sys.exit(1)


def _record(job: Path, by: str, rules: tuple[Path, ...], catalogs: tuple[Path, ...]) -> None:
    if not by:
        raise click.UsageError("Say who changed it: --by NAME.")
    made = change_job(job, [], who=by, why="", made_with=made_with(open_rulebook(rules, catalogs)))
    complain(f"Revision {made.number} of {job}." if made else f"Nothing changed in {job}.")
