"""The rows and axes of a grid of readings: as the job lists them, else as the table does."""

from collections.abc import Iterable
from dataclasses import dataclass

from planner.datafiles.splice import Plain
from planner.errors import Problem, ProblemsFound
from planner.rulebook.syntax import Field
from planner.teardown.asked import AXES, ROWS, Asked, plain_name
from planner.teardown.sheet import Figure


@dataclass(frozen=True, slots=True)
class Shape:
    """The rows and axes of a grid: how many, and what the job or the table calls them."""

    row_names: tuple[str, ...]
    axis_names: tuple[str, ...]

    @property
    def rows(self) -> int:
        """How many rows."""
        return len(self.row_names)

    @property
    def columns(self) -> int:
        """How many readings in a row."""
        return len(self.axis_names)

    def at(self, figure: Figure) -> tuple[int, int]:
        """Return where a figure stands."""
        return _at(figure.row, self.row_names) or 0, _at(figure.axis, self.axis_names) or 0

    def name(self, row: int, column: int) -> str:
        """Name a place: ``15 thrust``."""
        names = (self.row_names[row], self.axis_names[column])
        return " ".join(name for name in names if name) or "a reading"

    def listing(self) -> dict[str, Plain]:
        """Return the depths and axes to list in a new block, where they have names."""
        found: dict[str, Plain] = {}
        if not _counted(self.row_names) and all(_is_number(name) for name in self.row_names):
            found["depths"] = [plain_number(name) for name in self.row_names]
        if not _counted(self.axis_names):
            found["axes"] = list(self.axis_names)
        return found


def _labels(labels: Iterable[str]) -> tuple[str, ...]:
    found: dict[str, str] = {}
    for label in labels:
        found.setdefault(plain_name(label), label)
    return tuple(found.values())


def _numbered(held: int, labels: tuple[str, ...]) -> tuple[str, ...]:
    """Number what the job holds without names; of a new grid take the table's own names."""
    if held:
        return tuple(str(number) for number in range(1, held + 1)) if held > 1 else ("",)
    if all(label.isdigit() for label in labels):
        return tuple(sorted(labels, key=int))
    return labels


def _held(asked: Asked, each: Field) -> tuple[int, int]:
    """Return how many rows, and readings in a row, the job holds."""
    fact = asked.facts.inputs.get(each.name)
    grids = [entry.value for entry in fact.entries.values()] if fact is not None else []
    first = next((grid for grid in grids if isinstance(grid, tuple)), ())
    return (len(first), len(first[0])) if first else (0, 0)


def shape_of(asked: Asked, each: Field, figures: list[Figure]) -> Shape:
    """Find the shape of a grid.

    Parameters
    ----------
    asked
        The job.
    each
        The reading.
    figures
        What the table holds of it.

    Returns
    -------
    Shape
        Rows and axes.

    Raises
    ------
    ProblemsFound
        When the table names a row or an axis that the job does not have.
    """
    held = _held(asked, each)
    shape = Shape(
        asked.listed(each, ROWS) or _numbered(held[0], _labels(one.row for one in figures)),
        asked.listed(each, AXES) or _numbered(held[1], _labels(one.axis for one in figures)),
    )
    what = (each.grid_axes[0], each.grid_axes[-1]) if each.grid_axes else ("row", "axis")
    problems = [
        _stranger(each, figure, word, label, names)
        for figure in figures
        for word, label, names in (
            (what[0], figure.row, shape.row_names),
            (what[1], figure.axis, shape.axis_names),
        )
        if _at(label, names) is None
    ]
    if problems:
        raise ProblemsFound(problems)
    return shape


def _stranger(
    each: Field, figure: Figure, word: str, label: str, names: tuple[str, ...]
) -> Problem:
    known = ", ".join(names) if names != ("",) else "one only"
    fix = f"the job has {known}; a job that lists no {word} counts 1, 2, ..."
    return Problem(f"{each.name} has no {word} {label!r}", fix, figure.cell.place)


def _at(label: str, names: tuple[str, ...]) -> int | None:
    """Find a label among names; a figure matches by its value, and 1 is the only one."""
    wanted = plain_name(label)
    plain = [plain_name(name) for name in names]
    if wanted in plain:
        return plain.index(wanted)
    if len(names) == 1 and wanted in ("", "1"):
        return 0
    for at, name in enumerate(plain):
        if _is_number(wanted) and _is_number(name) and float(wanted) == float(name):
            return at
    return None


def _counted(names: tuple[str, ...]) -> bool:
    return names in (("",), tuple(str(number) for number in range(1, len(names) + 1)))


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True


def plain_number(text: str) -> int | float:
    """Read a figure as YAML writes it: whole numbers stay whole."""
    value = float(text)
    return int(value) if value == int(value) and "." not in text else value
