"""Read YAML files: positions kept, surprises refused, all problems in one run."""

from pathlib import Path

import yaml

from planner.datafiles.builder import Builder
from planner.datafiles.nodes import Node
from planner.datafiles.text import MOST, character_problems, decoded, without_mark
from planner.datafiles.traps import explain
from planner.errors import Place, Problem, ProblemsFound

MOST_BYTES = 2 * 1024 * 1024
LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def read_yaml(path: Path | str) -> Node:
    """Read one YAML file.

    Parameters
    ----------
    path
        The file.

    Returns
    -------
    Node
        What it holds, each value with its place.

    Raises
    ------
    ProblemsFound
        With everything that is wrong in the file.
    """
    file = str(path)
    try:
        with Path(path).open("rb") as stream:
            raw = stream.read(MOST_BYTES + 1)
    except OSError as error:
        raise ProblemsFound([_unreadable(file, error)]) from error
    if len(raw) > MOST_BYTES:
        raise ProblemsFound([_too_large(file)])
    return read_yaml_text(decoded(raw, file), file)


def read_yaml_text(text: str, file: str) -> Node:
    """Read YAML text as `read_yaml` does; spans count characters of the text without a BOM.

    Parameters
    ----------
    text
        The text.
    file
        The name to give in messages.

    Returns
    -------
    Node
        What the text holds.

    Raises
    ------
    ProblemsFound
        With everything that is wrong in it.
    """
    plain = without_mark(text)
    if len(plain) > MOST_BYTES:
        raise ProblemsFound([_too_large(file)])
    problems = character_problems(plain, file)
    if problems:
        raise ProblemsFound(problems)
    builder = Builder(plain, file)
    try:
        for event in yaml.parse(plain, Loader=LOADER):
            builder.take(event)
            if builder.stopped:
                break
        whole = builder.root
    except yaml.YAMLError as error:
        builder.problems.append(explain(error, plain, file))
        whole = None
    if builder.problems:
        first = sorted(builder.problems, key=lambda each: each.place or Place(file, 1, 1))
        raise ProblemsFound(first[:MOST], None if builder.stopped else whole)
    if builder.root is None:
        raise ProblemsFound([_empty(file)])
    return builder.root


def _unreadable(file: str, error: OSError) -> Problem:
    reason = (error.strerror or "the system refused").lower()
    return Problem(
        f"{file} cannot be read: {reason}",
        "check the name and that you may read the file",
    )


def _too_large(file: str) -> Problem:
    return Problem(
        "the file is larger than 2 MiB, so it is hardly a job or a rule file",
        "check that this is the file you meant",
        Place(file, 1, 1),
    )


def _empty(file: str) -> Problem:
    return Problem(
        "the file holds nothing",
        "`borewright new` writes a starter job",
        Place(file, 1, 1),
    )
