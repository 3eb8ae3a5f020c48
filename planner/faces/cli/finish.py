"""The `finish` command."""

import json
import sys
from dataclasses import asdict
from pathlib import Path

import click

from planner.datafiles.trace import read_trace
from planner.faces.cli.options import set_option
from planner.faces.cli.output import say
from planner.faces.cli.rulebooks import open_rulebook, overlays
from planner.planning.job_reader import read_job
from planner.planning.trace_finish import finish_figures
from planner.rulebook.evaluate import evaluate
from planner.rulebook.results import Results
from planner.sheets.finish_text import finish_text
from planner.units import LENGTH, parse_quantity


@click.command("finish")
@click.argument("trace", type=click.Path(path_type=Path))
@click.option(
    "--job", type=click.Path(path_type=Path), help="Hold the figures against this job's finish."
)
@click.option(
    "--cut-off",
    default="0.8 mm",
    show_default=True,
    metavar="LENGTH",
    help="Waves longer than this are not roughness.",
)
@click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True
)
@set_option
@overlays
def command(  # noqa: PLR0913, PLR0917 - a command takes its flags one by one
    trace: Path,
    job: Path | None,
    cut_off: str,
    form: str,
    settings: tuple[str, ...],
    rules: tuple[Path, ...],
    catalogs: tuple[Path, ...],
) -> None:
    """Work out Ra, Rz, Rk, Rpk and Rvk from a roughness TRACE.

    The trace is a CSV file as an instrument exports it, unfiltered: a head
    line "distance mm,height um", then a place and its height on each line.
    Exit code 1 when a figure lies outside what the job asks for.
    """
    length = parse_quantity(cut_off)
    if length.unit.dimension != LENGTH:
        raise click.BadParameter(f"{cut_off!r} is not a length", param_hint="--cut-off")
    results = _worked_out(job, settings, rules, catalogs) if job is not None else None
    figures = finish_figures(read_trace(trace), length.si, results)
    if form == "json":
        told = [{**asdict(each), "inside": each.inside} for each in figures]
        say(json.dumps({"trace": str(trace), "cut_off": length.si, "figures": told}, indent=1))
    else:
        say(finish_text(figures, _wanted(results)))
    if not all(each.inside for each in figures):
        sys.exit(1)


def _worked_out(
    job: Path, settings: tuple[str, ...], rules: tuple[Path, ...], catalogs: tuple[Path, ...]
) -> Results:
    rulebook = open_rulebook(rules, catalogs)
    return evaluate(rulebook, read_job(job, rulebook, settings).facts)


def _wanted(results: Results | None) -> str:
    """Name the finish that the plan asks for."""
    answer = results.world.answers.get("bore_finish") if results is not None else None
    value = next(iter(answer.entries.values())).value if answer is not None else None
    return value.replace("_", " ") if isinstance(value, str) else ""
