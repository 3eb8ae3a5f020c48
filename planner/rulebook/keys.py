"""Keys of a block: texts, flags, and the ones that have no meaning there."""

from collections.abc import Sequence as AnySequence

from planner.datafiles.nodes import Mapping, Node, Scalar, Sequence
from planner.errors import Problem, nearest
from planner.rulebook.ranges import bad


def text_of(node: Node | None, label: str) -> str:
    """Return the text of a scalar; nothing for a key that is not there."""
    if node is None:
        return ""
    if isinstance(node, Scalar):
        return "" if node.value is None else node.text
    raise bad(
        f"{label} is a list or a block, where one text belongs",
        "write one line of text",
        node.place,
    )


def texts_of(node: Node | None, label: str) -> tuple[str, ...]:
    """Return one text or a list of texts as a tuple."""
    if node is None:
        return ()
    if isinstance(node, Sequence):
        return tuple(text_of(item, label) for item in node.items)
    return (text_of(node, label),)


def flag_of(node: Node | None, label: str) -> bool:
    """Return a true or false key; false when it is not there."""
    if node is None:
        return False
    if isinstance(node, Scalar) and isinstance(node.value, bool):
        return node.value
    raise bad(f"{label} is neither true nor false", "write true or false", node.place)


def check_keys(node: Mapping, allowed: AnySequence[str], what: str) -> list[Problem]:
    """Report every key that has no meaning here, with the nearest that has."""
    problems = []
    for key in node.keys():  # noqa: SIM118 - a node of ours, not a dict
        if key not in allowed:
            offer = nearest(key, allowed)
            hint = f"did you mean {offer}? " if offer else ""
            problems.append(
                Problem(
                    f"{what} has no key {key!r}",
                    f"{hint}allowed: {', '.join(allowed)}",
                    node.key_place(key),
                )
            )
    return problems
