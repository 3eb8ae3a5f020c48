"""Open the rulebook that ships with the program, with a shop's own folders over it."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from planner import __version__
from planner.datafiles.locate import shipped_folder
from planner.datafiles.user_cache import user_cache
from planner.planning.table_cache import use_user_cache
from planner.rulebook import compiled
from planner.rulebook.remembered import remembering
from planner.rulebook.syntax import Rulebook

_FOLDER = click.Path(exists=True, file_okay=False, path_type=Path)
Command = Callable[..., Any]


def overlays(command: Command) -> Command:
    """Add --rules and --catalogs, the shop's own folders, to a command."""
    catalogs = click.option(
        "--catalogs",
        type=_FOLDER,
        multiple=True,
        help="A shop's folder of catalogs, laid over ours.",
    )
    rules = click.option(
        "--rules", type=_FOLDER, multiple=True, help="A shop's folder of rules, laid over ours."
    )
    return rules(catalogs(command))


def open_rulebook(rules: tuple[Path, ...] = (), catalogs: tuple[Path, ...] = ()) -> Rulebook:
    """Open our rules with the shop's folders over them, proved now or when they last changed.

    While the command runs, answers of slow formulas are kept in the person's cache.
    """
    use_user_cache()
    context = click.get_current_context(silent=True)
    if context is not None:
        context.find_root().with_resource(remembering(user_cache()))
    return compiled.open_rulebook(
        [shipped_folder("rules"), *rules],
        [shipped_folder("catalogs"), *catalogs],
        user_cache(),
    )


def version_text() -> str:
    """Say which program and which rules these are."""
    from planner.rulebook.files import read_rule_files

    files = read_rule_files([shipped_folder("rules")], [shipped_folder("catalogs")])
    edition = files.edition or "unnamed"
    return f"borewright {__version__}, rules edition {edition}, check code {files.sha256[:16]}"
