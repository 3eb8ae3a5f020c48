"""Circles through points of a worn bore, measured about its old axis."""

from itertools import pairwise
from math import atan2, pi

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.circles_enclosing import enclosing_circle
from planner.physics.readings_grid import Grid, point_rows
from planner.physics.registry import Q, outside, physics
from planner.units.dimension import LENGTH

_DIAMETER = Q(LENGTH, "diameter")
_LENGTH = Q(LENGTH)
_POINTS = Q(LENGTH, grid=True)


@physics(
    returns=_DIAMETER,
    citation="derived",
    validity="points of one or more depths, seen along the old axis",
    points=_POINTS,
)
def fixed_axis_diameter(*, points: Grid) -> float:
    """Work out the diameter that cleans a bore with its axis kept.

    Parameters
    ----------
    points
        One row for each point of the wall, all depths together: x and y from the old
        axis. [m]

    Returns
    -------
    float
        Clean-up diameter about the old axis, honing stock not counted. [m]

    Raises
    ------
    OutsideValidity
        When there are fewer than three points or a row does not hold two numbers.

    Notes
    -----
    Twice the distance of the farthest point. The axis stays square to the main line.

    References
    ----------
    Derived above from the circle.

    Examples
    --------
    >>> diameter = fixed_axis_diameter(
    ...     points=((0.04301, 0.0), (0.0, 0.04303), (-0.04301, 0.0), (0.0, -0.043))
    ... )
    >>> round(diameter * 1e3, 3)
    86.06
    """
    return 2.0 * max(abs(point) for point in _complex(points))


@physics(
    returns={"circumscribed_diameter": _DIAMETER, "circumscribed_shift": _LENGTH},
    citation="Welzl, Smallest enclosing disks, 1991",
    validity="points of one or more depths, seen along the old axis",
    points=_POINTS,
)
def circumscribed_circle(*, points: Grid) -> dict[str, float]:
    """Find the least circle that holds every point of a bore, its axis free to move.

    Parameters
    ----------
    points
        One row for each point of the wall, all depths together: x and y from the old
        axis. [m]

    Returns
    -------
    circumscribed_diameter
        Clean-up diameter with the axis moved, honing stock not counted. [m]
    circumscribed_shift
        Distance of the new axis from the old one. [m]

    Raises
    ------
    OutsideValidity
        When there are fewer than three points or a row does not hold two numbers.

    Notes
    -----
    The minimum circumscribed circle of the points projected along the axis, whose
    direction is kept. The shift takes from the wall and from the gasket's alignment, so it
    is reported for the builder to accept.

    References
    ----------
    Welzl, Smallest enclosing disks (balls and ellipsoids), 1991; from memory.

    Examples
    --------
    >>> found = circumscribed_circle(
    ...     points=((0.0431, 0.0), (0.0, 0.04305), (-0.043, 0.0), (0.0, -0.04305))
    ... )
    >>> round(found["circumscribed_diameter"] * 1e3, 4)
    86.1
    >>> round(found["circumscribed_shift"] * 1e3, 4)
    0.05
    """
    centre, radius = enclosing_circle(_complex(points))
    return {"circumscribed_diameter": 2.0 * radius, "circumscribed_shift": abs(centre)}


@physics(
    returns={
        "mean_circle_diameter": _DIAMETER,
        "mean_circle_shift": _LENGTH,
        "radial_roundness": _LENGTH,
    },
    citation="least-squares circle, ISO 12181-1; not opened",
    validity="points spread round the bore, out of round by less than 2 % of the radius",
    points=_POINTS,
)
def least_squares_circle(*, points: Grid) -> dict[str, float]:
    """Find the circle nearest to all points of a bore, for reporting only.

    Parameters
    ----------
    points
        One row for each point of the wall at one depth: x and y from the old axis. [m]

    Returns
    -------
    mean_circle_diameter
        Diameter of the circle with the least sum of squared distances. [m]
    mean_circle_shift
        Distance of its centre from the old axis. [m]
    radial_roundness
        Largest less smallest distance of the points from its centre. [m]

    Raises
    ------
    OutsideValidity
        When there are fewer than four points, a row does not hold two numbers, or the
        points lie on a short arc or far from any circle.

    Notes
    -----
    Distances square to the circle, by Gauss and Newton's steps from the mean of the
    points. The roundness is radial, half of the trade's out-of-round for an oval, and not
    the minimum zone, which is never larger. A bore is never cut to this circle: half its
    points lie outside.

    References
    ----------
    ISO 12181-1, least-squares reference circle; from memory, not opened.

    Examples
    --------
    >>> found = least_squares_circle(
    ...     points=((0.0431, 0.0), (0.0, 0.043), (-0.0431, 0.0), (0.0, -0.043))
    ... )
    >>> round(found["mean_circle_diameter"] * 1e3, 3), round(found["radial_roundness"] * 1e3, 3)
    (86.1, 0.1)
    """
    import numpy as np

    wall = np.array(_complex(points, fewest=4))
    centre, radius = complex(np.mean(wall)), float(np.mean(np.abs(wall - np.mean(wall))))
    for _ in range(50):
        spoke = wall - centre
        distance = np.abs(spoke)
        slopes = np.column_stack(
            (spoke.real / distance, spoke.imag / distance, np.ones(len(wall)))
        )
        step, _, rank, _ = np.linalg.lstsq(slopes, distance - radius, rcond=1e-6)
        if rank < 3:
            break
        centre, radius = centre + complex(step[0], step[1]), radius + float(step[2])
        if np.max(np.abs(step)) < 1e-14 * radius:
            break
    distance = np.abs(wall - centre)
    roundness = float(np.max(distance) - np.min(distance))
    _hold_round(wall.real.tolist(), wall.imag.tolist(), centre, radius, roundness)
    return {
        "mean_circle_diameter": 2.0 * radius,
        "mean_circle_shift": abs(centre),
        "radial_roundness": roundness,
    }


def _complex(points: Grid, fewest: int = 3) -> list[complex]:
    """Turn rows of x and y into points of the plane."""
    return [complex(x, y) for x, y in point_rows(points, (2,), fewest, "x, y")]


def _hold_round(
    across: list[float], up: list[float], centre: complex, radius: float, roundness: float
) -> None:
    """Refuse points that are no bore: on a short arc, or far from any circle."""
    turns = sorted(
        atan2(y - centre.imag, x - centre.real) for x, y in zip(across, up, strict=True)
    )
    gaps = [after - before for before, after in pairwise(turns)]
    widest = max([*gaps, turns[0] + 2.0 * pi - turns[-1]])
    if widest > 0.75 * pi:
        text = f"{widest * 180.0 / pi:.0f} deg"
        outside(
            "widest angle without a point", text, "0 to 135 deg", "Read points all round the bore."
        )
    remedy = "Check the points: they do not lie near one circle."
    within("radial roundness", roundness, 0.0, 0.02 * radius, MILLIMETRES, remedy=remedy)
