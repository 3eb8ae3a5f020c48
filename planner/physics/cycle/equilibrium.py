"""Burned gas in chemical equilibrium, by element potentials, many states at once.

The method is the Newton iteration of Gordon and McBride, NASA RP-1311 (1994), section 2, for
given temperature and pressure (from memory, not opened), with its damping.
"""

from dataclasses import dataclass

import numpy as np

from planner.errors import OutsideValidity
from planner.physics.cycle.fuels import GAS_CONSTANT
from planner.physics.cycle.gas import Array, molar_enthalpy, molar_entropy
from planner.physics.tables.cycle_nasa import SPECIES

PRODUCTS = ("CO2", "CO", "H2O", "H2", "O2", "N2", "OH", "O", "H", "NO")
ATOMS: Array = np.array([SPECIES[each][0] for each in PRODUCTS], dtype=np.float64)
REFERENCE_PRESSURE = 1e5  # [Pa]
TRACE = -18.420681  # ln of the mole fraction below which a species is damped apart
MOST_PASSES = 200
CLOSE = 1e-11


@dataclass(frozen=True)
class Equilibrium:
    """Equilibrium states, one for each temperature and pressure given."""

    moles: Array  # of each of PRODUCTS in the last axis [mol/kg]
    enthalpy: Array  # [J/kg]
    constant: Array  # gas constant [J/(kg K)]


def equilibrium(elements: Array, temperature: Array, pressure: Array) -> Equilibrium:
    """Find the equilibrium of given elements at each temperature and pressure.

    Parameters
    ----------
    elements
        Atoms of C, H, O and N in one kilogram. [mol/kg]
    temperature, pressure
        One-dimensional arrays of one length. [K], [Pa]

    Returns
    -------
    Equilibrium
        Moles, enthalpy and gas constant of each state.

    Raises
    ------
    OutsideValidity
        When the iteration does not settle.
    """
    standard = _standard_potentials(temperature) + np.log(pressure / REFERENCE_PRESSURE)[:, None]
    logs = np.full((temperature.size, len(PRODUCTS)), np.log(4.0))
    total = np.full(temperature.size, np.log(40.0))
    for _ in range(MOST_PASSES):
        potential = standard + logs - total[:, None]
        change, growth = _newton(elements, np.exp(logs), np.exp(total), potential)
        factor = _damping(change, growth, logs - total[:, None])
        logs = np.maximum(logs + factor[:, None] * change, -300.0)
        total = total + factor * growth
        worst = np.max(np.exp(logs - total[:, None]) * np.abs(change))
        if worst < CLOSE and np.max(np.abs(growth)) < CLOSE:
            return _states(np.exp(logs), temperature)
    raise OutsideValidity(
        problem=f"The burned gas did not settle in {MOST_PASSES} passes.",
        reason="Without its equilibrium there is no pressure to work out.",
        remedy="Use an equivalence ratio between 0.7 and 1.6.",
    )


def _standard_potentials(temperature: Array) -> Array:
    """Standard chemical potential of each product over RT [-]."""
    columns = [
        (molar_enthalpy(each, temperature) / temperature - molar_entropy(each, temperature))
        / GAS_CONSTANT
        for each in PRODUCTS
    ]
    return np.stack(columns, axis=1)


def _newton(elements: Array, moles: Array, total: Array, potential: Array) -> tuple[Array, Array]:
    """One Newton step: the change of ln moles of each species, and of ln total moles."""
    weighted = moles[:, :, None] * ATOMS
    held = weighted.sum(axis=1)
    driven = np.einsum("nsk,ns->nk", weighted, potential)
    matrix = np.empty((total.size, 5, 5))
    matrix[:, :4, :4] = np.einsum("nsk,sl->nkl", weighted, ATOMS)
    matrix[:, :4, 4] = held
    matrix[:, 4, :4] = held
    matrix[:, 4, 4] = moles.sum(axis=1) - total
    right = np.empty((total.size, 5))
    right[:, :4] = elements - held + driven
    right[:, 4] = total - moles.sum(axis=1) + (moles * potential).sum(axis=1)
    solved = np.linalg.solve(matrix, right[:, :, None])[:, :, 0]
    growth = solved[:, 4]
    change = growth[:, None] + solved[:, :4] @ ATOMS.T - potential
    return np.asarray(change, dtype=np.float64), np.asarray(growth, dtype=np.float64)


def _damping(change: Array, growth: Array, share: Array) -> Array:
    """Shorten a step so that no species grows by more than the method allows."""
    main = np.where((share > TRACE) & (change > 0), change, 0.0).max(axis=1)
    first = 2.0 / np.maximum(np.maximum(5.0 * np.abs(growth), main), 2.0)
    gain = change - growth[:, None]
    rising = (share <= TRACE) & (change >= 0) & (gain != 0)
    reach = np.abs((-share - 9.2103404) / np.where(rising, gain, 1.0))
    second = np.where(rising, reach, 1.0).min(axis=1)
    return np.minimum(1.0, np.minimum(first, second))


def _states(moles: Array, temperature: Array) -> Equilibrium:
    """Gather what the burned zone needs."""
    enthalpy = sum(
        (moles[:, i] * molar_enthalpy(each, temperature) for i, each in enumerate(PRODUCTS)),
        np.zeros_like(temperature),
    )
    return Equilibrium(moles, enthalpy, GAS_CONSTANT * moles.sum(axis=1))
