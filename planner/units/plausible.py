"""Offer what a refused figure was probably meant to be; the writer decides, never we."""

from planner.units.dimension import (
    ACCELERATION,
    FORCE,
    LENGTH,
    MASS,
    POWER,
    PRESSURE,
    ROTATION,
    TEMPERATURE,
    TORQUE,
    VOLUME,
    Dimension,
)
from planner.units.find import find_unit
from planner.units.parse import to_si, to_unit
from planner.units.table import Unit

# Units in which a shop might have meant the number, likeliest first.
_TRIED: dict[Dimension, tuple[str, ...]] = {
    LENGTH: ("mm", "in", "thou", "um", "cm", "m"),
    PRESSURE: ("bar", "psi", "kPa", "MPa", "ksi"),
    TEMPERATURE: ("degC", "degF", "K", "delta_degC", "delta_degF"),
    VOLUME: ("cm**3", "in**3", "l"),
    MASS: ("g", "kg", "lb", "oz"),
    FORCE: ("N", "kN", "lbf"),
    TORQUE: ("N*m", "ft*lbf", "in*lbf"),
    POWER: ("kW", "hp", "W"),
    ROTATION: ("rpm",),
    ACCELERATION: ("g_load", "m/s**2"),
}
_SLIPS = (10.0, 0.1, 100.0, 0.01, 1000.0, 0.001)
MOST = 3


def plausible_readings(
    value: float, unit: Unit | None, allowed: tuple[float, float], shown: Unit | str
) -> list[tuple[str, str]]:
    """List readings of a number that would land in range: another unit, a slipped point.

    Parameters
    ----------
    value
        The number as written.
    unit
        The unit as written; None when there was none.
    allowed
        Lowest and highest value that make sense, in SI.
    shown
        The unit the value is declared in, in which the offer is told.

    Returns
    -------
    list of (str, str)
        What could be written instead, and why it might be meant; at most three.

    Examples
    --------
    >>> plausible_readings(3.386, find_unit("mm"), (0.06, 0.11), "mm")
    [('3.386 in = 86.0044 mm', 'if it was read in inches')]
    >>> plausible_readings(20, find_unit("bar gauge"), (0.0, 4e5), "bar gauge")[0]
    ('20 psi gauge = 1.37895 bar gauge', 'if it was read in psi')
    """
    target = find_unit(shown) if isinstance(shown, str) else shown
    suffix = _suffix(unit) or _suffix(target)
    offers = []
    for name in _TRIED.get(target.dimension, (target.name,)):
        other = find_unit(name + suffix)
        if _fits(to_si(value, other), allowed) and not _same(other, unit):
            offers.append((_offer(value, other, target), f"if it was read in {_spoken(name)}"))
    offers += _slipped(value, unit or target, allowed, target)
    return offers[:MOST]


def _slipped(
    value: float, unit: Unit, allowed: tuple[float, float], target: Unit
) -> list[tuple[str, str]]:
    """Try the decimal point one, two and three places either way."""
    if unit.dimension != target.dimension or unit.offset:
        return []
    return [
        (_offer(float(f"{value * slip:.12g}"), unit, target), "if the decimal point slipped")
        for slip in _SLIPS
        if _fits(to_si(value * slip, unit), allowed)
    ][:1]


def _offer(value: float, unit: Unit, target: Unit) -> str:
    """Word an offer, with what it comes to in the declared unit."""
    text = f"{value:.12g} {unit.name}".strip()
    if unit.name == target.name:
        return text
    return f"{text} = {to_unit(to_si(value, unit), target):.6g} {target.name}"


def _fits(si: float, allowed: tuple[float, float]) -> bool:
    return allowed[0] <= si <= allowed[1]


def _same(other: Unit, written: Unit | None) -> bool:
    """Say whether an offer would only repeat what was written."""
    if written is None:
        return False
    return (other.factor, other.offset) == (written.factor, written.offset)


def _suffix(unit: Unit | None) -> str:
    """Give the word gauge or absolute that a unit carries, with its space."""
    _, space, word = unit.name.partition(" ") if unit else ("", "", "")
    return f"{space}{word}"


def _spoken(name: str) -> str:
    spoken = {"in": "inches", "mm": "millimetres", "thou": "thousandths", "um": "microns"}
    return spoken.get(name, name)
