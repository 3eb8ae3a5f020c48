"""Single parts on the bench as the job lists them: each with its label, none assigned yet."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from planner.datafiles.nodes import Mapping as Block
from planner.datafiles.nodes import Node, Scalar
from planner.errors import Problem, ProblemsFound
from planner.planning.job_nodes import unit_of_block, unknown_keys
from planner.rulebook.literals import read_number
from planner.rulebook.ranges import Unreadable
from planner.rulebook.value_type import ValueType
from planner.units import LENGTH, MASS, Dimension, find_unit

Heap = Mapping[str, float]
"""Parts of one kind by their labels, SI."""

SHAPES: Mapping[str, Mapping[str, str]] = {
    "bores": {"size": "mm"},
    "pistons": {"size": "mm", "mass": "g"},
    "pins": {"mass": "g"},
    "rods": {"small_end": "g", "big_end": "g"},
    "main_shells": {"upper": "mm", "lower": "mm"},
    "rod_shells": {"upper": "mm", "lower": "mm"},
}
"""What may be listed of each kind of part, and its unit."""

SAMPLE = "write {size: {unit: mm, readings: {A: 86.412, B: 86.410}}}"
_DIMENSIONS: Mapping[str, Dimension] = {"mm": LENGTH, "g": MASS}


@dataclass(frozen=True, slots=True)
class Pieces:
    """The parts on the bench.

    Attributes
    ----------
    heaps
        Figures by kind of part and what was read of it.
    """

    heaps: Mapping[tuple[str, str], Heap] = field(default_factory=dict)

    def heap(self, kind: str, what: str) -> Heap:
        """Return one heap; an empty one when nothing of it was read."""
        return self.heaps.get((kind, what), {})


def read_pieces(node: Node | None) -> Pieces:
    """Read `parts_in_hand.pieces` of a job.

    Parameters
    ----------
    node
        What stands there; none when nothing does.

    Returns
    -------
    Pieces
        The heaps.

    Raises
    ------
    ProblemsFound
        With every slip.
    """
    if node is None or (isinstance(node, Scalar) and node.value is None):
        return Pieces()
    problems: list[Problem] = []
    heaps: dict[tuple[str, str], Heap] = {}
    if not isinstance(node, Block):
        problems.append(Problem("parts_in_hand.pieces is not a block", SAMPLE, node.place))
    else:
        problems += unknown_keys(node, "parts_in_hand.pieces", tuple(SHAPES))
        for kind, shape in SHAPES.items():
            _read_kind(kind, shape, node.get(kind), heaps, problems)
    if problems:
        raise ProblemsFound(problems)
    return Pieces(heaps)


def _read_kind(
    kind: str,
    shape: Mapping[str, str],
    node: Node | None,
    heaps: dict[tuple[str, str], Heap],
    problems: list[Problem],
) -> None:
    if node is None:
        return
    label = f"parts_in_hand.pieces.{kind}"
    if not isinstance(node, Block):
        problems.append(Problem(f"{label} is not a block", SAMPLE, node.place))
        return
    problems += unknown_keys(node, label, tuple(shape))
    for what, unit in shape.items():
        inner = node.get(what)
        if inner is not None:
            heaps[kind, what] = _heap(f"{label}.{what}", unit, inner, problems)


def _heap(label: str, unit: str, node: Node, problems: list[Problem]) -> Heap:
    readings = node.get("readings") if isinstance(node, Block) else None
    if not isinstance(node, Block) or not isinstance(readings, Block):
        problems.append(Problem(f"{label} holds no readings by label", SAMPLE, node.place))
        return {}
    problems += unknown_keys(node, label, ("unit", "readings", "by", "on", "gauge", "note"))
    stated = unit_of_block(node, problems)
    declared = ValueType("number", find_unit(unit), _DIMENSIONS[unit])
    found: dict[str, float] = {}
    for key, inner in readings.entries:
        try:
            found[key.text] = read_number(inner, declared, f"{label} {key.text}", stated)
        except Unreadable as error:
            problems.append(error.problem)
    return found
