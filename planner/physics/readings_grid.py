"""Hold a grid of readings against what the formulas need of it."""

from math import isfinite

from planner.physics.bounds import MILLIMETRES
from planner.physics.geometry_limits import hold_positive
from planner.physics.registry import outside

Row = tuple[float, ...]
Grid = tuple[Row, ...]


def filled(grid: Grid) -> Grid:
    """Refuse a grid without readings, or with one that is no finite number.

    Raises
    ------
    OutsideValidity
        When a row is empty, or there is none, or a value is not finite.
    """
    if not grid or not all(grid):
        outside("number of readings", "none in a row", "one and more", "Take the readings.")
    for row in grid:
        for reading in row:
            if not isfinite(reading):
                outside("reading", repr(reading), "finite numbers", "Read that point again.")
    return grid


def checked(grid: Grid) -> Grid:
    """Refuse a grid of sizes with a row without readings or a size not above zero.

    Raises
    ------
    OutsideValidity
        When a row is empty, or there is none, or a size is not above zero.
    """
    for row in filled(grid):
        for reading in row:
            hold_positive("reading", reading, MILLIMETRES)
    return grid


def equal_rows(grid: Grid) -> Grid:
    """Refuse sizes whose rows differ in length, for then the axes do not line up.

    Raises
    ------
    OutsideValidity
        When the rows differ in length, or as `checked`.
    """
    lengths = sorted({len(row) for row in checked(grid)})
    if len(lengths) > 1:
        outside(
            "number of axes in a row",
            " and ".join(str(each) for each in lengths),
            "one number in every row",
            "Read the same axes at every height.",
        )
    return grid


def point_rows(grid: Grid, columns: tuple[int, ...], fewest: int, what: str) -> Grid:
    """Refuse points that are too few, or have more or fewer numbers than asked.

    Parameters
    ----------
    grid
        One row for each point.
    columns
        How many numbers a row may hold; all rows alike.
    fewest
        How many points are needed.
    what
        What a row holds, for the message.

    Returns
    -------
    Grid
        The points as given.

    Raises
    ------
    OutsideValidity
        When the points do not fit.
    """
    lengths = {len(row) for row in filled(grid)}
    if len(lengths) > 1 or not lengths <= set(columns):
        found = " and ".join(str(each) for each in sorted(lengths))
        outside("numbers in a row", found, f"rows of {what}", f"Give each point as {what}.")
    if len(grid) < fewest:
        outside("number of points", str(len(grid)), f"{fewest} and more", "Read more points.")
    return grid
