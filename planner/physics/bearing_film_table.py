"""The bearing film table: made from the Reynolds equation, read and interpolated here.

`python tests/physics/make_bearing_table.py` makes the table.
"""

import math
from bisect import bisect_right
from dataclasses import dataclass
from functools import cache
from importlib import resources

from planner.physics.bearing_film_axes import (
    LEAST_ECCENTRICITY,
    LONGEST,
    MOST_ECCENTRICITY,
    SHORTEST,
    eccentricity_axis,
    length_axis,
    steepness,
)
from planner.physics.bounds import within
from planner.physics.registry import outside

Row = tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Film:
    """What the table says of one full bearing, all without units.

    `attitude` is the angle from the load line to the thinnest film; `friction` is
    (R/c) f; `flow` is Q/(R c N l); `side_share` is side flow over flow; `pressure_share`
    is specific load over highest film pressure.
    """

    sommerfeld: float
    eccentricity: float
    attitude: float
    friction: float
    flow: float
    side_share: float
    pressure_share: float


def film_at(eccentricity: float, length_to_diameter: float) -> Film:
    """Look a film up by its eccentricity.

    Parameters
    ----------
    eccentricity
        Journal displacement over radial clearance. [-]
    length_to_diameter
        Bearing width over journal diameter. [-]

    Returns
    -------
    Film
        Interpolated between four cells of the table.

    Raises
    ------
    OutsideValidity
        When either lies outside the table.
    """
    within("eccentricity of the journal", eccentricity, LEAST_ECCENTRICITY, MOST_ECCENTRICITY)
    return _film(steepness(eccentricity), _columns(length_to_diameter))


def film_under(sommerfeld: float, length_to_diameter: float) -> Film:
    """Look a film up by its Sommerfeld number.

    Parameters
    ----------
    sommerfeld
        (R/c)**2 times viscosity times turns per second over specific load. [-]
    length_to_diameter
        Bearing width over journal diameter. [-]

    Returns
    -------
    Film
        Interpolated between four cells of the table.

    Raises
    ------
    OutsideValidity
        When the load is too heavy or too light for the table.
    """
    columns = _columns(length_to_diameter)
    lightest, heaviest = math.exp(columns[0][0]), math.exp(columns[-1][0])
    if not heaviest <= sommerfeld <= lightest:
        outside(
            "Sommerfeld number",
            f"{sommerfeld:.4g}",
            f"{heaviest:.4g} to {lightest:.4g} for this width, where the eccentricity is "
            f"{MOST_ECCENTRICITY:g} and {LEAST_ECCENTRICITY:g}",
            "A lower number has no film left to count on: less load, more speed or thicker "
            "oil. A higher one is hardly loaded: there is nothing to check.",
        )
    axis = eccentricity_axis()
    wanted = math.log(sommerfeld)
    falling = [-column[0] for column in columns]
    place = min(max(bisect_right(falling, -wanted) - 1, 0), len(axis) - 2)
    share = (columns[place][0] - wanted) / (columns[place][0] - columns[place + 1][0])
    return _film(axis[place] + share * (axis[place + 1] - axis[place]), columns)


def _film(steep: float, columns: tuple[Row, ...]) -> Film:
    """Interpolate along the eccentricity."""
    place, share = _between(eccentricity_axis(), steep)
    log_sommerfeld, attitude, log_friction, *flows = _mix(
        columns[place], columns[place + 1], share
    )
    return Film(
        math.exp(log_sommerfeld),
        1 / (1 + math.exp(-steep)),
        attitude,
        math.exp(log_friction),
        *flows,
    )


def _columns(length_to_diameter: float) -> tuple[Row, ...]:
    """Interpolate the rows of the table to one length over diameter."""
    within(
        "bearing width over journal diameter",
        length_to_diameter,
        SHORTEST,
        LONGEST,
        remedy="Give the width that carries, without chamfers and grooves.",
    )
    place, share = _between(length_axis(), math.log(length_to_diameter))
    pairs = zip(_table()[place], _table()[place + 1], strict=True)
    return tuple(_mix(low, high, share) for low, high in pairs)


def _between(axis: Row, value: float) -> tuple[int, float]:
    """Give the interval of an axis a value is in, and how far along it."""
    place = min(max(bisect_right(axis, value) - 1, 0), len(axis) - 2)
    return place, (value - axis[place]) / (axis[place + 1] - axis[place])


def _mix(low: Row, high: Row, share: float) -> Row:
    """Interpolate two rows of fields."""
    return tuple(a + share * (b - a) for a, b in zip(low, high, strict=True))


@cache
def _table() -> tuple[tuple[Row, ...], ...]:
    """Read the table once: rows by length, columns by eccentricity, fields."""
    import numpy as np  # only here: most plans never ask for a film

    place = resources.files("planner.physics.tables").joinpath("bearing_film.npy")
    with place.open("rb") as stream:
        cells = np.load(stream, allow_pickle=False)
    return tuple(tuple(tuple(map(float, cell)) for cell in row) for row in cells)
