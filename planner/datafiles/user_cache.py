"""The folder where answers that take long may be kept between runs; losing it loses nothing."""

import os
import sys
from pathlib import Path

VARIABLE = "BOREWRIGHT_CACHE"


def user_cache() -> Path | None:
    """Say where this person's cache stands.

    Returns
    -------
    Path or None
        The folder, made or not; none when the variable BOREWRIGHT_CACHE says ``off``.
    """
    named = os.environ.get(VARIABLE, "")
    if named.strip().lower() == "off":
        return None
    if named:
        return Path(named)
    home = Path(os.path.expanduser("~"))  # noqa: PTH111 - Path.home() raises where there is none
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or home / "AppData" / "Local") / "borewright"
    if sys.platform == "darwin":
        return home / "Library" / "Caches" / "borewright"
    return Path(os.environ.get("XDG_CACHE_HOME") or home / ".cache") / "borewright"
