"""Why one operation stands before another: the chain of reasons between them."""

from dataclasses import dataclass
from itertools import pairwise

from planner.route.edges import Edges


@dataclass(frozen=True, slots=True)
class Link:
    """One edge of the chain: this before that, because."""

    earlier: str
    later: str
    reason: str


def chain_between(edges: Edges, earlier: str, later: str) -> tuple[Link, ...]:
    """Find the shortest chain of reasons from one operation to a later one.

    Parameters
    ----------
    edges
        What must stand before each operation.
    earlier, later
        The two operations.

    Returns
    -------
    tuple of Link
        From the earlier to the later; empty when no edge binds them.
    """
    import networkx  # late: only this question needs a graph library

    graph: networkx.DiGraph[str] = networkx.DiGraph()
    graph.add_nodes_from(edges)
    graph.add_edges_from((first, then) for then, before in edges.items() for first in before)
    if not networkx.has_path(graph, earlier, later):
        return ()
    shortest = min(networkx.all_shortest_paths(graph, earlier, later))
    return tuple(Link(first, then, edges[then][first]) for first, then in pairwise(shortest))
