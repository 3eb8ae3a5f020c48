"""Unburned gas: fresh charge and residual, each as one quartic of specific heat."""

from dataclasses import dataclass
from functools import lru_cache
from math import sqrt

import numpy as np
from numpy.typing import NDArray

from planner.physics.cycle.fuels import (
    ATOMIC_MASS,
    GAS_CONSTANT,
    NITROGEN_PER_OXYGEN,
    REFERENCE_TEMPERATURE,
    Blend,
    air_mass,
    formation,
)
from planner.physics.tables.cycle_nasa import MIDDLE_TEMPERATURE, SPECIES

Array = NDArray[np.float64]

FIT_RANGE = (280.0, 1500.0)  # [K]
WATER_GAS = 3.5  # (CO x H2O) / (CO2 x H2): Heywood 1988, chapter 4 (from memory, not opened)


@dataclass(frozen=True)
class Gas:
    """A gas of fixed composition.

    The specific heat is c0 + c1 t + ... + c4 t**4 with t = T / 1000 K.
    """

    constant: float  # [J/(kg K)]
    heat: tuple[float, ...]  # c0..c4 [J/(kg K)]
    datum: float  # enthalpy at 0 K of the quartic, so that 298.15 K is right [J/kg]

    def specific_heat(self, temperature: float) -> float:
        """Specific heat at constant pressure [J/(kg K)]."""
        t = temperature * 1e-3
        return sum(c * t**i for i, c in enumerate(self.heat))

    def enthalpy(self, temperature: float) -> float:
        """Enthalpy with the elements at 298.15 K as zero [J/kg]."""
        t = temperature * 1e-3
        series = sum(c * t**i / (i + 1) for i, c in enumerate(self.heat))
        return self.datum + temperature * series


def molar_heat(species: str, temperature: Array) -> Array:
    """Specific heat of a species at constant pressure [J/(mol K)]."""
    low, high = (_series(part[:5], temperature) for part in SPECIES[species][1:])
    return GAS_CONSTANT * np.where(temperature <= MIDDLE_TEMPERATURE, low, high)


def molar_enthalpy(species: str, temperature: Array) -> Array:
    """Enthalpy of a species, elements at 298.15 K as zero [J/mol]."""
    low, high = (
        temperature * _series([a / (i + 1) for i, a in enumerate(part[:5])], temperature) + part[5]
        for part in SPECIES[species][1:]
    )
    return GAS_CONSTANT * np.where(temperature <= MIDDLE_TEMPERATURE, low, high)


def molar_entropy(species: str, temperature: Array) -> Array:
    """Entropy of a species at the reference pressure [J/(mol K)]."""
    low, high = (
        part[0] * np.log(temperature)
        + temperature * _series([a / i for i, a in enumerate(part[1:5], 1)], temperature)
        + part[6]
        for part in SPECIES[species][1:]
    )
    return GAS_CONSTANT * np.where(temperature <= MIDDLE_TEMPERATURE, low, high)


@lru_cache(maxsize=64)
def fresh(fuel: Blend, mixture: float) -> Gas:
    """Air and fuel vapour at an equivalence ratio."""
    share = fuel_share(fuel, mixture)
    oxygen = (1.0 - share) / air_mass()
    moles = {"O2": oxygen, "N2": NITROGEN_PER_OXYGEN * oxygen}
    for vapour, mass in fuel.vapours:
        moles[vapour] = moles.get(vapour, 0.0) + share * mass / _molar_mass(vapour)
    molecules = (1.0 + NITROGEN_PER_OXYGEN) * oxygen + share * fuel.moles
    return _fit(moles, molecules, share * fuel.vapour_formation)


@lru_cache(maxsize=64)
def residual(fuel: Blend, mixture: float) -> Gas:
    """Burned gas left from the cycle before, its composition frozen."""
    moles = residual_moles(fuel, mixture)
    formed = sum(n * formation(species) for species, n in moles.items())
    return _fit(moles, sum(moles.values()), formed)


def residual_moles(fuel: Blend, mixture: float) -> dict[str, float]:
    """Complete products of one kilogram of charge; water gas splits them when rich [mol/kg]."""
    share = fuel_share(fuel, mixture)
    oxygen_molecules = (1.0 - share) / air_mass()
    carbon, hydrogen = share * fuel.carbon, share * fuel.hydrogen / 2
    oxygen = 2 * oxygen_molecules + share * fuel.oxygen
    lacking = max(0.0, 2 * carbon + hydrogen - oxygen)
    monoxide = _monoxide(carbon, hydrogen, lacking)
    return {
        "CO2": carbon - monoxide,
        "CO": monoxide,
        "H2O": hydrogen - (lacking - monoxide),
        "H2": lacking - monoxide,
        "O2": max(0.0, oxygen - 2 * carbon - hydrogen) / 2,
        "N2": NITROGEN_PER_OXYGEN * oxygen_molecules,
    }


def fuel_share(fuel: Blend, mixture: float) -> float:
    """Fuel in the fresh charge by mass, at an equivalence ratio."""
    return mixture / (fuel.air_fuel + mixture)


def _monoxide(carbon: float, water: float, lacking: float) -> float:
    """Split the lacking oxygen between CO and H2 so that the water gas balance holds."""
    # (water - lacking + x) x = K (carbon - x) (lacking - x), x the carbon monoxide
    a = 1.0 - WATER_GAS
    b = water - lacking + WATER_GAS * (carbon + lacking)
    c = -WATER_GAS * carbon * lacking
    return 2 * c / (-b - sqrt(b * b - 4 * a * c))


def _fit(moles: dict[str, float], molecules: float, enthalpy: float) -> Gas:
    """Fit the quartic over the fit range and set the datum from the enthalpy at 298.15 K."""
    temperature = np.linspace(*FIT_RANGE, 245)
    heat = sum((n * molar_heat(each, temperature) for each, n in moles.items()), np.zeros(245))
    powers = (temperature[:, None] * 1e-3) ** np.arange(5)
    solved = np.linalg.lstsq(powers, heat, rcond=None)[0]
    rough = Gas(GAS_CONSTANT * molecules, tuple(float(c) for c in solved), 0.0)
    datum = enthalpy - rough.enthalpy(REFERENCE_TEMPERATURE)
    return Gas(rough.constant, rough.heat, datum)


def _molar_mass(species: str) -> float:
    """Mass of one mole of a species [kg/mol]."""
    return sum(n * m for n, m in zip(SPECIES[species][0], ATOMIC_MASS, strict=True))


def _series(coefficients: tuple[float, ...] | list[float], temperature: Array) -> Array:
    """Sum a power series by Horner's rule."""
    total = np.zeros_like(temperature)
    for each in reversed(coefficients):
        total = total * temperature + each
    return total
