"""Write tests/physics/cycle/frozen_cantera.py: figures of Cantera for the fast tests.

Run it from the root of the tree with the root on PYTHONPATH:
`PYTHONPATH=. python tests/physics/cycle/freeze_cantera.py`. The slow tests work the same
figures out anew and compare.
"""

from math import pi, radians
from pathlib import Path

import cantera as ct
import numpy as np

from planner.physics.cycle.burned import elements
from planner.physics.cycle.equilibrium import PRODUCTS
from planner.physics.cycle.lines import line_up
from planner.physics.cycle.setting import setting
from tests.physics.cycle.cases import full_boost
from tests.physics.cycle.ode import Cylinder, mixed_gas

FUELS = {"iso_octane": "C8H18,isooctane", "ethanol": "C2H5OH", "methanol": "CH3OH"}
OXYGEN = {"iso_octane": 12.5, "ethanol": 3.0, "methanol": 1.5}
STATES = ((0.9, 298.15, 101325.0), (1.0, 298.15, 101325.0), (1.18, 298.15, 101325.0))
DENSE = ((0.9, 700.0, 20e5), (1.0, 700.0, 40e5), (1.18, 700.0, 40e5))
# Cantera takes the coefficients for 1 atm, their source for 1 bar.
SHIFT = 1.01325
HEAD = '"""Figures of Cantera {version}; written by freeze_cantera.py, do not edit."""\n'


def products():
    """Gas of the products alone."""
    species = [each for each in all_species() if each.name in PRODUCTS]
    return ct.Solution(thermo="ideal-gas", species=species)


def all_species():
    """Species of the data file."""
    return ct.Species.list_from_file("nasa_gas.yaml")


def unburned(fuel):
    """Gas of air and one fuel."""
    wanted = {FUELS[fuel], "O2", "N2"}
    return ct.Solution(thermo="ideal-gas", species=[s for s in all_species() if s.name in wanted])


def mix(gas, fuel, mixture):
    """Set the fresh charge at an equivalence ratio."""
    oxygen = OXYGEN[fuel]
    gas.X = {FUELS[fuel]: mixture, "O2": oxygen, "N2": 3.76 * oxygen}


def carried(gas, fuel, mixture):
    """Set the products to hold the same elements as the fresh charge."""
    carbon, hydrogen, oxygen = {
        "iso_octane": (8, 18, 0),
        "ethanol": (2, 6, 1),
        "methanol": (1, 4, 1),
    }[fuel]
    air = OXYGEN[fuel]
    gas.X = {
        "CO": mixture * carbon,
        "H2": mixture * hydrogen / 2,
        "O2": air + mixture * (oxygen - carbon) / 2,
        "N2": 3.76 * air,
    }


def flames():
    """Adiabatic flame temperature at constant pressure."""
    rows = []
    for fuel in FUELS:
        for mixture, temperature, pressure in (*STATES, *DENSE):
            cold, hot = unburned(fuel), products()
            mix(cold, fuel, mixture)
            cold.TP = temperature, pressure
            carried(hot, fuel, mixture)
            hot.TP = 2500.0, pressure * SHIFT
            hot.equilibrate("TP")
            hot.HP = cold.enthalpy_mass, pressure * SHIFT
            hot.equilibrate("HP", rtol=1e-10)
            rows.append((fuel, mixture, temperature, pressure, round(hot.T, 2)))
    return rows


def vessels():
    """Temperature and pressure after burning at constant volume."""
    rows = []
    for fuel in FUELS:
        for mixture, temperature, pressure in DENSE:
            cold, hot = unburned(fuel), products()
            mix(cold, fuel, mixture)
            cold.TP = temperature, pressure
            carried(hot, fuel, mixture)
            hot.TP = 2800.0, 4 * pressure * SHIFT
            hot.equilibrate("TP")
            ended = shut_in(hot, cold.int_energy_mass, cold.volume_mass)
            rows.append((fuel, mixture, temperature, pressure, *ended))
    return rows


def shut_in(hot, energy, volume):
    """Equilibrium at given energy and volume, chemistry at the shifted pressure."""
    temperature = hot.T
    for _ in range(50):
        pressure = ct.gas_constant / hot.mean_molecular_weight * temperature / volume
        hot.TP = temperature, pressure * SHIFT
        hot.equilibrate("TP", rtol=1e-11)
        inner = hot.enthalpy_mass - ct.gas_constant / hot.mean_molecular_weight * temperature
        if abs(energy - inner) < 1e-3:
            break
        temperature += (energy - inner) / 2500.0
    pressure = ct.gas_constant / hot.mean_molecular_weight * temperature / volume
    return round(temperature, 2), round(pressure, 0)


def squeezes():
    """Temperature after squeezing the fresh charge without heat."""
    rows = []
    for fuel in FUELS:
        for mixture in (0.9, 1.18):
            for by in (4.0, 10.0):
                cold = unburned(fuel)
                mix(cold, fuel, mixture)
                cold.TP = 350.0, 2e5
                cold.SV = cold.entropy_mass, cold.volume_mass / by
                rows.append((fuel, mixture, by, round(cold.T, 3), round(cold.P, 0)))
    return rows


def heats():
    """Specific heat, and enthalpy above 298.15 K, of air with ethanol vapour."""
    rows = []
    for mixture in (0.9, 1.18):
        for temperature in (300.0, 450.0, 700.0, 900.0):
            cold = unburned("ethanol")
            mix(cold, "ethanol", mixture)
            cold.TP = 298.15, 1e5
            datum = cold.enthalpy_mass
            cold.TP = temperature, 1e5
            above = cold.enthalpy_mass - datum
            rows.append((mixture, temperature, round(cold.cp_mass, 3), round(above, 1)))
    return rows


def burned_states():
    """Enthalpy and gas constant of burned petrol charge."""
    rows = []
    for fuel, mixture in (("iso_octane", 0.9), ("iso_octane", 1.18), ("ethanol", 1.12)):
        for temperature, pressure in ((1200.0, 5e5), (2000.0, 1e5), (2600.0, 60e5), (3200.0, 1e5)):
            hot = products()
            carried(hot, fuel, mixture)
            hot.TP = temperature, pressure * SHIFT
            hot.equilibrate("TP", rtol=1e-11)
            constant = ct.gas_constant / hot.mean_molecular_weight
            state = (round(hot.enthalpy_mass, 0), round(constant, 4))
            rows.append((fuel, mixture, temperature, pressure, *state))
    return rows


def cantera_burned(point):
    """Burned gas of a point's charge from Cantera, with its slopes, as ode.Cylinder asks."""
    gas = products()
    carbon, hydrogen, oxygen, nitrogen = elements(point.fuel, point.mixture)
    gas.X = {
        "CO": carbon,
        "H2": hydrogen / 2,
        "O2": (oxygen - carbon) / 2,
        "N2": nitrogen / 2,
    }

    def plain(t, p):
        gas.TP = t, p * SHIFT
        gas.equilibrate("TP", rtol=1e-10)
        return gas.enthalpy_mass, ct.gas_constant / gas.mean_molecular_weight

    def state(t, p):
        h, r = plain(t, p)
        h1, r1 = plain(t + 0.5, p)
        h2, r2 = plain(t, p * 1.0005)
        return h, (h1 - h) / 0.5, (h2 - h) / (p * 5e-4), r, (r1 - r) / 0.5, (r2 - r) / (p * 5e-4)

    return state


def whole_cycles():
    """Whole cycles by differential equations with the balance of Cantera at every call."""
    rows = []
    for fuel, ratio, degrees in (("premium", 8.5, 19.0), ("e85", 10.0, 16.0)):
        point = full_boost(fuel, margins=False)
        lined = line_up(setting([point]), np.array([ratio]))
        gas = mixed_gas(lined.charge)
        cylinder = Cylinder(
            point, lined.charge, gas, cantera_burned(point), ratio, radians(degrees)
        )
        found = cylinder.solve(point.inlet_closing - pi, pi - point.exhaust_opening, 1e-6)
        figures = (found.knock, found.peak_pressure, found.work, found.last_temperature)
        rows.append((fuel, ratio, degrees, *(float(f"{each:.6g}") for each in figures)))
    return rows


def table(name, rows):
    """Write rows as a tuple."""
    lines = "".join(f"    {row!r},\n" for row in rows)
    return f"{name} = (\n{lines})\n"


def main():
    """Write the module."""
    parts = (
        ("FLAMES", flames()),
        ("VESSELS", vessels()),
        ("SQUEEZES", squeezes()),
        ("UNBURNED", heats()),
        ("BURNED", burned_states()),
        ("CYCLES", whole_cycles()),
    )
    text = HEAD.format(version=ct.__version__) + "\n" + "".join(table(*each) for each in parts)
    Path(__file__).with_name("frozen_cantera.py").write_text(text)


if __name__ == "__main__":
    main()
