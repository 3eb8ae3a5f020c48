"""Fuels as blends by volume: what one kilogram holds, and the air it needs.

Figures of the components, with their marks:

- petrol as CH1.87; lower heating values of ethanol and methanol: Heywood, Internal
  Combustion Engine Fundamentals, 1988, Table D.4 (from memory, not opened).
- heat of vaporising: US DOE Alternative Fuels Data Center, fuel property table, about 150,
  396 and 506 Btu/lb (read in a public copy). Heywood's table has 305, 840 and 1103 kJ/kg,
  from memory; the higher, better documented figures are used.
- ethanol and methanol density at 20 degC: from memory.

The lower heating value and the density of petrol vary from pump to pump, so they are
arguments.
"""

from dataclasses import dataclass
from functools import lru_cache

from planner.physics.tables.cycle_nasa import SPECIES

GAS_CONSTANT = 8.31446  # [J/(mol K)]
REFERENCE_TEMPERATURE = 298.15  # [K]
ATOMIC_MASS = (12.011e-3, 1.008e-3, 15.999e-3, 14.007e-3)  # C, H, O, N [kg/mol]
NITROGEN_PER_OXYGEN = 3.76


@dataclass(frozen=True)
class Component:
    """One fuel component; atoms are those of C, H and O in its formula."""

    atoms: tuple[float, float, float]
    heating_value: float  # lower, liquid [J/kg]
    vaporising: float  # at 25 degC [J/kg]
    density: float  # [kg/m**3]
    vapour: str  # the species whose specific heat, by mass, its vapour takes

    @property
    def molar_mass(self) -> float:
        """Mass of one mole [kg/mol]."""
        return sum(n * m for n, m in zip(self.atoms, ATOMIC_MASS, strict=False))

    @property
    def vapour_formation(self) -> float:
        """Enthalpy of formation of the vapour, from burning the liquid to gas [J/kg]."""
        carbon, hydrogen, _ = self.atoms
        burned = carbon * formation("CO2") + hydrogen / 2 * formation("H2O")
        return burned / self.molar_mass + self.heating_value + self.vaporising


@dataclass(frozen=True)
class Blend:
    """A fuel blend, each figure for one kilogram of it."""

    carbon: float  # [mol/kg]
    hydrogen: float  # [mol/kg]
    oxygen: float  # [mol/kg]
    moles: float  # of fuel molecules [mol/kg]
    heating_value: float  # lower [J/kg]
    vaporising: float  # [J/kg]
    density: float  # [kg/m**3]
    vapour_formation: float  # [J/kg]
    vapours: tuple[tuple[str, float], ...]  # species and its share by mass

    @property
    def air_fuel(self) -> float:
        """Chemically correct air for each kilogram of fuel, by mass."""
        oxygen_molecules = self.carbon + self.hydrogen / 4 - self.oxygen / 2
        return oxygen_molecules * air_mass()


def air_mass() -> float:
    """Mass of air that holds one mole of oxygen molecules [kg/mol]."""
    return 2 * ATOMIC_MASS[2] + NITROGEN_PER_OXYGEN * 2 * ATOMIC_MASS[3]


@lru_cache(maxsize=64)
def formation(species: str) -> float:
    """Enthalpy of formation of a species at 298.15 K [J/mol]."""
    _, low, _ = SPECIES[species]
    t = REFERENCE_TEMPERATURE
    series = sum(a * t ** (i + 1) / (i + 1) for i, a in enumerate(low[:5]))
    return GAS_CONSTANT * (series + low[5])


def ethanol() -> Component:
    """Ethanol, C2H6O."""
    return Component((2, 6, 1), 26.9e6, 921e3, 789.0, "ethanol")


def methanol() -> Component:
    """Methanol, CH4O."""
    return Component((1, 4, 1), 20.0e6, 1177e3, 792.0, "methanol")


def petrol(heating_value: float, density: float) -> Component:
    """Pump petrol as C7.76 H14.51; its vapour is given the specific heat of iso-octane."""
    return Component((7.76, 14.51, 0), heating_value, 349e3, density, "iso_octane")


@lru_cache(maxsize=256)
def blend(
    ethanol_share: float, methanol_share: float, heating_value: float, density: float
) -> Blend:
    """Blend petrol, ethanol and methanol by volume.

    Parameters
    ----------
    ethanol_share, methanol_share
        Shares by volume; petrol is the rest. [-]
    heating_value, density
        Of the petrol. [J/kg], [kg/m**3]

    Returns
    -------
    Blend
        What one kilogram holds; every property combines by mass.
    """
    parts = (
        (1.0 - ethanol_share - methanol_share, petrol(heating_value, density)),
        (ethanol_share, ethanol()),
        (methanol_share, methanol()),
    )
    mixed = sum(share * part.density for share, part in parts)
    masses = tuple((share * part.density / mixed, part) for share, part in parts if share > 0)
    atoms = tuple(
        sum(mass * part.atoms[i] / part.molar_mass for mass, part in masses) for i in range(3)
    )
    return Blend(
        carbon=atoms[0],
        hydrogen=atoms[1],
        oxygen=atoms[2],
        moles=sum(mass / part.molar_mass for mass, part in masses),
        heating_value=sum(mass * part.heating_value for mass, part in masses),
        vaporising=sum(mass * part.vaporising for mass, part in masses),
        density=mixed,
        vapour_formation=sum(mass * part.vapour_formation for mass, part in masses),
        vapours=tuple((part.vapour, mass) for mass, part in masses),
    )
