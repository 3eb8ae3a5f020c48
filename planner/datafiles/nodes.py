"""What a YAML file holds, each value with the place where it stands."""

from dataclasses import dataclass
from typing import NamedTuple

from planner.errors import Place

Value = str | int | float | bool | None


class Scalar(NamedTuple):
    """One value: as the YAML 1.2 core schema reads it, and as it was written."""

    value: Value
    text: str
    quoted: bool
    place: Place
    span: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Sequence:
    """A list of values."""

    items: "tuple[Node, ...]"
    place: Place
    span: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Mapping:
    """Names with values, in the order written; no name twice."""

    entries: "tuple[tuple[Scalar, Node], ...]"
    place: Place
    span: tuple[int, int]

    def get(self, key: str) -> "Node | None":
        """Give the value under a name as written in the file, or None."""
        # a plain loop: this is asked fifty thousand times while rules load
        for name, value in self.entries:
            if name.text == key:
                return value
        return None

    def keys(self) -> tuple[str, ...]:
        """Give the names as written in the file, in order."""
        return tuple([name.text for name, _ in self.entries])

    def key_place(self, key: str) -> Place:
        """Say where a name stands; the mapping's own place when it is not there."""
        return next((name.place for name, _ in self.entries if name.text == key), self.place)


Node = Scalar | Sequence | Mapping
