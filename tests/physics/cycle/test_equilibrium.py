import numpy as np
import pytest

from planner.errors import OutsideValidity
from planner.physics.cycle import equilibrium as module
from planner.physics.cycle.burned import elements
from planner.physics.cycle.equilibrium import ATOMS, PRODUCTS, equilibrium
from planner.physics.cycle.gas import fresh
from tests.physics.cycle.cases import full_boost
from tests.physics.cycle.frozen_cantera import BURNED, FLAMES
from tests.physics.cycle.pure_fuels import pure

FUEL = full_boost().fuel


def states(atoms, *pairs):
    temperature, pressure = np.array(pairs, dtype=float).T
    return equilibrium(atoms, temperature, pressure)


@pytest.mark.parametrize("mixture", [0.8, 1.0, 1.18, 1.4])
def test_no_atom_is_lost(mixture):
    atoms = elements(FUEL, mixture)
    found = states(atoms, (600.0, 1e6), (1500.0, 1e5), (2500.0, 5e6), (3600.0, 5e4))
    assert found.moles @ ATOMS == pytest.approx(np.tile(atoms, (4, 1)), rel=1e-9)


def test_cold_lean_gas_is_burned_through():
    atoms = elements(FUEL, 0.8)
    (moles,) = states(atoms, (700.0, 1e6)).moles
    found = dict(zip(PRODUCTS, moles, strict=True))
    assert found["CO2"] == pytest.approx(atoms[0], rel=1e-6)
    assert found["H2O"] == pytest.approx(atoms[1] / 2, rel=1e-6)
    assert max(found[each] for each in ("CO", "H2", "OH", "O", "H")) < 1e-6


def test_heat_breaks_molecules_up_and_pressure_holds_them_together():
    atoms = elements(FUEL, 1.0)
    found = states(atoms, (2000.0, 1e6), (3000.0, 1e6), (3000.0, 1e7)).constant
    assert found[0] < found[2] < found[1]


# Frozen from Cantera 3.2.0 by freeze_cantera.py.
@pytest.mark.parametrize(
    ("fuel", "mixture", "temperature", "pressure", "heat", "constant"), BURNED
)
def test_burned_gas_is_that_of_cantera(fuel, mixture, temperature, pressure, heat, constant):
    found = states(elements(pure(fuel), mixture), (temperature, pressure))
    assert found.enthalpy[0] == pytest.approx(heat, abs=30.0)
    assert found.constant[0] == pytest.approx(constant, rel=2e-6)


# Frozen from Cantera 3.2.0 by freeze_cantera.py.
@pytest.mark.parametrize(("fuel", "mixture", "temperature", "pressure", "flame"), FLAMES)
def test_flames_are_as_hot_as_those_of_cantera(fuel, mixture, temperature, pressure, flame):
    gas = fresh(pure(fuel), mixture)
    near = flame + np.array([-2.0, 2.0])
    found = equilibrium(elements(pure(fuel), mixture), near, np.full(2, pressure)).enthalpy
    ours = float(np.interp(gas.enthalpy(temperature), found, near))
    assert ours == pytest.approx(flame, abs=0.2)


def test_a_balance_that_does_not_settle_says_so(monkeypatch):
    monkeypatch.setattr(module, "MOST_PASSES", 2)
    with pytest.raises(OutsideValidity, match="did not settle in 2 passes"):
        states(elements(FUEL, 1.0), (2500.0, 1e6))
