"""Put selected operations in one order that keeps every edge and never changes by chance."""

import heapq
from collections.abc import Mapping

from planner.errors import BorewrightError, Problem, ProblemsFound
from planner.route.edges import Edges, all_edges, followers
from planner.rulebook.syntax import Operation


class OperationsLoopError(BorewrightError):
    """Operations that each must wait for the other."""


def in_order(edges: Edges) -> tuple[str, ...]:
    """Order the operations: each after all it must follow, else as the rulebook lists them.

    Parameters
    ----------
    edges
        Operations in the rulebook's order, with what must stand before each.

    Returns
    -------
    tuple of str
        The names in working order.

    Raises
    ------
    OperationsLoopError
        When some wait for each other.

    Examples
    --------
    >>> in_order({"hone": {"deck": "the plate sits on the deck"}, "wash": {}, "deck": {}})
    ('wash', 'deck', 'hone')
    """
    rank = {name: place for place, name in enumerate(edges)}
    after = followers(edges)
    waits = {name: len(before) for name, before in edges.items()}
    ready = [rank[name] for name, count in waits.items() if not count]
    names = tuple(edges)
    done: list[str] = []
    while ready:
        name = names[heapq.heappop(ready)]
        done.append(name)
        for later in after[name]:
            waits[later] -= 1
            if not waits[later]:
                heapq.heappush(ready, rank[later])
    if len(done) < len(edges):
        raise _loop(edges)
    return tuple(done)


def prove_order(operations: Mapping[str, Operation]) -> None:
    """Prove that all operations together can be put in order.

    Every plan takes a part of this graph, so no plan can then hold a loop, whatever the
    decisions call.

    Parameters
    ----------
    operations
        Operations of the rulebook.

    Raises
    ------
    ProblemsFound
        With the loop, at the operation it was found from.
    """
    try:
        in_order(all_edges(operations))
    except OperationsLoopError as error:
        first = error.problem.split(" ", 1)[0]
        raise ProblemsFound(
            [Problem(error.problem, error.remedy, operations[first].place)]
        ) from None


def _loop(edges: Edges) -> OperationsLoopError:
    """Name one loop, as the shop would walk it."""
    import networkx  # late: only a broken rulebook pays for it

    graph: networkx.DiGraph[str] = networkx.DiGraph()
    graph.add_edges_from((earlier, later) for later, before in edges.items() for earlier in before)
    walk = [earlier for earlier, _ in networkx.find_cycle(graph)]
    start = walk.index(min(walk))
    turn = [*walk[start:], *walk[:start], walk[start]]
    return OperationsLoopError(
        problem=" before ".join(turn) + ": operations in a loop",
        reason="each would wait for the other and neither could start",
        remedy="take out one of these after: or needs: edges",
    )
