"""The `rules impact` command."""

import os
import sys
import tempfile
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import click

from planner.datafiles.locate import shipped_folder
from planner.datafiles.revisions import unpack_revision
from planner.datafiles.user_cache import user_cache
from planner.faces.cli.output import complain, say
from planner.faces.cli.rulebooks import overlays
from planner.models.impact import JobImpact
from planner.planning.impact_run import Books, Pool, Record, jobs_in, local_pool, results, run
from planner.sheets.impact_text import impact_csv, impact_json, impact_text

_EVERY = 20
"""Progress is told this many times in a run."""
_FOLDER = click.Path(exists=True, file_okay=False, path_type=Path)


@click.command("impact")
@click.option(
    "--against",
    metavar="FOLDER|REVISION",
    help="The old rules: a folder that holds rules/ and catalogs/, or a git revision of this "
    "checkout. Ours when left out.",
)
@click.option("--jobs", "folder", type=_FOLDER, required=True, help="Folder of stored jobs.")
@click.option("--old-rules", type=_FOLDER, multiple=True, help="What lay over the old rules.")
@click.option("--old-catalogs", type=_FOLDER, multiple=True, help="What lay over old catalogs.")
@click.option(
    "--record",
    "record_path",
    type=click.Path(dir_okay=False, path_type=Path),
    help="Keep every result here; a run that was stopped goes on from it.",
)
@click.option("--workers", type=click.IntRange(1), help="Processes; all cores if not given.")
@click.option("--dask", metavar="ADDRESS", help="Work on a Dask cluster instead.")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "csv"]),
    default="text",
    show_default=True,
    help="Text sums up; JSON and CSV tell every job.",
)
@overlays
def command(  # noqa: PLR0913, PLR0917 - a command takes its flags one by one
    against: str | None,
    folder: Path,
    old_rules: tuple[Path, ...],
    old_catalogs: tuple[Path, ...],
    record_path: Path | None,
    workers: int | None,
    dask: str | None,
    form: str,
    rules: tuple[Path, ...],
    catalogs: tuple[Path, ...],
) -> None:
    """Say which stored jobs an edit of the rules changes, how, and by which row.

    The rules as they are now (with --rules and --catalogs laid over them) are held against
    the old ones: every decision, operation, part and price that comes out another way.
    """
    if against is None and not (old_rules or old_catalogs):
        raise click.UsageError("Name the old rules: --against FOLDER, or --old-rules FOLDER.")
    with ExitStack() as stack:
        scratch = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="borewright-")))
        base = _old_folders(against, scratch)
        cache = user_cache()
        books = Books(
            old=(_texts(base[0], *old_rules), _texts(base[1], *old_catalogs)),
            new=(
                _texts(shipped_folder("rules"), *rules),
                _texts(shipped_folder("catalogs"), *catalogs),
            ),
            cache=str(cache) if cache is not None else "",
        )
        edited = books.opened()
        kept = Record(
            record_path or scratch / "impact.jsonl", f"{edited.old.sha256} {edited.new.sha256}"
        )
        stack.callback(kept.close)
        _work(books, folder, kept, _pool(stack, dask, workers))
        found = results(kept.path, set(jobs_in(folder)))
        titles = (against or "our rules with what lay over them", "the rules now")
        _tell(found, titles, form)


def _texts(*folders: Path) -> tuple[str, ...]:
    return tuple(str(each.resolve()) for each in folders)


def _old_folders(against: str | None, scratch: Path) -> tuple[Path, Path]:
    """Find the folders of the old rules and catalogs."""
    ours = shipped_folder("rules"), shipped_folder("catalogs")
    if against is None:
        return ours
    named = Path(against)
    if not named.is_dir():
        named = scratch / "old"
        named.mkdir()
        unpack_revision(against, ours[0].parent, ("rules", "catalogs"), named)
    rules = named / "rules" if (named / "rules").is_dir() else named
    stock = rules.resolve().parent / "catalogs"
    return rules, stock if stock.is_dir() else ours[1]


def _pool(stack: ExitStack, dask: str | None, workers: int | None) -> tuple[Pool, int]:
    """Open what works: a cluster by its address, or processes on this machine."""
    if dask is not None:
        from planner.planning.impact_cluster import cluster

        pool: tuple[Pool, int] = stack.enter_context(cluster(dask))
        return pool
    count = workers or os.cpu_count() or 1
    return stack.enter_context(local_pool(count)), count


def _work(books: Books, folder: Path, kept: Record, pool: tuple[Pool, int]) -> None:
    told = -1
    for done, jobs in run(books, folder, kept, *pool):
        part = done * _EVERY // max(1, jobs)
        if part != told:
            told = part
            complain(f"{done} of {jobs} jobs")


def _tell(found: Iterator[JobImpact], titles: tuple[str, str], form: str) -> None:
    if form == "text":
        say(impact_text(found, titles))
        return
    lines = impact_csv(found) if form == "csv" else impact_json(found, titles)
    for line in lines:
        say(line)
    sys.stdout.flush()
