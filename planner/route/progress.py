"""What has been done, what can start now, and which hold points stand open."""

from collections.abc import Collection, Iterable, Mapping

from planner.route.edges import Edges
from planner.rulebook.syntax import Operation


def startable(
    edges: Edges, order: Iterable[str], done: Collection[str], doubtful: Collection[str]
) -> tuple[str, ...]:
    """List what can start now: not done, all before it done, and surely in the plan.

    Parameters
    ----------
    edges
        What must stand before each operation of the plan.
    order
        The working order.
    done
        Operations done and, at a hold point, signed.
    doubtful
        Operations that are only perhaps in the plan. They block what follows them, for if they
        turn out to be needed they come first.

    Returns
    -------
    tuple of str
        In working order.
    """
    return tuple(
        name
        for name in order
        if name not in done
        and name not in doubtful
        and all(earlier in done for earlier in edges[name])
    )


def out_of_turn(edges: Edges, done: Collection[str]) -> tuple[tuple[str, str], ...]:
    """List what is marked done although something before it is not: (done, still open)."""
    return tuple(
        (later, earlier)
        for later, before in edges.items()
        if later in done
        for earlier in before
        if earlier not in done
    )


def open_holds(
    operations: Mapping[str, Operation], order: Iterable[str], done: Collection[str]
) -> tuple[str, ...]:
    """List the hold points that nobody has signed, in working order."""
    return tuple(name for name in order if operations[name].hold and name not in done)
