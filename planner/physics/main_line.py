"""How far the main bores stand out of line."""

from collections.abc import Iterable
from itertools import pairwise
from math import hypot

from planner.physics.readings_grid import Grid, Row, point_rows
from planner.physics.registry import Q, outside, physics
from planner.units.dimension import LENGTH

_LENGTH = Q(LENGTH)


@physics(
    returns={
        "main_neighbour_offset": _LENGTH,
        "main_line_residual": _LENGTH,
        "main_line_straightness": _LENGTH,
    },
    citation="derived; straightness as ISO 1101, not opened",
    validity="three or more main bores, in order along the crank",
    points=Q(LENGTH, grid=True),
)
def main_line(*, points: Grid) -> dict[str, float]:
    """Work out how far main bores stand from their neighbours and from one line.

    Parameters
    ----------
    points
        One row for each main bore in order: its place along the crank, and how far its
        centre stands from a straight bar or laser, in one direction or in two. [m]

    Returns
    -------
    main_neighbour_offset
        Largest distance of an inner bore from the line through the bores beside it. [m]
    main_line_residual
        Largest distance of a bore from the least-squares line through all. [m]
    main_line_straightness
        Least room between two parallel lines that hold all centres, the worse direction. [m]

    Raises
    ------
    OutsideValidity
        When there are fewer than three bores, they are out of order, or a row does not
        hold two or three numbers.

    Notes
    -----
    Distances of two directions are put together; the straightness is taken in each
    direction alone. How the bar or laser was set does not matter: a straight line may be
    added to the offsets. A neighbour offset bends the crank most, since it stays stiff over
    two short spans.

    References
    ----------
    Derived above from straight lines; minimum-zone straightness as ISO 1101, from memory,
    not opened.

    Examples
    --------
    >>> line = main_line(
    ...     points=(
    ...         (0.0, 0.0),
    ...         (0.1, 0.000012),
    ...         (0.2, 0.000021),
    ...         (0.3, 0.00001),
    ...         (0.4, 0.000002),
    ...     )
    ... )
    >>> round(line["main_neighbour_offset"] * 1e6, 3)
    10.0
    """
    point_rows(points, (2, 3), 3, "place, offset (and a second offset)")
    places = tuple(row[0] for row in points)
    if any(after <= before for before, after in pairwise(places)):
        outside(
            "order of the main bores",
            "not rising along the crank",
            "places from one end to the other",
            "Give the bores in order from the front, each with its place.",
        )
    directions = tuple(zip(*(row[1:] for row in points), strict=True))
    neighbours = _largest(_from_neighbours(places, offsets) for offsets in directions)
    residuals = _largest(_from_line(places, offsets) for offsets in directions)
    return {
        "main_neighbour_offset": neighbours,
        "main_line_residual": residuals,
        "main_line_straightness": max(_straightness(places, each) for each in directions),
    }


def _largest(directions: Iterable[Row]) -> float:
    """Put the distances of one or two directions together and give the largest."""
    return max(hypot(*each) for each in zip(*directions, strict=True))


def _from_neighbours(places: Row, offsets: Row) -> Row:
    """Give each inner bore's distance from the line through the bores beside it."""
    inner = range(1, len(places) - 1)
    shares = [(places[k] - places[k - 1]) / (places[k + 1] - places[k - 1]) for k in inner]
    return tuple(
        offsets[k] - offsets[k - 1] - share * (offsets[k + 1] - offsets[k - 1])
        for k, share in zip(inner, shares, strict=True)
    )


def _from_line(places: Row, offsets: Row) -> Row:
    """Give each bore's distance from the least-squares line through all."""
    middle, mean = sum(places) / len(places), sum(offsets) / len(offsets)
    spread = sum((place - middle) ** 2 for place in places)
    pull = sum((p - middle) * (o - mean) for p, o in zip(places, offsets, strict=True))
    slope = pull / spread
    return tuple(
        offset - mean - slope * (place - middle)
        for place, offset in zip(places, offsets, strict=True)
    )


def _straightness(places: Row, offsets: Row) -> float:
    """Give the least room between two parallel lines; one of them runs along two points."""
    every = range(len(places))
    slopes = (
        (offsets[b] - offsets[a]) / (places[b] - places[a]) for a in every for b in every if a < b
    )
    return min(
        max(heights) - min(heights)
        for slope in slopes
        for heights in [[o - slope * p for p, o in zip(places, offsets, strict=True)]]
    )
