"""How flat a deck or a head face is, from heights read over it."""

from planner.physics.bounds import within
from planner.physics.readings_grid import Grid, point_rows
from planner.physics.registry import Q, outside, physics
from planner.units.dimension import LENGTH

Surface = tuple[tuple[float, float, float], ...]

_LENGTH = Q(LENGTH)
_POINTS = Q(LENGTH, grid=True)
_VALIDITY = "heights read square to the face, the face tilted by less than 2 %"


@physics(
    returns=_LENGTH,
    citation="minimum zone, ISO 1101; not opened",
    validity=_VALIDITY,
    points=_POINTS,
)
def flatness(*, points: Grid) -> float:
    """Work out the flatness of a face: the least room between two parallel planes.

    Parameters
    ----------
    points
        One row for each point: x and y on the face, and its height. [m]

    Returns
    -------
    float
        Flatness by minimum zone. [m]

    Raises
    ------
    OutsideValidity
        When there are fewer than four points, they lie in one line, or the face is
        tilted by 2 % or more.

    Notes
    -----
    The least s for which planes z = a x + b y + c and the same s higher hold all points.
    At the best slopes two pairs of points, or three points and one, touch the planes, so
    the slopes are among those that lie along two of the lines between points; all are
    tried on a small set of points, to which the worst of the others is added until none
    stands out. What happens between the points read is not known.

    References
    ----------
    ISO 1101, flatness by minimum zone; from memory, not opened.

    Examples
    --------
    >>> bowed = flatness(
    ...     points=(
    ...         (0.0, 0.0, 0.0),
    ...         (0.4, 0.0, 0.0),
    ...         (0.0, 0.2, 0.0),
    ...         (0.4, 0.2, 0.0),
    ...         (0.2, 0.1, -0.00006),
    ...     )
    ... )
    >>> round(bowed * 1e3, 4)
    0.06
    """
    return _zone(_surface(points))


@physics(
    returns=_LENGTH,
    citation="least-squares plane, ISO 12781-1; not opened",
    validity=_VALIDITY,
    points=_POINTS,
)
def flatness_least_squares(*, points: Grid) -> float:
    """Work out the flatness of a face about its least-squares plane.

    Parameters
    ----------
    points
        One row for each point: x and y on the face, and its height. [m]

    Returns
    -------
    float
        Highest less lowest point about the plane; never less than `flatness`. [m]

    Raises
    ------
    OutsideValidity
        As `flatness`.

    Notes
    -----
    What many machines print; on the safe side of the minimum zone.

    References
    ----------
    ISO 12781-1, least-squares reference plane; from memory, not opened.

    Examples
    --------
    >>> bowed = flatness_least_squares(
    ...     points=(
    ...         (0.0, 0.0, 0.0),
    ...         (0.4, 0.0, 0.00002),
    ...         (0.0, 0.2, 0.0),
    ...         (0.4, 0.2, 0.0),
    ...         (0.2, 0.1, -0.00006),
    ...     )
    ... )
    >>> round(bowed * 1e3, 4)
    0.07
    """
    surface = _surface(points)
    return _room(surface, _least_squares(surface))


@physics(
    returns=_LENGTH,
    citation="Common practice",
    validity=_VALIDITY + "; four points or more in some square of that side",
    points=_POINTS,
    span=_LENGTH,
)
def flatness_within(*, points: Grid, span: float) -> float:
    """Work out the worst flatness in any square of a given side on a face.

    Parameters
    ----------
    points
        One row for each point: x and y on the face, and its height. [m]
    span
        Side of the square, such as 100 or 150 mm. [m]

    Returns
    -------
    float
        The largest minimum zone of the points in one square. [m]

    Raises
    ------
    OutsideValidity
        When no square of that side holds four points that are not in one line, or as
        `flatness`.

    Notes
    -----
    Squares stand along x and y with a point on their left and lower edges, which finds
    every set of points that such a square can hold. Sets in one line are passed over.

    References
    ----------
    Common practice, no source: decks are given a limit for the whole and one for a length.

    Examples
    --------
    >>> step = flatness_within(
    ...     points=(
    ...         (0.0, 0.0, 0.0),
    ...         (0.1, 0.0, 0.00003),
    ...         (0.0, 0.1, 0.0),
    ...         (0.1, 0.1, 0.0),
    ...         (0.3, 0.1, 0.0001),
    ...     ),
    ...     span=0.12,
    ... )
    >>> round(step * 1e3, 4)
    0.015
    """
    surface = _surface(points)
    patches = {
        tuple(p for p in surface if left <= p[0] <= left + span and low <= p[1] <= low + span)
        for left in {p[0] for p in surface}
        for low in {p[1] for p in surface}
    }
    flat = [_zone(patch) for patch in patches if _spread_out(patch)]
    if not flat:
        outside(
            "side of the square",
            f"{span * 1e3:.6g} mm",
            "squares that hold four points of the face",
            "Read more points, closer together.",
        )
    return max(flat)


def _surface(points: Grid) -> Surface:
    """Check the points and sort them, so that their order cannot matter."""
    point_rows(points, (3,), 4, "x, y, height")
    surface = tuple(sorted((x, y, z) for x, y, z in points))
    if not _spread_out(surface):
        outside("points", "in one line", "points all over the face", "Read the face's other edge.")
    for name, slope in zip(("along x", "along y"), _least_squares(surface), strict=True):
        remedy = "Level the face, or check the units of the points."
        within(f"tilt of the face {name}", abs(slope), 0.0, 0.02, remedy=remedy)
    return surface


def _spread_out(patch: Surface) -> bool:
    """Say whether there are four points and not all of them in one line."""
    if len(patch) < 4:
        return False
    x, y, _ = patch[0]
    across, up, _ = max(patch, key=lambda p: (p[0] - x) ** 2 + (p[1] - y) ** 2)
    size = (across - x) ** 2 + (up - y) ** 2
    areas = (abs((across - x) * (p[1] - y) - (up - y) * (p[0] - x)) for p in patch)
    return max(areas) > 1e-6 * size


def _zone(surface: Surface) -> float:
    """Give the flatness by minimum zone; numpy opens only here, where it is needed."""
    from planner.physics.decks_zone import zone_slopes

    return _room(surface, zone_slopes(surface))


def _least_squares(surface: Surface) -> tuple[float, float]:
    """Give the slopes of the least-squares plane."""
    from planner.physics.decks_zone import least_squares_slopes

    return least_squares_slopes(surface)


def _room(surface: Surface, slopes: tuple[float, float]) -> float:
    """Give the height between the two planes of these slopes that hold the points."""
    heights = [z - slopes[0] * x - slopes[1] * y for x, y, z in surface]
    return max(heights) - min(heights)
