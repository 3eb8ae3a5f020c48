"""The `asbuilt` command."""

import sys
from datetime import UTC, datetime
from pathlib import Path

import click

from planner.datafiles.writing import write_whole
from planner.faces.cli.options import set_option, units_option
from planner.faces.cli.output import complain, say
from planner.faces.cli.rulebooks import open_rulebook, overlays
from planner.planning.asbuilt_table import take_asbuilt
from planner.planning.bench import bench
from planner.planning.building_record import build_record, record_json, still_open
from planner.planning.signing import accept_reading
from planner.planning.verification import Verified, verify_job
from planner.rulebook.printing import System
from planner.rulebook.syntax import Rulebook
from planner.sheets.asbuilt_text import record_text, verification_text
from planner.sheets.bench_text import bench_text
from planner.sheets.plain_json import plain_json

PARTS = ("verdicts", "bench")


@click.command("asbuilt")
@click.argument("job", type=click.Path(path_type=Path))
@click.option(
    "--readings",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Take as-built readings from this CSV file into the job first.",
)
@click.option(
    "--accept",
    nargs=3,
    metavar="FIT WHERE REASON",
    help="Sign for a reading inside its limit that is not proved.",
)
@click.option("--by", default="", metavar="NAME", help="Who enters or signs it.")
@click.option("--only", type=click.Choice(PARTS), multiple=True, help="Print this part alone.")
@click.option("--full", is_flag=True, help="Print what passed too.")
@click.option(
    "--record",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Close the build record and write it to this JSON file, with its check code.",
)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    help="Text for people, JSON for programs.",
)
@set_option
@units_option
@overlays
def command(  # noqa: PLR0913, PLR0917 - a command takes its flags one by one
    job: Path,
    readings: Path | None,
    accept: tuple[str, str, str] | None,
    by: str,
    only: tuple[str, ...],
    full: bool,
    record: Path | None,
    form: str,
    settings: tuple[str, ...],
    units: System | None,
    rules: tuple[Path, ...],
    catalogs: tuple[Path, ...],
) -> None:
    """Hold the finished engine of a JOB against its plan.

    Every clearance is listed: passed, failed, not proved, missing. What
    failed says what to correct, least metal first, and which steps that opens
    again. Exit code 1 while anything is open.
    """
    rulebook = open_rulebook(rules, catalogs)
    if (accept or readings) and not by.strip():
        raise click.UsageError("Say who enters or signs it: --by NAME.")
    if readings is not None:
        made = take_asbuilt(job, readings, rulebook, by.strip())
        complain(f"Revision {made.number} of {job}." if made else f"{job} held all of it already.")
    if accept is not None:
        _accept(job, accept, by.strip(), rulebook)
    found = verify_job(job, rulebook, settings, units)
    if record is not None:
        _close(job, record, found)
        return
    _tell(found, only or PARTS[:1], form, full=full)
    if still_open(found):
        sys.exit(1)


def _accept(job: Path, accept: tuple[str, str, str], by: str, rulebook: Rulebook) -> None:
    today = datetime.now(UTC).astimezone().date().isoformat()
    made = accept_reading(job, accept, (by, today), rulebook)
    complain(f"Revision {made.number} of {job}: {by} accepts {accept[0]} {accept[1]}.")


def _tell(found: Verified, only: tuple[str, ...], form: str, *, full: bool) -> None:
    asked = found.asked
    parts: list[str] = []
    held: dict[str, object] = {}
    if "bench" in only:
        held["bench"] = bench(found.root, asked.results, asked.steps.names)
        parts.append(bench_text(held["bench"]))  # type: ignore[arg-type]
    if "verdicts" in only:
        held["verification"] = found.verification
        parts.append(verification_text(found.verification, full=full))
    say(plain_json(held) if form == "json" else "\n".join(parts))


def _close(job: Path, path: Path, found: Verified) -> None:
    made = build_record(job, found)
    write_whole(path, record_json(made))
    say(record_text(made))
    complain(f"Wrote {path}, check code {made.sha256}.")
