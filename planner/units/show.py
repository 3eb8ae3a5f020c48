"""Print a figure as the trade writes it, in metric, in inches, or both.

Digits are the trade's: a millimetre to 0.001, an inch to 0.0001, a clearance in thou to
0.1, a pressure in bar to 0.1. A small figure keeps two significant digits, so that what is
not nothing is never printed as 0. The rounding itself is in rounding.py, imported when
first needed: exact decimals are slow to open.
"""

import re
from typing import Literal

from planner.units.dimension import NONE
from planner.units.find import find_unit
from planner.units.kinds import ABSOLUTE, GAP, GAUGE, ON_DIAMETER, PER_SIDE, STRESS
from planner.units.table import Unit

Towards = Literal["near", "up", "down"]
System = Literal["metric", "inch", "both"]

# The unit a shop of the other system reads.
_INCH = {
    "um": "uin",
    "mm": "in",
    "cm": "in",
    "m": "ft",
    "km": "mi",
    "bar": "psi",
    "kPa": "psi",
    "MPa": "psi",
    "degC": "degF",
    "delta_degC": "delta_degF",
    "K": "delta_degF",
    "N*m": "ft*lbf",
    "kW": "hp",
    "cm**3": "in**3",
    "cc": "in**3",
    "mm**2": "in**2",
    "kg": "lb",
    "N": "lbf",
    "kN": "lbf",
    "N/mm": "lbf/in",
    "m/s": "ft/min",
}
_METRIC = {
    "in": "mm",
    "thou": "mm",
    "uin": "um",
    "ft": "m",
    "mi": "km",
    "psi": "bar",
    "ksi": "MPa",
    "degF": "degC",
    "delta_degF": "delta_degC",
    "ft*lbf": "N*m",
    "in*lbf": "N*m",
    "hp": "kW",
    "in**3": "cm**3",
    "in**2": "mm**2",
    "lb": "kg",
    "oz": "g",
    "lbf": "N",
    "lbf/in": "N/mm",
    "ft/min": "m/s",
}
_SYMBOLS = {
    "degC": "°C",
    "degF": "°F",
    "delta_degC": "°C rise",
    "delta_degF": "°F rise",
    "deg": "°",
    "N*m": "N·m",
    "ft*lbf": "ft·lbf",
    "in*lbf": "in·lbf",
    "um": "µm",
    "uin": "µin",
    "g_load": "g",
    "cm**3": "cm³",
    "in**3": "in³",
    "mm**2": "mm²",
    "in**2": "in²",
}
_THOU_KINDS = {ON_DIAMETER, PER_SIDE, GAP}


def show(
    si: float,
    unit: Unit | str,
    *,
    kind: str | None = None,
    system: System = "metric",
    step: float | None = None,
    towards: Towards = "near",
) -> str:
    """Print one figure with its unit.

    Parameters
    ----------
    si
        The value in SI.
    unit
        The unit it is declared in.
    kind
        Its kind: a clearance or a gap is told in thou in an inch shop; gauge and absolute
        are said.
    system
        The shop's system; "both" puts the other one in brackets.
    step
        What to round to, in SI, where the declared unit is printed.
    towards
        Where to round: up for the low end of a band, down for its high end.

    Returns
    -------
    str
        For example 86.500 mm (3.4055 in).

    Examples
    --------
    >>> show(110000.0, "bar", system="both")
    '1.1 bar (16 psi)'
    >>> show(0.0000889, "mm", kind="clearance on diameter", system="both")
    '0.089 mm (3.5 thou)'
    """
    declared = find_unit(unit) if isinstance(unit, str) else unit
    kind = kind or declared.kind
    first = _turned(declared, system="inch" if system == "inch" else "metric", kind=kind)
    text = _one(si, first, declared, kind, step, towards)
    if system != "both":
        return text
    second = _turned(first, system="inch", kind=kind)
    if second.name == first.name:
        return text
    return f"{text} ({_one(si, second, declared, kind, step, towards)})"


def show_band(
    band: tuple[float, float | None, float],
    unit: Unit | str,
    *,
    kind: str | None = None,
    system: System = "metric",
    step: float | None = None,
) -> str:
    """Print a band as low / target / high, rounded inward so that it is never widened.

    Parameters
    ----------
    band
        Low, target and high in SI; a target of None prints limits only.
    unit, kind, system, step
        As for `show`.

    Returns
    -------
    str
        For example 0.078 / 0.091 / 0.104 mm.

    Examples
    --------
    >>> show_band((0.0000774, 0.0000903, 0.0001032), "mm", kind="clearance on diameter")
    '0.078 / 0.090 / 0.103 mm'
    """
    from planner.units.rounding import inside

    declared = find_unit(unit) if isinstance(unit, str) else unit
    kind = kind or declared.kind
    if system == "both":
        metric = show_band(band, declared, kind=kind, step=step)
        inch = show_band(band, declared, kind=kind, system="inch", step=step)
        return metric if metric == inch else f"{metric} ({inch})"
    shown = _turned(declared, system=system, kind=kind)
    wanted = step if shown.name == declared.name else None
    return " / ".join(inside(band, shown, wanted)) + _symbol(shown, kind)


def _one(
    si: float, shown: Unit, declared: Unit, kind: str | None, step: float | None, towards: Towards
) -> str:
    """Print a value in one unit."""
    from planner.units.rounding import rounded

    text = rounded(si, shown, step if shown.name == declared.name else None, towards)
    return f"{text}{_symbol(shown, kind)}"


def _turned(declared: Unit, *, system: Literal["metric", "inch"], kind: str | None) -> Unit:
    """Choose the unit that a shop of this system reads."""
    base, _, suffix = declared.name.partition(" ")
    name = (_INCH if system == "inch" else _METRIC).get(base, base)
    if system == "inch" and name == "in" and kind in _THOU_KINDS:
        name = "thou"
    if system == "inch" and base == "MPa" and kind == STRESS:
        name = "ksi"
    return declared if name == base else find_unit(f"{name} {suffix}")


def _symbol(unit: Unit, kind: str | None) -> str:
    """Give the unit's sign with its space, and say gauge or absolute."""
    base = unit.name.partition(" ")[0]
    plain = re.sub(r"\bum\b", "µm", base)
    symbol = _SYMBOLS.get(base, plain.replace("**2", "²").replace("**3", "³").replace("*", "·"))
    said = f" {kind}" if kind in (GAUGE, ABSOLUTE) else ""
    if unit.dimension == NONE and base in ("", "deg", "%"):
        return " %" if base == "%" else symbol
    return f" {symbol}{said}"
