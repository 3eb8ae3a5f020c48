"""The least circle that holds a set of points of the plane."""

from collections.abc import Sequence

Circle = tuple[complex, float]

# Points count as inside when they stand out by no more than this share of the radius.
_SLACK = 1e-12


def enclosing_circle(points: Sequence[complex]) -> Circle:
    """Find the centre and radius of the least circle that holds every point.

    Grown one point at a time: a point outside the circle so far must lie on the new one,
    and so must a second and a third. Expected time is in proportion to the number of
    points when they come in random order; a bore's points are few, so order is kept and
    the answer is the same each time.

    Examples
    --------
    >>> enclosing_circle([0j, 2 + 0j, 1 + 0.5j])
    ((1+0j), 1.0)
    """
    # Worked about the first point: differences of micrometres survive on a bore of 86 mm.
    origin = points[0]
    circle: Circle = (0j, 0.0)
    moved = [point - origin for point in points]
    for index, point in enumerate(moved):
        if not _holds(circle, point):
            circle = _through_one(moved[:index], point)
    centre, radius = circle
    return centre + origin, radius


def _through_one(points: Sequence[complex], first: complex) -> Circle:
    """Find the least circle that holds the points and passes through one more."""
    circle: Circle = (first, 0.0)
    for index, point in enumerate(points):
        if not _holds(circle, point):
            circle = _through_two(points[:index], first, point)
    return circle


def _through_two(points: Sequence[complex], first: complex, second: complex) -> Circle:
    """Find the least circle that holds the points and passes through two more."""
    circle: Circle = ((first + second) / 2.0, abs(first - second) / 2.0)
    for point in points:
        if not _holds(circle, point):
            circle = _through_three(first, second, point)
    return circle


def _through_three(first: complex, second: complex, third: complex) -> Circle:
    """Give the circle through three points; the widest pair's when they are in line."""
    to_second, to_third = second - first, third - first
    twice_area = (to_second.conjugate() * to_third).imag
    if twice_area == 0.0:
        pairs = ((first, second), (first, third), (second, third))
        start, end = max(pairs, key=lambda pair: abs(pair[0] - pair[1]))
        return (start + end) / 2.0, abs(start - end) / 2.0
    square_second, square_third = abs(to_second) ** 2, abs(to_third) ** 2
    offset = (square_second * to_third - square_third * to_second) * (-0.5j / twice_area)
    return first + offset, abs(offset)


def _holds(circle: Circle, point: complex) -> bool:
    """Say whether a point lies in or on a circle."""
    centre, radius = circle
    return abs(point - centre) <= radius * (1.0 + _SLACK)
