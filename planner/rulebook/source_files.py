"""Which files a rulebook is made of, and how they are named in messages."""

from collections.abc import Iterator
from pathlib import Path


def yaml_files(folder: Path) -> Iterator[Path]:
    """List a folder's YAML files in name order, without its cases."""
    if folder.is_file():
        yield folder
        return
    for path in sorted(folder.rglob("*.yaml")):
        if "cases" not in path.relative_to(folder).parts:
            yield path


def shown(path: Path) -> str:
    """Name a file as the person who called us would: from the working folder if inside it."""
    try:
        return path.resolve().relative_to(Path.cwd()).as_posix()
    except ValueError:
        return path.as_posix()
