"""The one unit table: what a shop writes, and what each is in metres, kilograms, seconds.

Each line reads: name, factor, what the factor counts, then other spellings after a colon.
Factors are exact by definition: the inch is 25.4 mm, the pound 0.45359237 kg, standard
gravity 9.80665 m/s**2, the horsepower 550 ft*lbf/s (the mechanical one). Anything joined
with * / and ** from these, such as W/m/K or kW/cm**2, needs no line of its own.
"""

import math
from typing import NamedTuple

from planner.units.dimension import (
    ACCELERATION,
    AREA,
    ENERGY,
    FORCE,
    KINEMATIC_VISCOSITY,
    LENGTH,
    MASS,
    NONE,
    POWER,
    PRESSURE,
    ROTATION,
    TEMPERATURE,
    TIME,
    VOLUME,
    Dimension,
)

LINES = (
    "m 1 length: metre meter",
    "cm 0.01 length",
    "mm 0.001 length",
    "um 1e-6 length: µm μm micron microns",
    "km 1000 length",
    "in 0.0254 length: inch inches",
    "thou 0.0000254 length",
    "uin 2.54e-8 length: µin μin microinch microinches",
    "ft 0.3048 length: foot feet",
    "mi 1609.344 length: mile miles",
    "l 0.001 volume: L litre liter litres liters",
    "ml 1e-6 volume: mL",
    "cc 1e-6 volume",
    "kg 1 mass",
    "g 0.001 mass: gram grams",
    "lb 0.45359237 mass",
    "oz 0.028349523125 mass",
    "s 1 time: sec",
    "ms 0.001 time",
    "min 60 time",
    "h 3600 time: hour hours",
    "rpm pi/30 rotation: rev/min r/min",
    "N 1 force",
    "kN 1000 force",
    "lbf 4.4482216152605 force",
    "Pa 1 pressure",
    "mPa 0.001 pressure",
    "kPa 1000 pressure",
    "MPa 1e6 pressure",
    "GPa 1e9 pressure",
    "bar 1e5 pressure",
    "mbar 100 pressure",
    "atm 101325 pressure",
    "psi 4.4482216152605/0.00064516 pressure",
    "ksi 4448.2216152605/0.00064516 pressure",
    "J 1 energy",
    "kJ 1000 energy",
    "MJ 1e6 energy",
    "N*m 1 energy: Nm N.m",
    "ft*lbf 1.3558179483314004 energy: lbf*ft",
    "in*lbf 0.1129848290276167 energy: lbf*in",
    "W 1 power",
    "kW 1000 power",
    "hp 745.69987158227022 power",
    "cSt 1e-6 kinematic_viscosity",
    "g_load 9.80665 acceleration",
    "K 1 temperature",
    "delta_degC 1 temperature",
    "delta_degF 5/9 temperature",
    "rad 1 none",
    "deg pi/180 none: ° degree degrees",
    "% 0.01 none: percent",
    "ppm 1e-6 none",
)

# Thermometer scales: name, factor, kelvins at their zero, other spellings.
SCALES = ("degC 1 273.15: °C", "degF 5/9 45967/180: °F")

# Units that say which kind of quantity they measure.
UNIT_KINDS = {
    "degC": "reading",
    "degF": "reading",
    "delta_degC": "rise",
    "delta_degF": "rise",
    "J": "energy",
    "kJ": "energy",
    "MJ": "energy",
    "N*m": "torque",
    "ft*lbf": "torque",
    "in*lbf": "torque",
    "rpm": "speed of rotation",
}

# Spelled like a unit of ours or of another trade; never guessed at.
HINTS = {
    "mil": "Write thou for a thousandth of an inch, or mm; mil is read both ways.",
    "mils": "Write thou for a thousandth of an inch, or mm; mil is read both ways.",
    "thous": "Write thou.",
    "C": "Write degC for a temperature, delta_degC for a rise.",
    "F": "Write degF for a temperature, delta_degF for a rise.",
    "kelvin": "Write K.",
    "ft*lb": "Write ft*lbf; a pound of torque is a pound-force.",
    "lb*ft": "Write ft*lbf; a pound of torque is a pound-force.",
    "ft-lb": "Write ft*lbf.",
    "lb-ft": "Write ft*lbf.",
    "ft lb": "Write ft*lbf.",
    "lb ft": "Write ft*lbf.",
    "ftlb": "Write ft*lbf.",
    "ft-lbs": "Write ft*lbf.",
    "in-lb": "Write in*lbf.",
    "in*lb": "Write in*lbf.",
    "lbs": "Write lb for a mass, lbf for a force.",
    "#": "Write lb for a mass, lbf for a force or psi for a pressure.",
    '"': "Write in for inches.",
    "''": "Write in for inches.",
    "'": "Write ft for feet.",
    "barg": "Write bar gauge.",
    "bara": "Write bar absolute.",
    "bhp": "Write hp (550 ft*lbf/s) or kW.",
    "HP": "Write hp (550 ft*lbf/s) or kW.",
    "PS": "Write kW; one metric horsepower is 0.73549875 kW.",
    "ps": "Write kW; one metric horsepower is 0.73549875 kW.",
    "cv": "Write kW; one metric horsepower is 0.73549875 kW.",
    "kgf": "Write N; one kilogram-force is 9.80665 N.",
    "kg/cm**2": "Write bar; one kilogram-force per square centimetre is 0.980665 bar.",
    "kgf/cm**2": "Write bar; one kilogram-force per square centimetre is 0.980665 bar.",
    "RPM": "Write rpm.",
    "ci": "Write in**3.",
    "cui": "Write in**3.",
    "gal": "Write l; gallons differ between countries.",
    "qt": "Write l; quarts differ between countries.",
}

_DIMENSIONS = {
    "none": NONE,
    "length": LENGTH,
    "area": AREA,
    "volume": VOLUME,
    "mass": MASS,
    "time": TIME,
    "rotation": ROTATION,
    "force": FORCE,
    "pressure": PRESSURE,
    "energy": ENERGY,
    "power": POWER,
    "kinematic_viscosity": KINEMATIC_VISCOSITY,
    "acceleration": ACCELERATION,
    "temperature": TEMPERATURE,
}


class Unit(NamedTuple):
    """A unit: SI value = value * factor + offset."""

    name: str
    factor: float
    offset: float
    dimension: Dimension
    kind: str | None = None


def _factor(text: str) -> float:
    """Read a factor: a decimal, a quotient of two, or pi over a number."""
    over_line, _, under = text.partition("/")
    if over_line == "pi":
        return math.pi / float(under)
    return float(over_line) / float(under or 1)


def _build() -> tuple[dict[str, Unit], dict[str, str]]:
    """Read the table into units by name, and other spellings into names."""
    units: dict[str, Unit] = {}
    spellings: dict[str, str] = {}
    for line in LINES:
        head, _, others = line.partition(":")
        name, factor, dimension = head.split()
        units[name] = Unit(
            name, _factor(factor), 0.0, _DIMENSIONS[dimension], UNIT_KINDS.get(name)
        )
        spellings.update(dict.fromkeys((name, *others.split()), name))
    for line in SCALES:
        head, _, others = line.partition(":")
        name, factor, zero = head.split()
        units[name] = Unit(name, _factor(factor), _factor(zero), TEMPERATURE, UNIT_KINDS[name])
        spellings.update(dict.fromkeys((name, *others.split()), name))
    return units, spellings


UNITS, SPELLINGS = _build()
PLAIN = Unit("", 1.0, 0.0, NONE)
