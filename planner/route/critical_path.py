"""The longest chain through the operations: the least time a job can take, and what sets it."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from planner.route.edges import followers
from planner.route.order import in_order

Links = Mapping[str, Mapping[str, float]]
"""For each operation, the operations before it, each with the wait after it ends [h]."""


@dataclass(frozen=True, slots=True)
class Network:
    """Operations with their lengths, and what each must wait for.

    Attributes
    ----------
    hours
        Length of each operation, in the rulebook's order. [h]
    links
        What must have ended before each, with the hours to wait after that: the delivery time
        of an ordered part, for one.
    ready
        Earliest hour an operation may start, where something outside the plan sets it. [h]
    """

    hours: Mapping[str, float]
    links: Links
    ready: Mapping[str, float] = field(default_factory=dict)

    def order(self) -> tuple[str, ...]:
        """Return the operations so that each follows what it waits for."""
        names = {name: dict.fromkeys(self.links.get(name, {}), "") for name in self.hours}
        return in_order(names)


@dataclass(frozen=True, slots=True)
class Longest:
    """The longest chain.

    Attributes
    ----------
    finish
        Hour the last operation ends when nothing ever waits for a machine. [h]
    path
        The operations that set it, first to last.
    earliest
        Earliest start of each operation. [h]
    tail
        Hours from the start of each operation to the end of the job, itself included. [h]
    """

    finish: float
    path: tuple[str, ...]
    earliest: Mapping[str, float]
    tail: Mapping[str, float]


def longest(network: Network) -> Longest:
    """Find the longest chain by one pass forward and one back.

    Parameters
    ----------
    network
        Operations and waits.

    Returns
    -------
    Longest
        Finish, path, earliest starts and tails.

    Raises
    ------
    OperationsLoopError
        When operations wait for each other.

    Examples
    --------
    >>> longest(
    ...     Network(
    ...         {"order": 1.0, "bore": 3.0, "hone": 2.0}, {"hone": {"order": 40.0, "bore": 0.0}}
    ...     )
    ... ).path
    ('order', 'hone')
    """
    order = network.order()
    earliest: dict[str, float] = {}
    set_by: dict[str, str] = {}
    for name in order:
        earliest[name] = network.ready.get(name, 0.0)
        for before, wait in network.links.get(name, {}).items():
            could = earliest[before] + network.hours[before] + wait
            # An operation of no length still belongs to the chain it passes on.
            if could > earliest[name] or (name not in set_by and could == earliest[name]):
                earliest[name], set_by[name] = could, before
    ends = {name: earliest[name] + network.hours[name] for name in order}
    finish = max(ends.values(), default=0.0)
    return Longest(finish, _path(order, ends, set_by), earliest, _tails(network, order))


def _path(
    order: tuple[str, ...], ends: Mapping[str, float], set_by: Mapping[str, str]
) -> tuple[str, ...]:
    if not order:
        return ()
    # Of several that end last, the last in order: the one nothing follows.
    name = max(reversed(order), key=lambda each: ends[each])
    path = [name]
    while name in set_by:
        name = set_by[name]
        path.append(name)
    return tuple(reversed(path))


def _tails(network: Network, order: tuple[str, ...]) -> dict[str, float]:
    names = {name: dict.fromkeys(network.links.get(name, {}), "") for name in network.hours}
    after = followers(names)
    tail: dict[str, float] = {}
    for name in reversed(order):
        rest = (network.links[later][name] + tail[later] for later in after[name])
        tail[name] = network.hours[name] + max(rest, default=0.0)
    return tail
