import numpy as np
import pytest

from planner.physics.cycle.fuels import ATOMIC_MASS, formation
from planner.physics.cycle.gas import (
    WATER_GAS,
    fresh,
    molar_enthalpy,
    molar_entropy,
    molar_heat,
    residual,
    residual_moles,
)
from planner.physics.tables.cycle_nasa import SPECIES
from tests.physics.cycle.cases import full_boost
from tests.physics.cycle.frozen_cantera import UNBURNED
from tests.physics.cycle.pure_fuels import pure

FUEL = full_boost().fuel
HOT = np.linspace(300.0, 1490.0, 60)


@pytest.mark.parametrize("species", sorted(SPECIES))
def test_enthalpy_and_entropy_are_the_integrals_of_the_specific_heat(species):
    near = 1e-3 * HOT
    slope = (molar_enthalpy(species, HOT + near) - molar_enthalpy(species, HOT - near)) / (
        2 * near
    )
    away = np.abs(HOT - 1000.0) > 2.0  # the two halves of the data meet there
    assert slope[away] == pytest.approx(molar_heat(species, HOT)[away], rel=1e-4)
    slope = (molar_entropy(species, HOT + near) - molar_entropy(species, HOT - near)) / (2 * near)
    assert (slope * HOT)[away] == pytest.approx(molar_heat(species, HOT)[away], rel=1e-4)


# Frozen from Cantera 3.2.0 by freeze_cantera.py.
@pytest.mark.parametrize(("mixture", "temperature", "heat", "enthalpy"), UNBURNED)
def test_fresh_charge_has_the_heat_that_cantera_gives(mixture, temperature, heat, enthalpy):
    gas = fresh(pure("ethanol"), mixture)
    assert gas.specific_heat(temperature) == pytest.approx(heat, rel=1.5e-3)
    # against the same vapour at 298.15 K, so that the heating value used is no matter
    assert gas.enthalpy(temperature) - gas.enthalpy(298.15) == pytest.approx(enthalpy, abs=120.0)


@pytest.mark.parametrize("mixture", [0.8, 1.0, 1.12, 1.4])
def test_the_residual_weighs_a_kilogram_and_balances_the_water_gas(mixture):
    moles = residual_moles(FUEL, mixture)
    masses = [
        n * sum(a * m for a, m in zip(SPECIES[each][0], ATOMIC_MASS, strict=True))
        for each, n in moles.items()
    ]
    assert sum(masses) == pytest.approx(1.0, abs=1e-9)
    assert min(moles.values()) >= -1e-12
    if mixture > 1:
        balance = moles["CO"] * moles["H2O"] / (moles["CO2"] * moles["H2"])
        assert balance == pytest.approx(WATER_GAS)
        assert moles["O2"] == 0.0


def test_the_residual_keeps_the_enthalpy_of_its_species():
    moles = residual_moles(FUEL, 1.12)
    formed = sum(n * formation(each) for each, n in moles.items())
    assert residual(FUEL, 1.12).enthalpy(298.15) == pytest.approx(formed)
