"""What a job holds of one item already: its readings with their nodes, and how they read."""

from collections.abc import Mapping
from itertools import chain

from planner.datafiles.nodes import Node, Scalar, Sequence
from planner.rulebook.values import Grid, Value

Cells = Mapping[tuple[int, int], tuple[Scalar | None, float]]


def held_cells(old: Node | None, known: Value | None) -> Cells:
    """Pair each reading that the job holds with its node."""
    if not isinstance(known, tuple):
        return {}
    nodes = _nodes(old, known)
    return {
        (r, c): (nodes.get((r, c)), cell)
        for r, row in enumerate(known)
        for c, cell in enumerate(row)
    }


def _nodes(old: Node | None, known: Grid) -> dict[tuple[int, int], Scalar]:
    if isinstance(old, Scalar):
        return {(0, 0): old}
    if not isinstance(old, Sequence):
        return {}
    rows = old.items if all(isinstance(row, Sequence) for row in old.items) else (old,)
    found = {
        (r, c): cell
        for r, row in enumerate(rows)
        if isinstance(row, Sequence)
        for c, cell in enumerate(row.items)
        if isinstance(cell, Scalar)
    }
    return found if len(found) == len(list(chain(*known))) else {}


def shown(old: Node | None) -> str:
    """Write what the job holds on one line."""
    if isinstance(old, Scalar):
        return old.text if old.value is not None else ""
    if isinstance(old, Sequence):
        parts = [shown(each) for each in old.items]
        return ("; " if any(isinstance(each, Sequence) for each in old.items) else ", ").join(
            parts
        )
    return ""
