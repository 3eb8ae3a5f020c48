"""A table as a spreadsheet saves it: its cells with row and column, and what is wrong with it."""

import csv
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from planner.errors import Place, Problem, ProblemsFound

MOST_BYTES = 2 * 1024 * 1024
DELIMITERS = (";", "\t", ",")
_MARKS = ((b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"), (b"\xef\xbb\xbf", "utf-8-sig"))
_HINT = "sep="


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: its text without blanks round it, and its row and column from 1."""

    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class Table:
    """A header and the rows below it, as many cells in each as the header has."""

    file: str
    header: tuple[Cell, ...]
    rows: tuple[tuple[Cell, ...], ...]
    comma_decimals: bool


def read_table(raw: bytes, file: str) -> Table:
    """Read a table with commas, semicolons or tabs between its cells.

    Parameters
    ----------
    raw
        The file.
    file
        Its name, for messages; a place is ``file:row:column``.

    Returns
    -------
    Table
        Header and rows; rows without any text are left out.

    Raises
    ------
    ProblemsFound
        With every row that does not fit the header, or what keeps the file from being a table.
    """
    lines = _lines(_text(raw, file), file)
    if not lines:
        fix = "save the sheet as CSV with a header: cylinder, depth, thrust [mm], ..."
        raise ProblemsFound([Problem("the table is empty", fix, Place(file, 1, 1))])
    (_, header), *rows = lines
    problems = [each for line, cells in rows for each in _misfit(cells, line, header, file)]
    if problems:
        raise ProblemsFound(problems)
    placed = tuple(
        tuple(Cell(text, Place(file, line, at)) for at, text in enumerate(cells, 1))
        for line, cells in lines
    )
    body = tuple(_filled(row, len(header), file) for row in placed[1:])
    commas = _commas(body)
    return Table(file, placed[0], body, commas)


def _text(raw: bytes, file: str) -> str:
    if len(raw) > MOST_BYTES:
        fix = "save one kind of reading to a file"
        raise ProblemsFound([Problem("the table is larger than 2 MiB", fix, Place(file, 1, 1))])
    named = next((name for mark, name in _MARKS if raw.startswith(mark)), "")
    for encoding in (named,) if named else ("utf-8", "cp1252"):
        try:
            return raw.decode(encoding)
        except UnicodeDecodeError:
            continue
    fix = "save the sheet as CSV, UTF-8"
    raise ProblemsFound([Problem("the file is not text", fix, Place(file, 1, 1))])


def _lines(text: str, file: str) -> list[tuple[int, list[str]]]:
    """Split the text in rows of cells, each with its line number; empty rows are left out."""
    delimiter, skipped = _delimiter(text)
    reader = csv.reader(text.splitlines(keepends=True)[skipped:], delimiter=delimiter, strict=True)
    found: list[tuple[int, list[str]]] = []
    try:
        for cells in reader:
            trimmed = [cell.replace("\u00a0", " ").strip() for cell in cells]
            if any(trimmed):
                found.append((reader.line_num + skipped, _without_tail(trimmed)))
    except csv.Error as error:
        place = Place(file, reader.line_num + skipped, 1)
        fix = 'close each " that is opened, and save the sheet as CSV again'
        raise ProblemsFound([Problem(f"the row cannot be read ({error})", fix, place)]) from error
    return found


def _delimiter(text: str) -> tuple[str, int]:
    """Find what stands between cells, by the header; a first line ``sep=;`` says so itself."""
    lines = text.splitlines()
    first = lines[0].strip() if lines else ""
    if first.lower().startswith(_HINT) and first[len(_HINT) :] in DELIMITERS:
        return first[len(_HINT) :], 1
    header = next((line for line in lines if line.strip()), "")
    counts = Counter(sign for sign in header if sign in DELIMITERS)
    return next((sign for sign in DELIMITERS if counts[sign]), ","), 0


def _without_tail(cells: list[str]) -> list[str]:
    """Drop the empty cells that a spreadsheet adds at the end of a row."""
    while cells and not cells[-1]:
        cells = cells[:-1]
    return cells


def _misfit(cells: list[str], line: int, header: list[str], file: str) -> Iterator[Problem]:
    if len(cells) > len(header):
        what = (
            f"row {line} has {len(cells)} cells where the header has {len(header)}; the first too "
            f"many is {cells[len(header)]!r}"
        )
        fix = (
            "a decimal comma in a table with commas between cells splits the figure: save with "
            "semicolons, or put the figure in double quotes"
        )
        yield Problem(what, fix, Place(file, line, len(header) + 1))


def _filled(row: tuple[Cell, ...], width: int, file: str) -> tuple[Cell, ...]:
    line = row[0].place.line
    lacking = (Cell("", Place(file, line, at)) for at in range(len(row) + 1, width + 1))
    return (*row, *lacking)


def _commas(rows: tuple[tuple[Cell, ...], ...]) -> bool:
    """Tell whether the figures are written with decimal commas: one style for the whole table."""
    figures = [cell for row in rows for cell in row if _figure_like(cell.text)]
    commas = [cell for cell in figures if "," in cell.text]
    points = [cell for cell in figures if "." in cell.text]
    odd = next((cell for cell in commas if "." in cell.text), None)
    if odd is not None:
        fix = "write the figure without marks between thousands"
        what = f"{odd.text!r} has a point and a comma"
        raise ProblemsFound([Problem(what, fix, odd.place)])
    if commas and points:
        fewer = min((commas, points), key=len)[0]
        other = (points if fewer is commas[0] else commas)[0]
        what = f"{fewer.text!r} is written one way and {other.text!r} ({other.place}) the other"
        fix = "use decimal points, or decimal commas, in the whole table"
        raise ProblemsFound([Problem(what, fix, fewer.place)])
    return bool(commas)


def _figure_like(text: str) -> bool:
    return any(sign.isdigit() for sign in text) and not any(sign.isalpha() for sign in text)
