"""Figures of fastener makers that a person typed into the job."""

from planner.datafiles.nodes import Mapping, Node, Scalar
from planner.errors import Problem, nearest
from planner.models.job import TypedTorque
from planner.planning.job_nodes import unknown_keys
from planner.planning.shop_rows import rows_of
from planner.rulebook.syntax import Rulebook

KEYS = ("value", "from", "note")
SAMPLE = 'write {value: "45 N·m and 90 degrees", from: "bolt maker\'s sheet"}'


def typed_torques(
    node: Node | None, rulebook: Rulebook, problems: list[Problem]
) -> dict[str, TypedTorque]:
    """Read `torque_sheet: {rod_bolts: {value: ..., from: ...}}`.

    Parameters
    ----------
    node
        What the job holds there.
    rulebook
        Its shop lists the fasteners.
    problems
        Gets what is wrong.

    Returns
    -------
    dict of str to TypedTorque
        By fastener; a figure without its origin is not taken.
    """
    if node is None or (isinstance(node, Scalar) and node.value is None):
        return {}
    if not isinstance(node, Mapping):
        what = "torque_sheet is not a block of fasteners"
        problems.append(Problem(what, SAMPLE, node.place))
        return {}
    known = rows_of(rulebook, "fastener_lines")
    found = {}
    for key, inner in node.entries:
        if key.text not in known:
            offer = nearest(key.text, known)
            hint = f"did you mean {offer}? " if offer else ""
            what = f"torque_sheet has no fastener {key.text!r}"
            problems.append(Problem(what, f"{hint}known: {', '.join(known)}", key.place))
            continue
        typed = _typed(f"torque_sheet.{key.text}", inner, problems)
        if typed is not None:
            found[key.text] = typed
    return found


def _typed(label: str, node: Node, problems: list[Problem]) -> TypedTorque | None:
    if not isinstance(node, Mapping):
        problems.append(Problem(f"{label} is not a block of keys", SAMPLE, node.place))
        return None
    problems += unknown_keys(node, label, KEYS)
    value, origin = _text(node.get("value")), _text(node.get("from"))
    if not value:
        return None
    if not origin:
        what = f"{label} says {value} and not whose figure it is"
        problems.append(Problem(what, "add from: and the maker's sheet", node.place))
        return None
    return TypedTorque(value=value, origin=origin)


def _text(node: Node | None) -> str:
    return node.text.strip() if isinstance(node, Scalar) and node.value is not None else ""
