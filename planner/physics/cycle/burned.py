"""Tables of burned gas: enthalpy and gas constant over temperature and pressure.

A table depends only on the elements of the charge, so it is the same whatever residual is
left, and it is found again by its content. Tables of the named grades are shipped; others
are built once in a process. A later layer may keep them longer, by handing in a keeper: see
`keeping`.
"""

from dataclasses import dataclass
from functools import cached_property
from hashlib import sha256
from importlib.resources import files

import numpy as np

from planner.physics.cycle.equilibrium import equilibrium
from planner.physics.cycle.fuels import NITROGEN_PER_OXYGEN, Blend, air_mass
from planner.physics.cycle.gas import Array, fuel_share
from planner.physics.cycle.keeping import keeper

FORMAT = 1
COLDEST = 600.0  # [K]
TEMPERATURE_STEP = 25.0  # [K]
TEMPERATURES = 121
PRESSURES = 14
LOWEST_LOG = float(np.log(0.5e5))  # ln of Pa
LOG_STEP = float(np.log(300e5) - np.log(0.5e5)) / (PRESSURES - 1)
CELLS = (TEMPERATURES - 1) * (PRESSURES - 1)
KEPT = 64

_known: "dict[str, BurnedTable]" = {}


@dataclass(frozen=True, eq=False)
class BurnedTable:
    """Burned gas of one charge; `values` holds enthalpy, then gas constant."""

    key: str
    values: Array  # [2, temperature, pressure]: [J/kg], [J/(kg K)]

    @cached_property
    def cells(self) -> Array:
        """Bilinear coefficients of each cell.

        Row 0 to 3 give enthalpy a + b x + (c + d x) y, row 4 to 7 the gas constant; x and y
        run from 0 to 1 across a cell in temperature and in ln pressure.
        """
        rows = []
        for each in self.values:
            corner = each[:-1, :-1]
            hotter = each[1:, :-1] - corner
            denser = each[:-1, 1:] - corner
            both = each[1:, 1:] - each[1:, :-1] - denser
            rows += [part.ravel() for part in (corner, hotter, denser, both)]
        return np.ascontiguousarray(rows)


def elements(fuel: Blend, mixture: float) -> Array:
    """Atoms of C, H, O and N in one kilogram of charge [mol/kg]."""
    share = fuel_share(fuel, mixture)
    oxygen = (1.0 - share) / air_mass()
    return np.array(
        [
            share * fuel.carbon,
            share * fuel.hydrogen,
            share * fuel.oxygen + 2 * oxygen,
            2 * NITROGEN_PER_OXYGEN * oxygen,
        ]
    )


def content_key(atoms: Array) -> str:
    """Name a table by what it was made from, to nine digits."""
    grid = f"{FORMAT} {COLDEST} {TEMPERATURE_STEP} {TEMPERATURES} {LOWEST_LOG:.9g} {PRESSURES}"
    text = " ".join([grid, *(f"{each:.9g}" for each in atoms)])
    return sha256(text.encode()).hexdigest()[:16]


def burned_table(fuel: Blend, mixture: float) -> BurnedTable:
    """Find the table of a charge: one already known, shipped, kept, or else built now."""
    atoms = elements(fuel, mixture)
    key = content_key(atoms)
    if key not in _known:
        remember(shipped(key) or kept(key) or built(atoms))
    return _known[key]


def kept(key: str) -> BurnedTable | None:
    """Ask the keeper for a table, and take it only if it is whole."""
    serving = keeper()
    values = None if serving is None else serving.find(key)
    if values is None or values.shape != (2, TEMPERATURES, PRESSURES):
        return None
    return BurnedTable(key, values) if np.isfinite(values).all() else None


def built(atoms: Array) -> BurnedTable:
    """Build a table, and hand it to the keeper."""
    table = build(atoms)
    serving = keeper()
    if serving is not None:
        serving.keep(table.key, table.values)
    return table


def remember(table: BurnedTable) -> None:
    """Keep a table for this process; the oldest makes room."""
    while len(_known) >= KEPT:
        del _known[next(iter(_known))]
    _known[table.key] = table


def shipped(key: str) -> BurnedTable | None:
    """Read the table of a named grade, if it is one."""
    place = files("planner.physics.tables") / f"cycle_burned_{key}.npy"
    if not place.is_file():
        return None
    with place.open("rb") as stream:
        return BurnedTable(key, np.load(stream, allow_pickle=False))


def build(atoms: Array) -> BurnedTable:
    """Work out a table from the elements of a charge; some 50 ms."""
    temperature = COLDEST + TEMPERATURE_STEP * np.arange(TEMPERATURES)
    pressure = np.exp(LOWEST_LOG + LOG_STEP * np.arange(PRESSURES))
    hot, dense = (each.ravel() for each in np.meshgrid(temperature, pressure, indexing="ij"))
    found = equilibrium(atoms, hot, dense)
    values = np.stack([found.enthalpy, found.constant])
    return BurnedTable(content_key(atoms), values.reshape(2, TEMPERATURES, PRESSURES))
