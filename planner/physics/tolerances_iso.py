"""Standard tolerances of ISO 286-1, grades 5 to 11, sizes from 3 to 500 mm."""

from bisect import bisect_left

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.registry import Q, outside, physics
from planner.units.dimension import LENGTH, NONE

# ISO 286-1:2010, table 1: upper end of each range of sizes in mm; micrometres for IT5 to IT11.
# From memory, not opened. The first range begins above 3 mm.
_RANGES = (6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500)
_TABLE = (
    (5, 8, 12, 18, 30, 48, 75),
    (6, 9, 15, 22, 36, 58, 90),
    (8, 11, 18, 27, 43, 70, 110),
    (9, 13, 21, 33, 52, 84, 130),
    (11, 16, 25, 39, 62, 100, 160),
    (13, 19, 30, 46, 74, 120, 190),
    (15, 22, 35, 54, 87, 140, 220),
    (18, 25, 40, 63, 100, 160, 250),
    (20, 29, 46, 72, 115, 185, 290),
    (23, 32, 52, 81, 130, 210, 320),
    (25, 36, 57, 89, 140, 230, 360),
    (27, 40, 63, 97, 155, 250, 400),
)
_LOWEST_GRADE, _HIGHEST_GRADE = 5, 11
# The same standard's formula: so many tolerance units i for each grade.
_UNITS = (7, 10, 16, 25, 40, 64, 100)


@physics(
    returns=Q(LENGTH),
    citation="ISO 286-1:2010, table 1; from memory, not opened",
    validity="sizes above 3 mm up to 500 mm, grades 5 to 11",
    rises=("size", "grade"),
    empirical=True,
    size=Q(LENGTH, "diameter"),
    grade=Q(NONE),
)
def iso_tolerance(*, size: float, grade: float) -> float:
    """Look up the standard tolerance of a size and a grade.

    Parameters
    ----------
    size
        Nominal size. [m]
    grade
        Grade of the standard, 5 to 11: 6 for IT6. [-]

    Returns
    -------
    float
        Whole width of the tolerance. [m]

    Raises
    ------
    OutsideValidity
        When the size is 3 mm or less or above 500 mm, or the grade is not a whole number
        from 5 to 11.

    Notes
    -----
    The table's own rounding counts, so it is looked up; `iso_tolerance_formula` only
    checks it. A range includes its upper end: 50 mm belongs to 30 to 50 mm.

    References
    ----------
    ISO 286-1:2010, table 1; from memory, not opened.

    Examples
    --------
    >>> round(iso_tolerance(size=0.054, grade=6.0) * 1e6, 3)
    19.0
    """
    column = _column(grade)
    return _TABLE[_row(size)][column] * 1e-6


def iso_tolerance_formula(size: float, grade: int) -> float:
    """Work out a standard tolerance from the standard's formula, unrounded, as a check.

    Parameters
    ----------
    size
        Nominal size; the geometric mean of its range's ends counts. [m]
    grade
        Grade of the standard, 5 to 11.

    Returns
    -------
    float
        i = 0.45 D^(1/3) + 0.001 D micrometres with D in mm, times 7 to 100. [m]
    """
    row = _row(size)
    low = _RANGES[row - 1] if row else 3
    mean = float(low * _RANGES[row]) ** 0.5
    unit = 0.45 * mean ** (1.0 / 3.0) + 0.001 * mean
    return _UNITS[_column(grade)] * unit * 1e-6


def _row(size: float) -> int:
    """Find the range of sizes, its upper end included whatever the last binary digit."""
    millimetres = round(size * 1e3, 9)
    remedy = "Use the drawing's tolerance."
    within("nominal size", size, 0.003, 0.5 * (1.0 + 1e-12), MILLIMETRES, remedy=remedy)
    if millimetres <= 3.0:
        outside("nominal size", "3 mm", "sizes above 3 mm", remedy)
    return bisect_left(_RANGES, millimetres)


def _column(grade: float) -> int:
    """Find the column of a grade."""
    remedy = "Give a whole grade from 5 to 11, such as 6 for IT6."
    within("grade", grade, _LOWEST_GRADE, _HIGHEST_GRADE, remedy=remedy)
    if grade != int(grade):
        outside("grade", f"{grade:g}", "whole numbers", remedy)
    return int(grade) - _LOWEST_GRADE
