"""Edges between operations: what must stand before what, and the reason for each."""

from collections.abc import Collection, Mapping

from planner.rulebook.syntax import Operation

Edges = Mapping[str, Mapping[str, str]]
"""For each operation, the operations before it, each with its reason."""


def all_edges(operations: Mapping[str, Operation]) -> Edges:
    """Return the edges of a rulebook: every `after`, and every `needs` without one."""
    return {name: _before(operation) for name, operation in operations.items()}


def edges_among(operations: Mapping[str, Operation], selected: Collection[str]) -> Edges:
    """Return the plain sub-graph of the selected operations.

    Nothing is bridged: an edge whose middle operation is not selected is gone, and order then
    rests on the edges written between the operations that are there (the guard edges).

    Parameters
    ----------
    operations
        Operations of the rulebook.
    selected
        Names in the plan.

    Returns
    -------
    Edges
        In the rulebook's order, edges in the order they are written.
    """
    return {
        name: {
            earlier: reason
            for earlier, reason in _before(operation).items()
            if earlier in selected
        }
        for name, operation in operations.items()
        if name in selected
    }


def followers(edges: Edges) -> dict[str, dict[str, str]]:
    """Turn the edges round: for each operation, what comes after it and why."""
    after: dict[str, dict[str, str]] = {name: {} for name in edges}
    for later, before in edges.items():
        for earlier, reason in before.items():
            after[earlier][later] = reason
    return after


def _before(operation: Operation) -> dict[str, str]:
    before = dict(operation.after)
    for needed in operation.needs:
        before.setdefault(needed, f"{operation.name} needs it done")
    return before
