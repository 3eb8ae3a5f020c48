"""The `migrate` command."""

import sys
from pathlib import Path

import click

from planner.errors import BorewrightError
from planner.faces.cli.output import complain, say
from planner.planning.migrating import migrate


@click.command("migrate")
@click.argument("jobs", type=click.Path(path_type=Path), nargs=-1, required=True)
def command(jobs: tuple[Path, ...]) -> None:
    """Bring JOBS of an earlier format up to this one.

    Only what the format asks for is written; comments and everything else stay as they are.
    A job of a newer format is refused and not touched. Exit code 1 when any was refused.
    """
    refused = False
    for job in jobs:
        try:
            changed = migrate(job)
        except BorewrightError as error:
            complain(str(error))
            refused = True
        else:
            say(f"{job}: {'brought up to' if changed else 'is of'} format 1")
    if refused:
        sys.exit(1)
