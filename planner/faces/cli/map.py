"""The `map` command."""

from pathlib import Path

import click

from planner.faces.cli.options import set_option
from planner.faces.cli.output import complain
from planner.faces.cli.rulebooks import open_rulebook, overlays
from planner.planning.job_reader import read_job
from planner.planning.knock_map import knock_map
from planner.sheets.knock_map import map_csv, map_json, map_svg

FORMS = (".svg", ".json", ".csv")


@click.command("map")
@click.argument("job", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--output",
    type=click.Path(dir_okay=False, path_type=Path),
    required=True,
    metavar="FILE",
    help="Where to write: FILE.svg for a picture, .json or .csv for data.",
)
@click.option("--fine", is_flag=True, help="200 by 200 tiles; for .json and .csv.")
@click.option(
    "--theme",
    type=click.Choice(["light", "dark"]),
    default="light",
    show_default=True,
    help="Ground of the picture.",
)
@set_option
@overlays
def command(  # noqa: PLR0913, PLR0917 - a command takes its flags one by one
    job: Path,
    output: Path,
    fine: bool,
    theme: str,
    settings: tuple[str, ...],
    rules: tuple[Path, ...],
    catalogs: tuple[Path, ...],
) -> None:
    """Draw the map of ratio by boost for the fuel of a JOB.

    Each tile says how many degrees are in hand before knock, on the hottest
    day; the job's own point is ringed.
    """
    form = output.suffix.lower()
    if form not in FORMS:
        raise click.UsageError(f"{output.name}: the map is written as {', '.join(FORMS)}.")
    if fine and form == ".svg":
        raise click.UsageError("200 by 200 numbers do not fit a picture: use .json or .csv.")
    rulebook = open_rulebook(rules, catalogs)
    found = knock_map(read_job(job, rulebook, settings), rulebook, fine=fine, progress=_progress)
    text = {".svg": lambda: map_svg(found, theme), ".json": lambda: map_json(found)}.get(
        form, lambda: map_csv(found)
    )()
    output.write_text(text, encoding="utf-8")
    complain(f"Wrote {output}: {len(found.ratios)} ratios by {len(found.boosts)} boosts.")


def _progress(done: int, whole: int) -> None:
    """Say how far the map is."""
    complain(f"Map: {done} of {whole} tiles.")
