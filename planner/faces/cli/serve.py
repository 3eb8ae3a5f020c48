"""The `serve` command."""

from importlib import import_module
from pathlib import Path
from typing import Any

import click

from planner.errors import BorewrightError
from planner.faces.cli.output import complain, say
from planner.faces.cli.rulebooks import open_rulebook, overlays


class NoWebError(BorewrightError):
    """The packages of the bench page are not installed."""


@click.command("serve")
@click.option(
    "--jobs",
    type=click.Path(path_type=Path, file_okay=False),
    help="Folder of job files; the current one if not given.",
)
@click.option(
    "--store", "url", metavar="URL", help="A database: sqlite:///shop.db, postgresql+psycopg://..."
)
@click.option("--host", default="127.0.0.1", show_default=True, help="Address to listen on.")
@click.option("--port", default=8171, show_default=True, type=click.IntRange(1, 65535))
@click.option("--name", "names", multiple=True, help="A further host name it may be asked by.")
@click.option(
    "--passphrase-file",
    type=click.Path(path_type=Path, dir_okay=False, exists=True),
    help="File with the passphrase; needed to listen beyond this machine.",
)
@click.option("--tls", is_flag=True, help="A proxy in front speaks TLS: cookies go over it alone.")
@click.option(
    "--backup",
    "target",
    type=click.Path(path_type=Path),
    help="Write all jobs to one file; no page.",
)
@click.option(
    "--restore",
    "source",
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    help="Take the jobs of such a file in; no page.",
)
@overlays
def command(  # noqa: PLR0913, PLR0917 - a command takes its flags one by one
    jobs: Path | None,
    url: str | None,
    host: str,
    port: int,
    names: tuple[str, ...],
    passphrase_file: Path | None,
    tls: bool,
    target: Path | None,
    source: Path | None,
    rules: tuple[Path, ...],
    catalogs: tuple[Path, ...],
) -> None:
    """Show the jobs on a web page of this machine: the bench page.

    It listens on this machine alone. To let the shop's network in, give --host
    and --passphrase-file, and put a proxy that speaks TLS in front.
    """
    store = _part("planner.store.opening").open_store(jobs, url)
    if target is not None or source is not None:
        _moved(store, target, source)
        return
    serving = _part("planner.faces.web.serving")
    config = serving.config_of(host, port, names, passphrase_file, tls=tls)
    serving.serve(store, open_rulebook(rules, catalogs), config, complain)


def _moved(store: Any, target: Path | None, source: Path | None) -> None:  # noqa: ANN401 - opened late
    backups = _part("planner.store.backup")
    if source is not None:
        say("\n".join(backups.restore(store, source.read_bytes())))
    if target is not None:
        raw = backups.backup(store)
        target.write_bytes(raw)
        say(f"{target}: {len(store.names())} jobs, {len(raw)} bytes")


def _part(name: str) -> Any:  # noqa: ANN401 - a module, opened only when it is asked for
    """Open a part of the page by its name; the command line does not otherwise know it."""
    try:
        return import_module(name)
    except ModuleNotFoundError as error:
        raise NoWebError(
            problem=f"The bench page needs {error.name}, which is not installed.",
            reason="Only who serves the page needs it.",
            remedy="Install it with pip install 'borewright[web]'.",
        ) from error
