"""Cases of a table told in shop words: ``boost over 0.7 to 1.4 bar, use street or track``."""

from collections.abc import Sequence

from planner.records import record
from planner.rulebook.axes import Axis, NumberAxis, first_run, run_mask
from planner.rulebook.cover import Box


@record
class Case:
    """A stretch of cases, in words, with one of them as values.

    Attributes
    ----------
    words
        The stretch as a builder says it.
    cells
        The same as the cells of a row, ready to be written down.
    values
        One case in it: an SI float or a word for each column.
    """

    words: str
    cells: str
    values: tuple[float | str, ...]


def tell(axes: Sequence[Axis], box: Box) -> Case:
    """Put a box into words; of a number column only its lowest unbroken stretch is told."""
    plain = [_unbroken(axis, mask) for axis, mask in zip(axes, box, strict=True)]
    told = [(axis, axis.words(mask)) for axis, mask in zip(axes, plain, strict=True)]
    return Case(
        words=", ".join(_say(axis, words) for axis, words in told) or "every case",
        cells=", ".join(f"{axis.column.name}: {_quoted(words)}" for axis, words in told),
        values=tuple(axis.example(mask) for axis, mask in zip(axes, plain, strict=True)),
    )


def _unbroken(axis: Axis, mask: int) -> int:
    return run_mask(first_run(mask)) if isinstance(axis, NumberAxis) else mask


def _say(axis: Axis, words: str) -> str:
    if words == "any":
        return f"any {axis.column.name}"
    *others, last = words.split(", ")
    joined = f"{', '.join(others)} or {last}" if others else last
    return f"{axis.column.name} {joined}"


def _quoted(words: str) -> str:
    """Quote a list of words, so that its commas do not make new keys."""
    return f'"{words}"' if "," in words else words
