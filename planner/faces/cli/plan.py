"""The `plan` command."""

import sys
from pathlib import Path

import click

from planner.faces.cli.options import audience_option, set_option, units_option
from planner.faces.cli.output import complain, say
from planner.faces.cli.rulebooks import open_rulebook, overlays
from planner.planning.assemble import plan_job
from planner.planning.job_reader import read_job
from planner.rulebook.printing import System
from planner.sheets.plan_text import SECTIONS, plan_text


@click.command("plan")
@click.argument("job", type=click.Path(path_type=Path))
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "csv"]),
    default="text",
    show_default=True,
    help="Text for people, JSON for programs, CSV of the parts for the buyer.",
)
@set_option
@units_option
@audience_option
@click.option(
    "--only", type=click.Choice(list(SECTIONS)), multiple=True, help="Print this part alone."
)
@click.option("--full", is_flag=True, help="Print every section in full.")
@overlays
def command(  # noqa: PLR0913, PLR0917 - a command takes its flags one by one
    job: Path,
    form: str,
    settings: tuple[str, ...],
    units: System | None,
    audience: str,
    only: tuple[str, ...],
    full: bool,
    rules: tuple[Path, ...],
    catalogs: tuple[Path, ...],
) -> None:
    """Work a JOB out: specification, reasons, ordered operations, cautions.

    The plan goes to standard output. A reading that can hardly be right does
    not stop the plan, but is asked about, and the exit code is then 1.
    """
    rulebook = open_rulebook(rules, catalogs)
    reading = read_job(job, rulebook, settings)
    plan = plan_job(reading, rulebook, units)
    if form == "json":
        from planner.sheets.plan_json import plan_json

        say(plan_json(plan))
    elif form == "csv":
        from planner.sheets.parts_text import parts_csv

        say(parts_csv(plan))
    else:
        say(plan_text(plan, audience=audience, only=only, full=full))
    for doubt in reading.doubts:
        complain(str(doubt))
    if reading.doubts:
        sys.exit(1)
