"""The `compare` command."""

import json
from pathlib import Path

import click

from planner.faces.cli.options import set_option, units_option
from planner.faces.cli.output import say
from planner.faces.cli.rulebooks import open_rulebook, overlays
from planner.models.document import to_plain
from planner.planning.assemble import explainer
from planner.planning.compare import compare
from planner.planning.job_reader import read_job
from planner.rulebook.world import System
from planner.sheets.compare_text import compare_text


@click.command("compare")
@click.argument("job", type=click.Path(path_type=Path))
@click.argument("other", type=click.Path(path_type=Path), required=False)
@set_option
@units_option
@click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True
)
@overlays
def command(  # noqa: PLR0913, PLR0917 - a command takes its flags one by one
    job: Path,
    other: Path | None,
    settings: tuple[str, ...],
    units: System | None,
    form: str,
    rules: tuple[Path, ...],
    catalogs: tuple[Path, ...],
) -> None:
    """Say what changes from a JOB to an OTHER one, or when keys are set anew.

    Specification, steps, parts, price and days, with the rule that makes each
    difference. With OTHER, --set counts for OTHER.
    """
    if other is None and not settings:
        raise click.UsageError("Give a second job, or --set KEY=VALUE.")
    rulebook = open_rulebook(rules, catalogs)
    old = explainer(read_job(job, rulebook), rulebook, units)
    new = explainer(read_job(other or job, rulebook, settings), rulebook, units)
    title = new.plan.job.name if other is not None else "the same"
    if settings:
        title = f"{title} with {', '.join(settings)}"
    told = compare(old, new, (old.plan.job.name, title))
    if form == "json":
        say(json.dumps(to_plain(told), indent=2, allow_nan=False) + "\n")
    else:
        say(compare_text(told))
