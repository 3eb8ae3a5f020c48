"""Operations laid out in lanes: a column for each component, steps down, rails for skips."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from planner.route.edges import Edges

MOST_ON_A_PAGE = 40
MOST_ROWS = 17
_LEAST_SHARE = 0.55


@dataclass(frozen=True, slots=True)
class Spot:
    """Where an operation stands: lane and row, counted from 0."""

    lane: int
    row: int


@dataclass(frozen=True, slots=True)
class Wire:
    """How the line between two operations runs, in lanes and gaps.

    Attributes
    ----------
    leaves
        Gap under the earlier row in which it turns to the side; none when it runs straight.
    enters
        Gap above the later row in which it turns back; none when one turn is enough.
    rail
        Whether it runs down beside the later lane, past operations that stand in its way.
    track
        Which of the lines of its gaps and rails it is, so that none lies on another.
    """

    earlier: str
    later: str
    leaves: int | None = None
    enters: int | None = None
    rail: bool = False
    track: int = 0


@dataclass(frozen=True, slots=True)
class Layout:
    """One page of the picture.

    Attributes
    ----------
    lanes
        Lanes that hold something here, from left to right.
    spots
        Operations in working order.
    wires
        Lines between operations of this page, without those that others already say.
    from_before
        For each operation here, those of earlier pages it waits for.
    """

    lanes: tuple[str, ...]
    rows: int
    spots: Mapping[str, Spot]
    wires: tuple[Wire, ...]
    from_before: Mapping[str, tuple[str, ...]]


def pages_of(
    order: Sequence[str], edges: Edges, lane_of: Mapping[str, str], most: int = MOST_ON_A_PAGE
) -> list[list[str]]:
    """Split a working order into pages where the fewest lines are cut.

    Parameters
    ----------
    order
        Operations in working order.
    edges
        What stands before each.
    lane_of
        The lane of each operation.
    most
        Most operations on one page.

    Returns
    -------
    list of list of str
        One list when all fit; a page holds at least one operation.
    """
    rest = list(order)
    pages: list[list[str]] = []
    while rest:
        depths = _depths(rest, edges, lane_of)
        room = max(1, min(most, sum(depth <= MOST_ROWS for depth in depths)))
        if room >= len(rest):
            return [*pages, rest]
        cuts = range(max(1, int(room * _LEAST_SHARE)), room + 1)
        at = min(cuts, key=lambda cut: (_crossing(rest, cut, edges), -cut))
        pages.append(rest[:at])
        rest = rest[at:]
    return pages


def _depths(names: Sequence[str], edges: Edges, lane_of: Mapping[str, str]) -> list[int]:
    """Count the rows that the first, the first two, the first three … operations take."""
    row: dict[str, int] = {}
    lowest: dict[str, int] = {}
    depths: list[int] = []
    for name in names:
        above = max((row[each] for each in edges[name] if each in row), default=0)
        row[name] = max(above, lowest.get(lane_of[name], 0)) + 1
        lowest[lane_of[name]] = row[name]
        depths.append(max(row[name], depths[-1] if depths else 0))
    return depths


def _crossing(order: Sequence[str], at: int, edges: Edges) -> int:
    """Count the operations before a cut that something after it waits for directly."""
    before = set(order[:at])
    return len({earlier for name in order[at:] for earlier in edges[name] if earlier in before})


def laid_out(
    names: Sequence[str], edges: Edges, lane_of: Mapping[str, str], lanes: Iterable[str]
) -> Layout:
    """Lay the operations of one page out.

    Parameters
    ----------
    names
        Operations of the page in working order.
    edges
        What stands before each.
    lane_of
        The lane of each operation.
    lanes
        All lanes from left to right.

    Returns
    -------
    Layout
        Spots and lines; every operation stands below all it waits for.
    """
    here = set(names)
    used = tuple(each for each in lanes if any(lane_of[name] == each for name in names))
    column = {lane: place for place, lane in enumerate(used)}
    links = _needed(names, edges)
    spots: dict[str, Spot] = {}
    lowest = dict.fromkeys(used, -1)
    for name in names:
        lane = lane_of[name]
        above = max((spots[each].row for each in links[name]), default=-1)
        lowest[lane] = max(above, lowest[lane]) + 1
        spots[name] = Spot(column[lane], lowest[lane])
    wires = [_wire(earlier, name, spots) for name in names for earlier in links[name]]
    return Layout(
        lanes=used,
        rows=max((spot.row for spot in spots.values()), default=-1) + 1,
        spots=spots,
        wires=tuple(_on_tracks(wires, spots)),
        from_before={
            name: tuple(each for each in edges[name] if each not in here)
            for name in names
            if any(each not in here for each in edges[name])
        },
    )


def _needed(names: Sequence[str], edges: Edges) -> dict[str, list[str]]:
    """Leave out a line between two operations that a longer way already joins."""
    here = set(names)
    above: dict[str, set[str]] = {}
    kept: dict[str, list[str]] = {}
    for name in names:
        direct = [each for each in edges[name] if each in here]
        far = set().union(*(above[each] for each in direct)) if direct else set()
        kept[name] = [each for each in direct if each not in far]
        above[name] = far.union(direct)
    return kept


def _wire(earlier: str, later: str, spots: Mapping[str, Spot]) -> Wire:
    start, end = spots[earlier], spots[later]
    taken = {(spot.lane, spot.row) for spot in spots.values()}
    between = range(start.row + 1, end.row)
    if start.lane == end.lane and _is_free(start.lane, between, taken):
        return Wire(earlier, later)
    if _is_free(end.lane, between, taken):
        return Wire(earlier, later, leaves=start.row)
    if _is_free(start.lane, between, taken):
        return Wire(earlier, later, leaves=end.row - 1)
    return Wire(earlier, later, leaves=start.row, enters=end.row - 1, rail=True)


def _is_free(lane: int, rows: Iterable[int], taken: set[tuple[int, int]]) -> bool:
    return all((lane, row) not in taken for row in rows)


def _on_tracks(wires: Iterable[Wire], spots: Mapping[str, Spot]) -> list[Wire]:
    """Give each turning line the first track that is free in all it runs through.

    Lines that leave one operation share a track: they part like branches.
    """
    taken: dict[tuple[str, int], list[tuple[int, float, float, str]]] = {}
    placed = []
    for wire in wires:
        runs = _runs(wire, spots)
        track = 0
        while not all(_fits(taken.get(where, []), track, run) for where, run in runs):
            track += 1
        for where, run in runs:
            taken.setdefault(where, []).append((track, *run))
        placed.append(Wire(wire.earlier, wire.later, wire.leaves, wire.enters, wire.rail, track))
    return placed


_Run = tuple[float, float, str]


def _runs(wire: Wire, spots: Mapping[str, Spot]) -> list[tuple[tuple[str, int], _Run]]:
    """Return the stretches of a line that others may lie beside: in gaps, and on a rail."""
    if wire.leaves is None:
        return []
    start, end = spots[wire.earlier], spots[wire.later]
    goal = end.lane - 0.5 if wire.rail else float(end.lane)
    ends = sorted((float(start.lane), goal))
    runs: list[tuple[tuple[str, int], _Run]] = [
        (("gap", wire.leaves), (ends[0], ends[1], wire.earlier))
    ]
    if wire.enters is not None:
        runs += [
            (("gap", wire.enters), (end.lane - 0.5, float(end.lane), wire.earlier)),
            (("rail", end.lane), (float(wire.leaves), float(wire.enters), wire.earlier)),
        ]
    return runs


def _fits(taken: Iterable[tuple[int, float, float, str]], track: int, run: _Run) -> bool:
    return not any(
        used == track and other != run[2] and low <= run[1] and high >= run[0]
        for used, low, high, other in taken
    )
