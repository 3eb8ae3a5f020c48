"""The pint registry, built from our own table; imported late, since pint is slow to open."""

from functools import lru_cache

import pint

from planner.units.table import LINES, SCALES

_BASES = (
    "m = [length] = _ = metre = meter",
    "kg = [mass]",
    "s = [time] = _ = sec",
    "K = [temperature]",
    "rad = []",
)
_SI = {
    "none": "",
    "length": "m",
    "volume": "m**3",
    "mass": "kg",
    "time": "s",
    "rotation": "rad/s",
    "force": "kg*m/s**2",
    "pressure": "kg/m/s**2",
    "energy": "kg*m**2/s**2",
    "power": "kg*m**2/s**3",
    "kinematic_viscosity": "m**2/s",
    "acceleration": "m/s**2",
    "temperature": "K",
}
_PI = "3.141592653589793"


@lru_cache(maxsize=1)
def unit_registry() -> "pint.UnitRegistry[float]":
    """Build the one registry; pint's own thousand units are not in it.

    Names that pint cannot spell (N*m, %, °) are left out: it reads N*m as a product.

    Examples
    --------
    >>> round(unit_registry().Quantity(1.0, "inch").to("mm").magnitude, 6)
    25.4
    """
    return pint.UnitRegistry([*_BASES, *_definitions()], autoconvert_offset_to_baseunit=True)


def _definitions() -> list[str]:
    """Write each line of the table as pint reads it."""
    lines = []
    for line in LINES:
        head, _, others = line.partition(":")
        name, factor, dimension = head.split()
        if name.isidentifier() and name not in ("m", "kg", "s", "K", "rad"):
            spellings = [each for each in others.split() if each.isidentifier()]
            if not name.startswith("delta_"):
                tail = "".join(f" = {each}" for each in ("_", *spellings)) if spellings else ""
                scaled = f"{factor.replace('pi', _PI)} * {_SI[dimension]}".rstrip("* ")
                lines.append(f"{name} = {scaled}{tail}")
    for line in SCALES:
        head, _, _ = line.partition(":")
        name, factor, zero = head.split()
        lines.append(f"{name} = {factor} * K; offset: {zero}")
    return lines
