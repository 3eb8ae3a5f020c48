"""The slopes of the plane that best fits a face, by minimum zone and by least squares."""

import numpy as np

Surface = tuple[tuple[float, float, float], ...]
Slopes = tuple[float, float]


def least_squares_slopes(surface: Surface) -> Slopes:
    """Give the slopes along x and y of the least-squares plane."""
    face = np.array(surface)
    flat = np.column_stack((face[:, :2] - face[:, :2].mean(axis=0), np.ones(len(face))))
    slopes, *_ = np.linalg.lstsq(flat, face[:, 2], rcond=None)
    return float(slopes[0]), float(slopes[1])


def zone_slopes(surface: Surface) -> Slopes:
    """Give the slopes along x and y of the two closest parallel planes that hold all points.

    Exact: the best slopes for a few of the points are found by trying all that can be
    best; if any other point then stands out, it joins the few. Their room is a lower bound
    for the whole, so when nothing stands out the slopes are best for all points.
    """
    face = np.array(surface)
    face = face - face.mean(axis=0)
    chosen = _first_points(face)
    while True:
        slopes = _best_slopes(face[sorted(chosen)])
        heights = face[:, 2] - face[:, :2] @ slopes
        standing_out = {int(np.argmax(heights)), int(np.argmin(heights))} - chosen
        few = heights[sorted(chosen)]
        slack = 1e-12 * float(np.ptp(face[:, 2]))
        if not standing_out or np.ptp(heights) <= np.ptp(few) + slack:
            return float(slopes[0]), float(slopes[1])
        chosen |= standing_out


def _first_points(face: "np.ndarray") -> set[int]:
    """Choose the outermost points in eight directions: they are never all in one line."""
    x, y = face[:, 0], face[:, 1]
    scores = (x, y, x + y, x - y)
    ends = {int(end(score)) for score in scores for end in (np.argmin, np.argmax)}
    farthest = int(np.argmax(x * x + y * y))
    square = np.abs(x[farthest] * y - y[farthest] * x)
    return ends | {farthest, int(np.argmax(square))}


def _best_slopes(few: "np.ndarray") -> "np.ndarray":
    """Try every pair of slopes that runs along two of the lines between the points."""
    first, second = np.triu_indices(len(few), 1)
    lines = few[first] - few[second]
    one, other = np.triu_indices(len(lines), 1)
    one, other = lines[one], lines[other]
    area = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
    reach = np.hypot(one[:, 0], one[:, 1]) * np.hypot(other[:, 0], other[:, 1])
    crossing = np.abs(area) > 1e-9 * reach
    one, other, area = one[crossing], other[crossing], area[crossing]
    along_x = (one[:, 2] * other[:, 1] - one[:, 1] * other[:, 2]) / area
    along_y = (one[:, 0] * other[:, 2] - one[:, 2] * other[:, 0]) / area
    slopes = np.column_stack((along_x, along_y))
    rooms = np.ptp(few[:, 2] - slopes @ few[:, :2].T, axis=1)
    return slopes[np.argmin(rooms)]
