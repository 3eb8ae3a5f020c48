"""Find the rules and catalogs that ship with the program."""

from importlib.resources import files
from pathlib import Path
from typing import Literal

from planner.errors import DataNotFound


def shipped_folder(kind: Literal["rules", "catalogs"]) -> Path:
    """Find a folder of shipped data: inside the installed package, or beside a checkout.

    An editable install leaves old copies in site-packages, so nothing is looked for there
    by name.

    Parameters
    ----------
    kind
        Which folder.

    Returns
    -------
    Path
        The folder.

    Raises
    ------
    DataNotFound
        Naming both places that were tried.
    """
    package = Path(str(files("planner")))
    installed = package / "_data" / kind
    checkout = package.parent / kind
    for folder in (installed, checkout):
        if folder.is_dir():
            return folder
    raise DataNotFound(
        problem=f"The {kind} folder is neither at {installed} nor at {checkout}.",
        reason="Without it there is nothing to plan by.",
        remedy="Install the program again, or run it from a whole checkout.",
    )
