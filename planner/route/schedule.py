"""Give each operation a start by list scheduling: as early as people, benches and parts allow."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from planner.errors import BorewrightError
from planner.route.calendar import SAME
from planner.route.critical_path import Longest, Network, longest

Spell = tuple[float, float]


class NothingToWorkOnError(BorewrightError):
    """A bench, a lane or a crew of which the shop has none."""


@dataclass(frozen=True, slots=True)
class Crew:
    """What operations share.

    Attributes
    ----------
    takes
        For each operation, what it keeps busy while it runs: its station, its lane, a person.
    has
        How many of each there are; what is not listed never runs short.
    """

    takes: Mapping[str, tuple[str, ...]]
    has: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Timetable:
    """When each operation starts and ends.

    Attributes
    ----------
    starts, ends
        Working hours from the start of the job. [h]
    finish
        Hour the last one ends. [h]
    chain
        The longest chain, which no timetable can beat.
    held_up
        For each thing shared, the hours that operations stood ready and waited for it. [h]
    """

    starts: Mapping[str, float]
    ends: Mapping[str, float]
    finish: float
    chain: Longest
    held_up: Mapping[str, float] = field(default_factory=dict)

    @property
    def over_bound(self) -> float:
        """Return the share by which the timetable is longer than the longest chain."""
        return self.finish / self.chain.finish - 1 if self.chain.finish else 0.0


class _Busy:
    """Which shared things are taken, and when."""

    def __init__(self, has: Mapping[str, int]) -> None:
        self.has = has
        self.spells: dict[str, list[Spell]] = {name: [] for name in has}

    def first_free(self, earliest: float, hours: float, needs: tuple[str, ...]) -> float:
        """Find the first hour from which everything needed is free for long enough."""
        counted = [need for need in needs if need in self.has] if hours > SAME else []
        ends = sorted({end for need in counted for _, end in self.spells[need] if end > earliest})
        for start in (earliest, *ends):
            if all(self._fits(start, start + hours, need) for need in counted):
                return start
        return earliest

    def take(self, start: float, hours: float, needs: tuple[str, ...]) -> None:
        """Keep what an operation needs busy while it runs."""
        for need in needs:
            if need in self.has and hours > SAME:
                self.spells[need].append((start, start + hours))

    def _fits(self, start: float, end: float, need: str) -> bool:
        """Tell whether one more fits in at every moment of a spell."""
        over = [
            spell
            for spell in self.spells[need]
            if spell[0] < end - SAME and spell[1] > start + SAME
        ]
        moments = (start, *(spell[0] for spell in over if spell[0] > start))
        return all(
            sum(spell[0] <= at + SAME and spell[1] > at + SAME for spell in over) < self.has[need]
            for at in moments
        )


def timetable(network: Network, crew: Crew) -> Timetable:
    """Schedule operations one after the other, those with the longest tail first.

    The order is the proved one: an operation is placed only when all it waits for is placed, at
    the first hour from which everything it needs is free for its whole length. Nothing that was
    placed is moved again.

    Parameters
    ----------
    network
        Operations, lengths and waits.
    crew
        What they share, and how many there are.

    Returns
    -------
    Timetable
        Starts and ends.

    Raises
    ------
    NothingToWorkOnError
        When an operation needs something of which there is none.
    """
    _check(network, crew)
    chain = longest(network)
    rank = {name: place for place, name in enumerate(network.hours)}
    busy = _Busy(crew.has)
    starts: dict[str, float] = {}
    ends: dict[str, float] = {}
    held: dict[str, float] = {}
    followers: dict[str, list[str]] = {}
    for name in network.hours:
        for before in network.links.get(name, {}):
            followers.setdefault(before, []).append(name)
    could: dict[str, float] = {}
    _let_in(network, network.hours, ends, could)
    while could:
        name = min(could, key=lambda each: (-chain.tail[each], could[each], rank[each]))
        hours, needs = network.hours[name], crew.takes.get(name, ())
        for need in needs:
            wait = busy.first_free(could[name], hours, (need,)) - could[name]
            if wait > SAME:
                held[need] = held.get(need, 0.0) + wait
        starts[name] = busy.first_free(could[name], hours, needs)
        ends[name] = starts[name] + hours
        busy.take(starts[name], hours, needs)
        del could[name]
        _let_in(network, followers.get(name, ()), ends, could)
    finish = max(ends.values(), default=0.0)
    return Timetable(starts, ends, finish, chain, dict(sorted(held.items())))


def _let_in(
    network: Network, names: Iterable[str], ends: Mapping[str, float], could: dict[str, float]
) -> None:
    """Add the operations that wait for nothing more, with the hour they can start."""
    for name in names:
        at = _ready(network, name, ends)
        if at is not None:
            could[name] = at


def _ready(network: Network, name: str, ends: Mapping[str, float]) -> float | None:
    """Return the hour all an operation waits for is over; nothing while some is not placed."""
    links = network.links.get(name, {})
    if any(before not in ends for before in links):
        return None
    after = (ends[before] + wait for before, wait in links.items())
    return max(network.ready.get(name, 0.0), max(after, default=0.0))


def _check(network: Network, crew: Crew) -> None:
    for name in network.hours:
        for need in crew.takes.get(name, ()):
            if crew.has.get(need, 1) < 1:
                raise NothingToWorkOnError(
                    problem=f"{name} needs {need}, of which the shop has {crew.has[need]}.",
                    reason="It can never start.",
                    remedy="Count one in the shop's catalog, or send the work out.",
                )
