"""The `sheets` command."""

import sys
from collections.abc import Sequence
from pathlib import Path

import click

from planner.errors import BorewrightError
from planner.faces.cli.options import set_option, units_option
from planner.faces.cli.output import complain, say
from planner.faces.cli.rulebooks import open_rulebook, overlays
from planner.planning.assemble import explainer
from planner.planning.job_reader import read_job
from planner.rulebook.printing import System
from planner.sheets.packet import SHEETS, packet_of
from planner.sheets.render_html import PAPERS, html_of
from planner.sheets.render_pdf import is_installed, pdfs_of
from planner.sheets.view import Sheet
from planner.sheets.view_material import Material, gather


class CannotWriteError(BorewrightError):
    """A folder or a file that the sheets cannot be written to."""


@click.command("sheets")
@click.argument("job", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--out",
    "folder",
    type=click.Path(path_type=Path, file_okay=False),
    required=True,
    help="Folder to write to; made if it is not there.",
)
@click.option(
    "--only", type=click.Choice(list(SHEETS)), multiple=True, help="Make this sheet alone."
)
@click.option(
    "--paper", type=click.Choice(list(PAPERS)), default="a4", show_default=True, help="Paper size."
)
@set_option
@units_option
@overlays
def command(  # noqa: PLR0913, PLR0917 - a command takes its flags one by one
    job: Path,
    folder: Path,
    only: tuple[str, ...],
    paper: str,
    settings: tuple[str, ...],
    units: System | None,
    rules: tuple[Path, ...],
    catalogs: tuple[Path, ...],
) -> None:
    """Write the packet of a JOB: sheets to hand out, on screen and on paper.

    Each sheet is one HTML file that opens without the network, and one PDF
    where the extra `print` is installed. Files of the same names are replaced.
    The names written go to standard output.
    """
    rulebook = open_rulebook(rules, catalogs)
    reading = read_job(job, rulebook, settings)
    mapped = not only or "specification" in only
    worked = explainer(reading, rulebook, units)
    material = gather(worked, reading, job, with_map=mapped)
    sheets = packet_of(material, only)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        _write(folder, sheets, material, paper)
    except OSError as error:
        raise CannotWriteError(
            problem=f"{error.filename or folder} cannot be written: {error.strerror}.",
            reason="The sheets have to go somewhere.",
            remedy="Name a folder that you may write to.",
        ) from error
    for doubt in reading.doubts:
        complain(str(doubt))
    if reading.doubts:
        sys.exit(1)


def _write(folder: Path, sheets: Sequence[Sheet], material: Material, paper: str) -> None:
    for sheet in sheets:
        path = folder / f"{sheet.name}.html"
        path.write_bytes(html_of(sheet, paper).encode())
        say(str(path))
    if not is_installed():
        complain("No PDF: the extra print is not installed: pip install 'borewright[print]'")
        return
    for sheet, made in zip(sheets, pdfs_of(sheets, material.document, paper), strict=True):
        path = folder / f"{sheet.name}.pdf"
        path.write_bytes(made)
        say(str(path))
