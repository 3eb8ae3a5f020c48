"""The `readings` command."""

import sys
from pathlib import Path

import click

from planner.faces.cli.output import complain, say
from planner.faces.cli.rulebooks import open_rulebook, overlays
from planner.planning.taking_readings import Taken, asked_of, take_readings
from planner.rulebook.syntax import Rulebook
from planner.sheets.readings_text import blank_text, export_told, taken_text
from planner.teardown.exporting import exported

_FILE = click.Path(path_type=Path)


@click.command("readings")
@click.argument("job", type=_FILE)
@click.argument("table", type=_FILE, required=False, metavar="[FILE.csv]")
@click.option(
    "--reading", default="", metavar="NAME", help="What a grid is about, for example bores."
)
@click.option("--dry-run", is_flag=True, help="Show what would change, and write nothing.")
@click.option("--export", "target", type=_FILE, help="Write the job's readings to this file.")
@click.option("--decimal-comma", is_flag=True, help="Export with decimal commas and semicolons.")
@click.option(
    "--blank", is_flag=True, help="Print blank sheets to measure by, one to a component."
)
@click.option("--only", multiple=True, metavar="NAME", help="Only this reading or component.")
@overlays
def command(  # noqa: PLR0913, PLR0917 - a command takes its flags one by one
    job: Path,
    table: Path | None,
    reading: str,
    dry_run: bool,
    target: Path | None,
    decimal_comma: bool,
    blank: bool,
    only: tuple[str, ...],
    rules: tuple[Path, ...],
    catalogs: tuple[Path, ...],
) -> None:
    """Take readings from a spreadsheet into the JOB, or write them out for one.

    FILE.csv is a list (reading, item, row, axis, value [mm]) or a grid (cylinder,
    depth, thrust [mm], crank [mm]); units stand in the header. What it brings is
    shown; every other character of the job stays. A figure that cannot be read is
    told by row and column, and then nothing is written.
    """
    if sum((table is not None, target is not None, blank)) != 1:
        raise click.UsageError("Give one of FILE.csv, --export FILE.csv and --blank.")
    rulebook = open_rulebook(rules, catalogs)
    if table is not None:
        _told(take_readings(job, table, rulebook, reading, write=not dry_run), job)
    elif target is not None:
        _export(job, target, rulebook, only, comma=decimal_comma)
    else:
        say(blank_text(asked_of(job, rulebook), only))


def _told(taken: Taken, job: Path) -> None:
    say(taken_text(taken.changes, taken.same, str(job), written=taken.written))
    for doubt in taken.doubts:
        complain(str(doubt))
    if taken.doubts:
        sys.exit(1)


def _export(
    job: Path, target: Path, rulebook: Rulebook, only: tuple[str, ...], *, comma: bool
) -> None:
    asked = asked_of(job, rulebook)
    text = exported(asked, only, decimal_comma=comma)
    if str(target) == "-":
        say(text)
        return
    from planner.datafiles.writing import write_whole

    write_whole(target, text)
    complain(export_told(text, str(target)))
