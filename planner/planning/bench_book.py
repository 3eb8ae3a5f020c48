"""What the parts on the bench are held against: figures of the rules, and how they are printed."""

from planner.planning.names import Names
from planner.planning.pieces import Heap, Pieces
from planner.rulebook.printing import show_number
from planner.rulebook.results import Results
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Band, Key
from planner.units import LENGTH, MASS, find_unit

TENTHS = 1e7
"""Tenths of a micron in a metre."""
HUNDREDTHS = 1e5
"""Hundredths of a gram in a kilogram."""
MM = ValueType("number", find_unit("mm"), LENGTH, step=1e-6)
GRAM = ValueType("number", find_unit("g"), MASS, step=1e-4)


class BenchBook:
    """Looks figures up and prints them.

    Parameters
    ----------
    results
        Clearances wanted, and sizes already typed by place.
    names
        Prints values.
    pieces
        The parts on the bench.
    """

    def __init__(self, results: Results, names: Names, pieces: Pieces) -> None:
        self.results, self.names, self.pieces = results, names, pieces
        self.world = results.world

    def item_mm(self, value: object) -> str:
        """Print a length that may not be there."""
        return self.mm(value) if isinstance(value, int | float) else "?"

    def mm(self, si: float) -> str:
        """Print a length to the micron."""
        return show_number(si, MM, self.names.system)

    def gram(self, hundredths: int) -> str:
        """Print a mass given in hundredths of a gram."""
        return show_number(hundredths / HUNDREDTHS, GRAM, self.names.system)

    def number(self, name: str, key: Key = ()) -> float | None:
        """Return a settled number of the rules."""
        answer = self.world.answers.get(name)
        value = answer.value(key) if answer is not None else None
        return value if isinstance(value, int | float) else None

    def band(self, name: str) -> tuple[float, float, float] | None:
        """Return a settled band: low, aim, high."""
        answer = self.world.answers.get(name)
        value = answer.value() if answer is not None else None
        if not isinstance(value, Band):
            return None
        parts = (value.low, value.target, value.high)
        low, aim, high = (x if isinstance(x, int | float) else None for x in parts)
        return None if low is None or aim is None or high is None else (low, aim, high)

    def target(self, name: str) -> float | None:
        """Return the aim of a settled band."""
        band = self.band(name)
        return None if band is None else band[1]


def whole(heap: Heap, scale: float) -> dict[str, int]:
    """Return a heap in whole numbers, so that choices among its parts are exact."""
    return {name: round(size * scale) for name, size in heap.items()}
