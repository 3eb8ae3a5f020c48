"""Small questions about the nodes of a job: unknown keys, open values, units of blocks."""

from collections.abc import Iterator

from planner.datafiles.nodes import Mapping, Node, Scalar, Sequence
from planner.errors import BorewrightError, Place, Problem, nearest
from planner.rulebook.syntax import Field
from planner.units import Unit, find_unit

UNKNOWN = "unknown"


def unknown_key(key: str, path: str, allowed: tuple[str, ...], place: Place) -> Problem:
    """Word a key that the job file does not know."""
    offer = nearest(key, allowed)
    hint = f"did you mean {offer}? " if offer else ""
    where = f"{path} has" if path else "a job has"
    return Problem(f"{where} no key {key!r}", f"{hint}allowed: {', '.join(allowed)}", place)


def unknown_keys(node: Mapping, path: str, allowed: tuple[str, ...]) -> list[Problem]:
    """Word every key of a block that the job file does not know."""
    return [
        unknown_key(key.text, path, allowed, key.place)
        for key, _ in node.entries
        if key.text not in allowed
    ]


def is_unknown(node: Node, each: Field | None = None) -> bool:
    """Tell whether a value is left open on purpose: empty, or the word `unknown`."""
    if not isinstance(node, Scalar):
        return False
    word = node.text.strip()
    if each is not None and word in each.type.words:
        return False
    return node.value is None or word == UNKNOWN


def scalars(node: Node) -> Iterator[Scalar]:
    """Walk all single values under a node."""
    if isinstance(node, Scalar):
        yield node
    elif isinstance(node, Sequence):
        for item in node.items:
            yield from scalars(item)
    else:
        for _, inner in node.entries:
            yield from scalars(inner)


def unit_of_block(node: Mapping, problems: list[Problem]) -> Unit | None:
    """Read the unit of a block, if it states one."""
    stated = node.get("unit")
    if stated is None:
        return None
    if not isinstance(stated, Scalar):
        problems.append(Problem("unit is not one word", "write unit: mm", stated.place))
        return None
    try:
        return find_unit(stated.text)
    except BorewrightError as error:
        problems.append(Problem(error.problem, error.remedy, stated.place))
        return None
