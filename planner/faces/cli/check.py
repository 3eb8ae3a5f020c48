"""The `check` command."""

import sys
from pathlib import Path

import click

from planner.datafiles.locate import shipped_folder
from planner.faces.cli.output import complain, say
from planner.faces.cli.rulebooks import open_rulebook, overlays
from planner.planning.checking import check_job, check_rules
from planner.rulebook.load import load_rulebook
from planner.sheets.check_text import job_text, rules_text


@click.command("check")
@click.argument("path", type=click.Path(path_type=Path), required=False)
@overlays
def command(path: Path | None, rules: tuple[Path, ...], catalogs: tuple[Path, ...]) -> None:
    """Check a job file, or prove the rules in a folder.

    PATH is a job file, or a folder of rules (with the catalogs beside it, else
    ours). Without PATH our own rules are proved, with the folders of --rules
    and --catalogs laid over them.
    """
    if path is None or path.is_dir():
        _rules(path, rules, catalogs)
        return
    rulebook = open_rulebook(rules, catalogs)
    report = check_job(path, rulebook)
    say(job_text(report))
    for doubt in report.doubts:
        complain(str(doubt))
    if report.doubts:
        sys.exit(1)


def _rules(path: Path | None, rules: tuple[Path, ...], catalogs: tuple[Path, ...]) -> None:
    """Prove a rulebook: the folder named, or ours, with the shop's folders over it."""
    base = path or shipped_folder("rules")
    beside = base.resolve().parent / "catalogs"
    stock = beside if beside.is_dir() else shipped_folder("catalogs")
    folders = [base, *rules]
    report = check_rules(load_rulebook(folders, [stock, *catalogs]), folders)
    say(rules_text(report))
    for problem in report.problems:
        complain(str(problem))
    if report.problems:
        sys.exit(1)
