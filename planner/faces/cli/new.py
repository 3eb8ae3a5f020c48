"""The `new` command."""

from pathlib import Path

import click

from planner.errors import BorewrightError
from planner.faces.cli.output import complain, say
from planner.faces.cli.rulebooks import open_rulebook, overlays
from planner.planning.starter import starter_job
from planner.rulebook.syntax import STAGES


class FileInTheWayError(BorewrightError):
    """A file that a command would have to overwrite."""


@click.command("new")
@click.argument("path", type=click.Path(path_type=Path, dir_okay=False), required=False)
@click.option("--engine", default="", metavar="ID|inline", help="An engine of the catalog.")
@click.option(
    "--stage",
    type=click.Choice(STAGES[:3]),
    default="inspected",
    show_default=True,
    help="How far to ask.",
)
@click.option("--ask", is_flag=True, help="Ask what the counter asks, and write an enquiry.")
@overlays
def command(
    path: Path | None,
    engine: str,
    stage: str,
    ask: bool,
    rules: tuple[Path, ...],
    catalogs: tuple[Path, ...],
) -> None:
    """Write a starter job file to PATH, or to standard output.

    Every key stands there with a comment that says what it asks. What you
    leave empty is not known yet: it is assumed with a reason, or listed as
    missing. A file that is there already is never overwritten.
    """
    rulebook = open_rulebook(rules, catalogs)
    if ask:
        from planner.faces.cli.asking import ask_counter
        from planner.planning.asking import enquiry_job

        text = enquiry_job(ask_counter(rulebook, engine))
    else:
        text = starter_job(rulebook, engine or "inline", stage)
    if path is None:
        say(text)
        return
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        raise FileInTheWayError(
            problem=f"{path} is there already.",
            reason="A job holds readings that nobody can take again; it is never overwritten.",
            remedy="Name another file, or move that one away.",
        ) from None
    except OSError as error:
        raise FileInTheWayError(
            problem=f"{path} cannot be written: {error.strerror}.",
            reason="The starter job has to go somewhere.",
            remedy="Name a file in a folder that you may write to.",
        ) from error
    complain(f"Wrote {path}. Fill it in, then: borewright check {path}")
