"""Read numbers and quantities as a shop writes them; nothing is ever guessed."""

import math
import re
from functools import lru_cache
from typing import NamedTuple

from planner.errors import MissingUnit, NotANumber, WrongDimension
from planner.units.dimension import NONE, Dimension, dimension_name
from planner.units.find import find_unit
from planner.units.table import Unit

_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?", re.ASCII)
# Traps, tried only when a number could not be read.
_THOUSANDS = r"[+-]?[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?(?![0-9])"
_COMMA = r"[+-]?[0-9]+,[0-9]+"
_SPACED = r"[+-]?[0-9]{1,3}(?:[ \u00a0\u202f'_][0-9]{3})+(?![0-9])"
_FRACTION = r"[+-]?(?:[0-9]+[ -])?[0-9]+/[0-9]+"
_MARKS = (",", ".", "'", "_", "+", "-")
SIGNIFICANT = 12
SHOWN = 40


class Quantity(NamedTuple):
    """A value as written, with its unit, and what it is in SI."""

    value: float
    unit: Unit
    si: float
    kind: str | None


def round_significant(value: float) -> float:
    """Round to the twelve significant digits that cross our edge.

    A size on a row boundary then lands in the same row however it is spelled.

    Examples
    --------
    >>> round_significant(0.1 + 0.2)
    0.3
    """
    return float(f"{value:.{SIGNIFICANT - 1}e}")


def parse_number(text: str) -> float:
    """Read a plain number; refuse what could be read two ways.

    Parameters
    ----------
    text
        The number as written: 0.085, 8000, 1e5.

    Returns
    -------
    float
        A finite number, never NaN.

    Raises
    ------
    NotANumber
        With the reading that was probably meant.
    """
    plain = text.strip().replace("\N{MINUS SIGN}", "-")
    if not _NUMBER.fullmatch(plain):
        raise _not_a_number(plain)
    return _finite(plain)


@lru_cache(maxsize=8192)
def parse_quantity(text: str, expected: Dimension | None = None) -> Quantity:
    """Read a number with its unit.

    Parameters
    ----------
    text
        The quantity as written: 1.1 bar gauge, 86.02mm, 3.5 thou, 8.5.
    expected
        What must come out. None takes any unit, and none.

    Returns
    -------
    Quantity
        The value, its unit, its SI value to 12 significant digits, and its kind.

    Raises
    ------
    NotANumber, UnknownUnit, MissingUnit, WrongDimension
        Each with what to write in its place.

    Examples
    --------
    >>> parse_quantity("20 psi gauge").si
    137895.145863
    """
    plain = text.strip().replace("\N{MINUS SIGN}", "-")
    number = _NUMBER.match(plain)
    rest = plain[number.end() :].strip() if number else ""
    if not number or rest.startswith(_MARKS) or _is_split(rest):
        raise _not_a_number(plain)
    value = _finite(number[0])
    unit = find_unit(rest, expected)
    if expected is not None and unit.dimension != expected:
        raise _wrong(plain, unit, expected)
    si = round_significant(value * unit.factor + unit.offset)
    if not math.isfinite(si):
        raise _too_large(plain)
    return Quantity(value, unit, si, unit.kind)


def to_si(value: float, unit: Unit | str) -> float:
    """Turn a number in a unit into SI, to 12 significant digits."""
    found = find_unit(unit) if isinstance(unit, str) else unit
    return round_significant(value * found.factor + found.offset)


def to_unit(si: float, unit: Unit | str) -> float:
    """Turn an SI value into a unit, to 12 significant digits.

    Examples
    --------
    >>> to_unit(0.0865, "mm")
    86.5
    """
    found = find_unit(unit) if isinstance(unit, str) else unit
    return round_significant((si - found.offset) / found.factor)


def _is_split(rest: str) -> bool:
    """Say whether what follows the first digits goes on with digits: 1 000, 5 1/2, 3/8."""
    if rest.startswith(("/", "1/")):
        return rest.lstrip("1").lstrip("/")[:1].isdigit()
    return rest[:1].isdigit()


def _finite(text: str) -> float:
    """Read digits that stay within what a float holds."""
    value = float(text)
    if not math.isfinite(value):
        raise _too_large(text)
    return value


def _too_large(text: str) -> NotANumber:
    return NotANumber(
        problem=f"{text[:SHOWN]!r} is too large to be a measurement.",
        reason="No figure can be worked out from it.",
        remedy="Check the exponent.",
    )


def _not_a_number(text: str) -> NotANumber:
    """Name the trap the writer fell into."""
    return NotANumber(
        problem=f"{text[:SHOWN]!r} is not a number we can read.",
        reason="It could be read in more than one way, or not at all.",
        remedy=_remedy(text),
    )


def _remedy(text: str) -> str:
    """Offer what was probably meant."""
    if found := re.match(_THOUSANDS, text):
        whole = found[0].replace(",", "")
        point = found[0].replace(",", ".", 1)
        tail = f", or {point} if the comma is a decimal comma" if found[0].count(",") == 1 else ""
        return f"Write {whole} without the thousands comma{tail}."
    if found := re.match(_COMMA, text):
        return f"Write {found[0].replace(',', '.')} with a decimal point, not a decimal comma."
    if found := re.match(_SPACED, text):
        return f"Write {re.sub(r'[^0-9+-]', '', found[0])} without spaces or marks in it."
    if found := re.match(_FRACTION, text):
        return f"Write the fraction {found[0]} as a decimal number."
    return "Write digits with a decimal point and then the unit, for example 0.085 mm."


def _wrong(text: str, unit: Unit, expected: Dimension) -> MissingUnit | WrongDimension:
    """Tell a missing unit from one of another sort."""
    wanted = dimension_name(expected)
    example = _EXAMPLES.get(wanted, "the unit")
    if unit.dimension == NONE and not unit.name:
        return MissingUnit(
            problem=f"{text[:SHOWN]} has no unit.",
            reason=f"A {wanted} is due here; guessing a unit would give a wrong figure.",
            remedy=f"Write the value with its unit, for example: {text[:SHOWN]} {example}.",
        )
    if expected == NONE:
        return WrongDimension(
            problem=f"{text[:SHOWN]} has a unit where a plain number is due.",
            reason="The value is a ratio or a count.",
            remedy="Write the number alone.",
        )
    return WrongDimension(
        problem=f"{text[:SHOWN]} is a {dimension_name(unit.dimension)}, not a {wanted}.",
        reason=f"{unit.name or 'a plain number'} cannot measure a {wanted}.",
        remedy=f"Write it in a unit of {wanted}, for example {example}.",
    )


_EXAMPLES = {
    "length": "mm",
    "area": "mm**2",
    "volume": "cm**3",
    "mass": "g",
    "time": "s",
    "temperature": "degC",
    "pressure": "bar",
    "force": "N or lbf",
    "torque or energy": "N*m",
    "power": "kW",
    "speed": "m/s",
    "speed of rotation": "rpm",
    "acceleration": "g_load",
    "expansion per kelvin": "1/K",
    "density": "kg/m**3",
    "stiffness": "N/mm",
    "flow": "l/min",
    "mass flow": "g/s",
}
