"""Dimensions as exponents of length, mass, time and temperature; an angle has none."""

from typing import TYPE_CHECKING, NamedTuple, Union

if TYPE_CHECKING:
    from fractions import Fraction

Exponent = Union[int, "Fraction"]


class Dimension(NamedTuple):
    """What a quantity is made of; LENGTH over TIME is a speed, whatever the unit."""

    length: Exponent = 0
    mass: Exponent = 0
    time: Exponent = 0
    temperature: Exponent = 0


def times(left: Dimension, right: Dimension) -> Dimension:
    """Give the dimension of a product."""
    return Dimension(*(a + b for a, b in zip(left, right, strict=True)))


def over(left: Dimension, right: Dimension) -> Dimension:
    """Give the dimension of a quotient."""
    return Dimension(*(a - b for a, b in zip(left, right, strict=True)))


def power(base: Dimension, exponent: "float | Fraction") -> Dimension:
    """Give the dimension of a power; 0.5 and 1.5 stay exact, as fractions.

    Examples
    --------
    >>> power(AREA, 0.5) == LENGTH
    True
    """
    if isinstance(exponent, int):
        return Dimension(*(each * exponent for each in base))
    from fractions import Fraction  # slow to open, and a half power is rare

    exact = Fraction(exponent).limit_denominator(1000)
    return Dimension(*(_plain(each * exact) for each in base))


def _plain(value: Exponent) -> Exponent:
    """Keep whole exponents as int, so that dimensions print short."""
    return int(value) if value == int(value) else value


NONE = Dimension()
LENGTH = Dimension(length=1)
AREA = Dimension(length=2)
VOLUME = Dimension(length=3)
SECOND_MOMENT = Dimension(length=4)
MASS = Dimension(mass=1)
TIME = Dimension(time=1)
TEMPERATURE = Dimension(temperature=1)
SPEED = Dimension(length=1, time=-1)
ACCELERATION = Dimension(length=1, time=-2)
ROTATION = Dimension(time=-1)
FORCE = Dimension(length=1, mass=1, time=-2)
STIFFNESS = Dimension(mass=1, time=-2)
PRESSURE = Dimension(length=-1, mass=1, time=-2)
TORQUE = Dimension(length=2, mass=1, time=-2)
ENERGY = TORQUE
POWER = Dimension(length=2, mass=1, time=-3)
DENSITY = Dimension(length=-3, mass=1)
VISCOSITY = Dimension(length=-1, mass=1, time=-1)
KINEMATIC_VISCOSITY = Dimension(length=2, time=-1)
INERTIA = Dimension(length=2, mass=1)
UNBALANCE = Dimension(length=1, mass=1)
FLOW = Dimension(length=3, time=-1)
MASS_FLOW = Dimension(mass=1, time=-1)
HEAT_FLUX = Dimension(mass=1, time=-3)
PER_KELVIN = Dimension(temperature=-1)
SPECIFIC_ENERGY = Dimension(length=2, time=-2)
SPECIFIC_HEAT = Dimension(length=2, time=-2, temperature=-1)
CONDUCTIVITY = Dimension(length=1, mass=1, time=-3, temperature=-1)
HEAT_TRANSFER = Dimension(mass=1, time=-3, temperature=-1)

_NAMES = {
    NONE: "plain number",
    LENGTH: "length",
    AREA: "area",
    VOLUME: "volume",
    SECOND_MOMENT: "second moment of area",
    MASS: "mass",
    TIME: "time",
    TEMPERATURE: "temperature",
    SPEED: "speed",
    ACCELERATION: "acceleration",
    ROTATION: "speed of rotation",
    FORCE: "force",
    STIFFNESS: "stiffness",
    PRESSURE: "pressure",
    TORQUE: "torque or energy",
    POWER: "power",
    DENSITY: "density",
    VISCOSITY: "viscosity",
    KINEMATIC_VISCOSITY: "kinematic viscosity",
    INERTIA: "moment of inertia",
    UNBALANCE: "unbalance",
    FLOW: "flow",
    MASS_FLOW: "mass flow",
    HEAT_FLUX: "heat flux",
    PER_KELVIN: "expansion per kelvin",
    SPECIFIC_ENERGY: "energy for each mass",
    SPECIFIC_HEAT: "specific heat",
    CONDUCTIVITY: "thermal conductivity",
    HEAT_TRANSFER: "heat transfer coefficient",
}


def dimension_name(dimension: Dimension) -> str:
    """Name a dimension in shop words, for messages.

    Examples
    --------
    >>> dimension_name(PRESSURE)
    'pressure'
    >>> dimension_name(Dimension(length=5, mass=1))
    'length**5 mass'
    """
    if dimension in _NAMES:
        return _NAMES[dimension]
    parts = zip(Dimension._fields, dimension, strict=True)
    return " ".join(n if e == 1 else f"{n}**{e}" for n, e in parts if e)
