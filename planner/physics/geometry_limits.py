"""Refuse sizes that are zero or negative, in shop units."""

from math import isfinite

from planner.physics.registry import outside

# The unit a value is shown in and how many of it make one SI unit, as in planner.physics.bounds.
BAR = ("bar", 1e-5)
CUBIC_CENTIMETRES = ("cm3", 1e6)
DEGREES = ("deg", 57.29577951308232)
KILOWATTS = ("kW", 1e-3)
METRES = ("m", 1.0)
NEWTONS = ("N", 1.0)
PER_MILLION = ("per million and kelvin", 1e6)
RADIANS_A_SECOND = ("rad/s", 1.0)

_REMEDY = "Measure it again, or correct it."


def hold_positive(argument: str, value: float, unit: tuple[str, float]) -> None:
    """Refuse a size that is zero, negative or not finite.

    Raises
    ------
    OutsideValidity
        When the value is not a finite number above zero.
    """
    if not (value > 0.0 and isfinite(value)):
        outside(argument, _text(value, unit), "sizes above zero", _REMEDY)


def hold_not_negative(argument: str, value: float, unit: tuple[str, float]) -> None:
    """Refuse a size that is negative or not finite; zero is allowed.

    Raises
    ------
    OutsideValidity
        When the value is not a finite number of at least zero.
    """
    if not (value >= 0.0 and isfinite(value)):
        outside(argument, _text(value, unit), "zero and above", _REMEDY)


def _text(value: float, unit: tuple[str, float]) -> str:
    """Write a value in its shop unit."""
    name, factor = unit
    return f"{value * factor:.6g} {name}".rstrip()
