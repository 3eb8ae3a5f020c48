"""As-built readings from a table into the job: checked first, then written with their history."""

import csv
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from io import StringIO
from pathlib import Path

from planner.asbuilt.fits import WHOLE, Fit, read_fits
from planner.datafiles.nodes import Mapping as Block
from planner.datafiles.nodes import Node, Scalar
from planner.datafiles.reader import read_yaml, read_yaml_text
from planner.datafiles.splice import Plain
from planner.datafiles.text import decoded
from planner.errors import BorewrightError, Place, Problem, ProblemsFound, nearest
from planner.models.history import Revision
from planner.planning.history import Edit, change_job, made_with
from planner.planning.verification import verify_node
from planner.rulebook.syntax import Rulebook

COLUMNS = ("measure", "item", "unit", "gauge", "instrument", "uncertainty", "on", "by", "note")
READING = "reading"
SAMPLE = "measure,item,unit,gauge,on,by,reading,reading"


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table."""

    fit: Fit
    item: str
    told: Mapping[str, str]
    values: tuple[str, ...]
    place: Place


def take_asbuilt(job: Path, table: Path, rulebook: Rulebook, who: str) -> Revision | None:
    """Write the readings of a table into the job's as_built block.

    Parameters
    ----------
    job
        The job file.
    table
        A CSV file: a line for each item, with as many readings as were taken.
    rulebook
        Knows what is measured.
    who
        Who enters them; who measured may stand in the table.

    Returns
    -------
    Revision or None
        What was written down; nothing when the job held all of it already.

    Raises
    ------
    ProblemsFound
        With every slip of the table, or of the job as it would become; nothing is written then.
    """
    rows = read_table(table, rulebook, who)
    edits = _edits(rows, job)
    return change_job(
        job,
        edits,
        who=who,
        why=f"as-built readings from {table.name}",
        made_with=made_with(rulebook),
        check=lambda text: _check(text, str(job), rulebook),
    )


def read_table(table: Path, rulebook: Rulebook, who: str) -> tuple[Row, ...]:
    """Read the lines of a table, collecting every slip."""
    try:
        text = decoded(table.read_bytes(), str(table))
    except OSError as error:
        raise UnreadableTableError(
            problem=f"{table} cannot be read: {(error.strerror or 'refused').lower()}.",
            reason="Readings come from it.",
            remedy="Check the name.",
        ) from error
    fits = read_fits(rulebook)
    lines = _lines(text)
    head = [each.strip() for each in lines[0][1]] if lines else []
    problems = _head_problems(head, Place(str(table), lines[0][0] if lines else 1, 1))
    rows = []
    for number, cells in [] if problems else lines[1:]:
        place = Place(str(table), number, 1)
        row = _row(_line(head, cells, who), fits, place, problems)
        if row is not None:
            problems += _lacks(row)
            rows.append(row)
    if problems:
        raise ProblemsFound(problems)
    return tuple(rows)


class UnreadableTableError(BorewrightError):
    """A table of readings that is not there."""


def _lines(text: str) -> list[tuple[int, list[str]]]:
    """Return the lines that hold something, with their numbers; a line may begin with # to say."""
    cells = enumerate(csv.reader(StringIO(text)), 1)
    return [
        (number, line)
        for number, line in cells
        if any(each.strip() for each in line) and not line[0].lstrip().startswith("#")
    ]


def _head_problems(head: list[str], place: Place) -> list[Problem]:
    known = (*COLUMNS, READING)
    problems = [
        Problem(
            f"there is no column {each!r}",
            f"did you mean {nearest(each, known)}?" if nearest(each, known) else f"write {SAMPLE}",
            place,
        )
        for each in head
        if each not in known
    ]
    if "measure" not in head or READING not in head:
        problems.append(
            Problem("the table has no measure or no reading column", f"write {SAMPLE}", place)
        )
    return problems


def _line(head: list[str], cells: list[str], who: str) -> dict[str, list[str]]:
    """Return what stands in each column of a line; nobody named means who enters it."""
    found: dict[str, list[str]] = {"by": [who]} if who else {}
    written: dict[str, list[str]] = {}
    for name, cell in zip(head, cells, strict=False):
        if cell.strip():
            written.setdefault(name, []).append(cell.strip())
    return found | written


def _row(
    line: Mapping[str, list[str]], fits: Mapping[str, Fit], place: Place, problems: list[Problem]
) -> Row | None:
    told = {name: texts[0] for name, texts in line.items() if name != READING}
    measure = told.pop("measure", "")
    if measure not in fits:
        offer = nearest(measure, fits)
        fix = f"did you mean {offer}?" if offer else "see catalogs/fits.yaml"
        problems.append(Problem(f"there is nothing to measure named {measure!r}", fix, place))
        return None
    item = told.pop("item", "").rpartition(" ")[2]
    return Row(fits[measure], item, told, tuple(line.get(READING, ())), place)


def _lacks(row: Row) -> list[Problem]:
    """Say what a record cannot do without and this line does not hold."""
    name = f"{row.fit.id} {row.item}".strip()
    lacking = {
        "reading": (not row.values, "write it, or take the line out"),
        "item": (row.fit.set != WHOLE and not row.item, f"write the {row.fit.set}"),
        "day": ("on" not in row.told, "fill in the column on, as 2027-02-03"),
        "name": ("by" not in row.told, "fill in the column by, or give --by"),
    }
    return [
        Problem(f"{name} has no {what}", fix, row.place)
        for what, (lacks, fix) in lacking.items()
        if lacks
    ]


def _edits(rows: Iterable[Row], job: Path) -> list[Edit]:
    """Turn rows into edits: a whole block for what is new, one item where a block stands."""
    root = read_yaml(job)
    held = root.get("as_built") if isinstance(root, Block) else None
    by_fit: dict[str, list[Row]] = {}
    for row in rows:
        by_fit.setdefault(row.fit.id, []).append(row)
    edits = []
    for name, group in by_fit.items():
        block = held.get(name) if isinstance(held, Block) else None
        if group[0].fit.set == WHOLE:
            edits.append(Edit(("as_built", name), _block(group[-1])))
        elif isinstance(block, Block) and isinstance(block.get("readings"), Block):
            edits += [_item_edit(row, block) for row in group]
        else:
            edits.append(Edit(("as_built", name), _whole_block(group)))
    return edits


def _item_edit(row: Row, block: Block) -> Edit:
    """Set one item; what its block says for all items is not said again."""
    shared = {key.text: _text(inner) for key, inner in block.entries if key.text in COLUMNS}
    told = {name: row.told[name] for name in COLUMNS if name in row.told}
    value: Plain = _values(row) if told == shared else _block(row)
    return Edit(("as_built", row.fit.id, "readings", row.item), value)


def _text(node: Node) -> str:
    return node.text.strip() if isinstance(node, Scalar) else ""


def _whole_block(group: list[Row]) -> dict[str, Plain]:
    """Write what all rows share once, and the readings by item."""
    first = group[0].told
    if all(row.told == first for row in group):
        readings: dict[str, Plain] = {row.item: _values(row) for row in group}
        return {**_told(first), "readings": readings}
    return {"readings": {row.item: _block(row) for row in group}}


def _block(row: Row) -> dict[str, Plain]:
    return {**_told(row.told), "value": _values(row)}


def _told(told: Mapping[str, str]) -> dict[str, Plain]:
    return {name: told[name] for name in COLUMNS if name in told}


def _values(row: Row) -> Plain:
    """Return the readings; a cell with several of them apart by spaces is one depth or plane."""
    values = [_cell(each) for each in row.values]
    if any(isinstance(each, list) for each in values):
        return [each if isinstance(each, list) else [each] for each in values]
    return values[0] if len(values) == 1 else values


def _cell(text: str) -> Plain:
    try:
        numbers: list[Plain] = [float(each) for each in text.split()]
    except ValueError:
        return text
    return numbers[0] if len(numbers) == 1 else numbers


def _check(text: str, file: str, rulebook: Rulebook) -> None:
    """Hold the job as it would become against the rules; raises with every slip."""
    verify_node(read_yaml_text(text, file), rulebook)
