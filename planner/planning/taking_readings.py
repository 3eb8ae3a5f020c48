"""Take readings from a table into a job file: read, fill, read back, compare, write."""

from dataclasses import dataclass, replace
from pathlib import Path

from planner.datafiles.reader import read_yaml_text
from planner.datafiles.text import decoded
from planner.datafiles.writing import locked
from planner.errors import BorewrightError, Problem, ProblemsFound
from planner.planning.history import NOBODY, made_with, put_down
from planner.planning.job_reader import JobReading, read_job_node
from planner.rulebook.facts import Facts
from planner.rulebook.syntax import Rulebook
from planner.teardown.asked import Asked
from planner.teardown.filling import Change, Filler
from planner.teardown.sheet import Figure, Sheet
from planner.teardown.table import read_table


class ReadingsLostError(BorewrightError):
    """A job that, read back, would not hold exactly the readings of the table."""


@dataclass(frozen=True, slots=True)
class Taken:
    """What a table brings to a job.

    Attributes
    ----------
    changes
        Items filled or changed.
    same
        Figures that the job holds already.
    doubts
        Readings that can hardly be right, asked about at their place in the job.
    written
        Whether the job file was changed.
    """

    changes: tuple[Change, ...]
    same: int
    doubts: tuple[Problem, ...]
    written: bool


def asked_of(path: Path, rulebook: Rulebook) -> Asked:
    """Read a job and say what its sheets of readings may hold."""
    text = _text(path)
    root = read_yaml_text(text, str(path))
    return Asked(rulebook, read_job_node(root, rulebook).facts, root)


def take_readings(
    path: Path, table: Path, rulebook: Rulebook, reading: str = "", *, write: bool = True
) -> Taken:
    """Set the figures of a table into a job file; nothing is written when anything is wrong.

    Parameters
    ----------
    path
        The job file.
    table
        The table, as a spreadsheet saves it.
    rulebook
        The rules.
    reading
        What a grid is about, where the table does not say.
    write
        Whether to write, or only to say what would be.

    Returns
    -------
    Taken
        What is new, and what to ask about.

    Raises
    ------
    ProblemsFound
        With everything wrong in the table or the job.
    """
    with locked(path):
        text = _text(path)
        root = read_yaml_text(text, str(path))
        before = read_job_node(root, rulebook)
        asked = Asked(rulebook, before.facts, root)
        figures = Sheet(asked, read_table(_bytes(table), str(table)), reading).figures()
        filling = Filler(asked, text).fill(figures)
        after = read_job_node(read_yaml_text(filling.text, str(path)), rulebook)
        _compare(before.facts, after.facts, figures)
        written = write and bool(filling.changes)
        if written:
            why, rules = f"readings from {table.name}", made_with(rulebook)
            put_down(path, filling.text, who=NOBODY, why=why, made_with=rules)
    return Taken(tuple(filling.changes), filling.same, _doubts(after), written)


def _text(path: Path) -> str:
    return decoded(_bytes(path), str(path))


def _bytes(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        why = (error.strerror or "the system refused").lower()
        fix = "check the name and that you may read the file"
        raise ProblemsFound([Problem(f"{path} cannot be read: {why}", fix)]) from error


def _doubts(after: JobReading) -> tuple[Problem, ...]:
    return after.doubts


def _compare(before: Facts, after: Facts, figures: list[Figure]) -> None:
    """Hold the job read back against the one before and the table; no reading may be lost."""
    filled = {figure.input.name for figure in figures}
    moved = [
        name
        for name in {*before.inputs, *after.inputs} - filled
        if before.inputs.get(name) is None
        or after.inputs.get(name) is None
        or before.inputs[name].entries != after.inputs[name].entries
    ]
    lost = [figure for figure in figures if not _holds(after, figure)]
    rest = replace(after, inputs=before.inputs, stage=before.stage) != before
    if moved or lost or rest:
        names = ", ".join([*moved, *(figure.input.name for figure in lost)]) or "the job"
        raise ReadingsLostError(
            problem=f"{names} would not read back as the table has it.",
            reason="A reading that changes on its way into the job is worse than none.",
            remedy="Nothing was written: type these readings in, and tell us of the table.",
        )


def _holds(after: Facts, figure: Figure) -> bool:
    fact = after.inputs.get(figure.input.name)
    entry = fact.entries.get((figure.item,) if figure.item else ()) if fact else None
    if entry is None or entry.value is None:
        return False
    if isinstance(entry.value, tuple):
        return any(cell == figure.si for row in entry.value for cell in row)
    return bool(entry.value == figure.si)
