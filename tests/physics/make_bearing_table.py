"""Make planner/physics/tables/bearing_film.npy: the Reynolds equation of a full bearing.

Run from the top of the checkout:  python tests/physics/make_bearing_table.py

Film h = 1 + e cos t from its thickest place, pressure p in 6 mu w (R/c)**2:

    d/dt (h**3 dp/dt) + (D/L)**2 d/dz (h**3 dp/dz) = dh/dt,   z = 0 middle to 1 edge,

p = 0 at the thickest film and at the edge, and p >= 0 with dp/dn = 0 where the film breaks
(Reynolds condition), found as a linear complementarity problem by policy iteration. Finite
volumes on a grid that is finer where the film is thin; half the width, by symmetry.
"""

import math
from importlib import resources
from pathlib import Path

import numpy as np
from scipy import sparse
from scipy.sparse.linalg import spsolve

from planner.physics.bearing_film_axes import FIELDS, eccentricity_axis, length_axis

AROUND, ACROSS = 360, 32


def angles(eccentricity, around):
    """Cell faces from 0 to 2 pi, finer near the thinnest film."""
    even = np.linspace(0.0, 2 * math.pi, around + 1)
    return even + 0.9 * eccentricity * np.sin(even)


def film(eccentricity, angle):
    return 1 + eccentricity * np.cos(angle)


def system(eccentricity, length_to_diameter, around, across):
    """Build the finite-volume matrix and right-hand side, with what the flows need."""
    face = angles(eccentricity, around)
    centre = (face[1:] + face[:-1]) / 2
    wide = np.diff(face)
    deep = 1.0 / across
    apart = np.diff(np.concatenate(([face[0]], centre, [face[-1]])))
    along = film(eccentricity, face) ** 3 / apart * deep
    over = film(eccentricity, centre) ** 3 * wide / length_to_diameter**2 / deep
    cells = np.arange(around * across).reshape(around, across)
    diagonal = np.repeat((along[1:] + along[:-1])[:, None], across, axis=1)
    inner = np.full(across, 2.0)
    inner[0], inner[-1] = 1.0, 3.0  # nothing crosses the middle; the edge is half a cell away
    diagonal = diagonal + over[:, None] * inner
    rows = [cells.ravel(), cells[1:].ravel(), cells[:-1].ravel()]
    columns = [cells.ravel(), cells[:-1].ravel(), cells[1:].ravel()]
    link = np.repeat(along[1:-1][:, None], across, axis=1).ravel()
    values = [diagonal.ravel(), -link, -link]
    side = np.repeat(over[:, None], across - 1, axis=1).ravel()
    rows += [cells[:, 1:].ravel(), cells[:, :-1].ravel()]
    columns += [cells[:, :-1].ravel(), cells[:, 1:].ravel()]
    values += [-side, -side]
    matrix = sparse.csr_matrix(
        (np.concatenate(values), (np.concatenate(rows), np.concatenate(columns)))
    )
    source = -np.diff(film(eccentricity, face)) * deep
    return matrix, np.repeat(source[:, None], across, axis=1).ravel(), centre, wide


def pressures(eccentricity, length_to_diameter, around=AROUND, across=ACROSS):
    """Solve for the pressure, zero where the film breaks."""
    matrix, source, centre, wide = system(eccentricity, length_to_diameter, around, across)
    full = np.repeat((centre < math.pi)[:, None], across, axis=1).ravel()
    pressure = np.zeros(source.size)
    for _ in range(100):
        pressure[:] = 0.0
        inside = np.flatnonzero(full)
        part = matrix[inside][:, inside].tocsc()
        pressure[inside] = spsolve(part, source[inside])
        flow = matrix @ pressure - source
        wanted = np.where(full, pressure > 0, flow < 0)
        if np.array_equal(wanted, full):
            return pressure.reshape(around, across), centre, wide
        full = wanted
    raise RuntimeError(f"no film found at {eccentricity}, {length_to_diameter}")


def performance(eccentricity, length_to_diameter, around=AROUND, across=ACROSS):
    """Give the six fields of the table for one bearing, in the order of FIELDS."""
    pressure, centre, wide = pressures(eccentricity, length_to_diameter, around, across)
    deep = 1.0 / across
    weight = pressure.sum(axis=1) * deep * wide
    toward = -float(weight @ np.cos(centre))
    square = float(weight @ np.sin(centre))
    load = math.hypot(toward, square)
    sommerfeld = 1 / (6 * math.pi * load)
    # shear over the whole turn, and the pressure gradient by parts
    shear = 2 * math.pi / math.sqrt(1 - eccentricity**2) + 3 * eccentricity * square
    thick = 1 + eccentricity
    gradient = float(pressure[0].sum() * deep / (centre[0]))
    flow = math.pi * (thick - thick**3 * gradient)
    edge = film(eccentricity, centre) ** 3 * wide @ (pressure[:, -1] / (deep / 2))
    side = math.pi / length_to_diameter**2 * float(edge)
    return {
        "log_sommerfeld": math.log(sommerfeld),
        "attitude": math.atan2(square, toward),
        "log_friction": math.log(math.pi * sommerfeld * shear),
        "flow": flow,
        "side_share": side / flow,
        "pressure_share": load / (2 * float(pressure.max())),
    }


def table():
    """Work out every cell of the table: rows by length, columns by eccentricity."""
    grid = []
    for log_length in length_axis():
        row = []
        for steep in eccentricity_axis():
            found = performance(1 / (1 + math.exp(-steep)), math.exp(log_length))
            row.append([found[field] for field in FIELDS])
        grid.append(row)
    return np.array(grid)


if __name__ == "__main__":
    folder = Path(str(resources.files("planner.physics").joinpath("tables")))
    np.save(folder / "bearing_film.npy", table(), allow_pickle=False)
