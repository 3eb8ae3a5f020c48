"""Read a roughness trace: a CSV file of places along a surface and heights, units in its head."""

import csv
import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

from planner.datafiles.text import MOST, decoded, without_mark
from planner.errors import BorewrightError, Place, Problem, ProblemsFound
from planner.units import LENGTH, find_unit

MOST_BYTES = 4 * 1024 * 1024
FEWEST = 100
# A step may differ from the mean step by this share: instruments round their places.
EVENNESS = 0.02
SAMPLE = "first line: distance mm,height um; then one place and its height on each line"


@dataclass(frozen=True, slots=True)
class Trace:
    """Heights along a surface at one spacing, both in metres."""

    heights: tuple[float, ...]
    spacing: float


def read_trace(path: Path | str) -> Trace:
    """Read a trace of a surface.

    Parameters
    ----------
    path
        A CSV file: a head line that names both columns and their units, then a place along
        the surface and the height there on each line.

    Returns
    -------
    Trace
        The heights and their spacing. [m]

    Raises
    ------
    ProblemsFound
        With every line that cannot be read, or when the places are not evenly spaced.
    """
    file = str(path)
    lines = list(csv.reader(_text(Path(path), file).splitlines()))
    if not lines:
        raise ProblemsFound([Problem("the file is empty", SAMPLE, Place(file, 1, 1))])
    places, heights = _factors(lines[0], file)
    rows, problems = [], []
    for number, line in enumerate(lines[1:], start=2):
        if not line:
            continue
        row = _row(line, Place(file, number, 1))
        if isinstance(row, Problem):
            problems.append(row)
        else:
            rows.append((row[0] * places, row[1] * heights))
    if not problems and len(rows) < FEWEST:
        what = f"the trace has {len(rows)} heights, and {FEWEST} is the least"
        problems.append(Problem(what, "trace further or with a finer step", Place(file, 1, 1)))
    if not problems:
        problems += _uneven(rows, file)
    if problems:
        raise ProblemsFound(problems[:MOST])
    spacing = (rows[-1][0] - rows[0][0]) / (len(rows) - 1)
    return Trace(tuple(height for _, height in rows), spacing)


def _text(path: Path, file: str) -> str:
    try:
        raw = path.read_bytes()
    except OSError as error:
        what = f"{file} cannot be read ({error.strerror or error})"
        raise ProblemsFound(
            [Problem(what, "check the name and that the file is there")]
        ) from error
    if len(raw) > MOST_BYTES:
        fix = "export the roughness trace alone, one height for each half micrometre or more"
        raise ProblemsFound([Problem(f"{file} is larger than 4 MiB", fix)])
    return without_mark(decoded(raw, file))


def _factors(head: list[str], file: str) -> tuple[float, float]:
    """Read the units of both columns off the head line."""
    place = Place(file, 1, 1)
    if len(head) != 2:
        raise ProblemsFound([Problem(f"the head names {len(head)} columns", SAMPLE, place)])
    found = []
    for text in head:
        _, _, unit = text.strip().rpartition(" ")
        try:
            found.append(find_unit(unit, LENGTH).factor)
        except BorewrightError as error:
            what = f"the column {text.strip()!r} has no unit of length"
            raise ProblemsFound([Problem(what, SAMPLE, place)]) from error
    return found[0], found[1]


def _row(line: list[str], place: Place) -> tuple[float, float] | Problem:
    if len(line) != 2:
        fix = "write a place and a height, with a decimal point and a comma between them"
        return Problem(f"the line has {len(line)} values, not two", fix, place)
    try:
        along, height = float(line[0]), float(line[1])
    except ValueError:
        return Problem(f"{','.join(line)!r} is not two numbers", "write 0.0005,1.23", place)
    if not (math.isfinite(along) and math.isfinite(height)):
        fix = "leave gaps out of the export"
        return Problem(f"{','.join(line)!r} is not a height", fix, place)
    return along, height


def _uneven(rows: list[tuple[float, float]], file: str) -> Iterator[Problem]:
    """Tell the first place where the step is not the mean step."""
    mean = (rows[-1][0] - rows[0][0]) / (len(rows) - 1)
    for number, (before, after) in enumerate(pairwise(rows), start=3):
        step = after[0] - before[0]
        if mean <= 0.0 or abs(step - mean) > EVENNESS * mean:
            what = f"the step here is {step * 1e6:.4g} um, and {mean * 1e6:.4g} um on average"
            fix = "export the trace at one spacing, places rising"
            yield Problem(what, fix, Place(file, number, 1))
            return
