"""Round for print in exact decimals, with the trade's digits, never widening a band."""

import decimal
from decimal import Decimal
from functools import lru_cache

from planner.units.parse import to_unit
from planner.units.table import Unit

DECIMALS = {
    "mm": 3,
    "cm": 2,
    "m": 1,
    "km": 0,
    "um": 1,
    "in": 4,
    "thou": 1,
    "uin": 0,
    "ft": 1,
    "mi": 0,
    "bar": 1,
    "kPa": 0,
    "MPa": 0,
    "GPa": 0,
    "psi": 0,
    "ksi": 1,
    "degC": 0,
    "degF": 0,
    "delta_degC": 0,
    "delta_degF": 0,
    "K": 0,
    "rpm": 0,
    "kW": 0,
    "hp": 0,
    "N*m": 0,
    "ft*lbf": 0,
    "in*lbf": 0,
    "N": 0,
    "kN": 1,
    "lbf": 0,
    "cm**3": 1,
    "cc": 1,
    "ml": 1,
    "in**3": 2,
    "l": 1,
    "g": 0,
    "kg": 2,
    "lb": 2,
    "oz": 2,
    "m/s": 1,
    "ft/min": 0,
    "deg": 1,
    "%": 0,
    "": 2,
}

_ROUNDING = {
    "near": decimal.ROUND_HALF_UP,
    "up": decimal.ROUND_CEILING,
    "down": decimal.ROUND_FLOOR,
}
_NOISE = Decimal("1e-6")
# No gauge of an inch shop reads finer; only what would print as nothing gets another digit.
_SHOP_FINEST = {"in": Decimal("0.0001"), "thou": Decimal("0.01")}
_FINEST = Decimal("1e-12")
# Wide enough for any float, however silly.
_WIDE = decimal.Context(prec=700)


@lru_cache(maxsize=4096)
def rounded(si: float, shown: Unit, step: float | None, towards: str) -> str:
    """Round a value to its step, or to the trade's digits, and print it without a unit.

    Examples
    --------
    >>> from planner.units import find_unit
    >>> rounded(0.0000774, find_unit("mm"), None, "up")
    '0.078'
    """
    return _plain(_round(si, shown, _grain(si, shown, step), towards))


def inside(
    band: tuple[float, float | None, float], shown: Unit, step: float | None
) -> tuple[str, ...]:
    """Round a band inward and print its ends, with the target between if there is one.

    A band too narrow for its step keeps finer digits rather than turn inside out.
    """
    low_si, target_si, high_si = band
    grain = _grain(max(abs(low_si), abs(high_si)), shown, step)
    while True:
        ends = [_round(low_si, shown, grain, "up"), _round(high_si, shown, grain, "down")]
        if target_si is not None:
            ends.insert(1, _round(target_si, shown, grain, "near"))
        if ends == sorted(ends) or grain < _FINEST:
            return tuple(_plain(each) for each in ends)
        grain = grain / 10


def _grain(si: float, shown: Unit, step: float | None) -> Decimal:
    """Say what to round to: the step, or the trade's digits for the unit."""
    if step is not None:
        return Decimal(repr(to_unit(step + shown.offset, shown)))
    base = shown.name.partition(" ")[0]
    size = Decimal(repr(abs(to_unit(si, shown))))
    second_digit = size.adjusted() - 1 if size else 0
    if base not in DECIMALS:
        return Decimal(1).scaleb(second_digit - 2)
    grain = Decimal(1).scaleb(-DECIMALS[base])
    if size < grain * _NOISE:
        return grain
    finest = _SHOP_FINEST.get(base, Decimal(0))
    finer = Decimal(1).scaleb(second_digit)
    return min(grain, max(finer, finest) if size >= finest / 2 else finer)


def _round(si: float, shown: Unit, grain: Decimal, towards: str) -> Decimal:
    """Round a value to whole grains."""
    value = Decimal(repr(to_unit(si, shown)))
    grains = _WIDE.divide(value, grain).to_integral_value(_ROUNDING[towards])
    last_digit = min(int(grain.normalize().as_tuple().exponent), 0)
    return _WIDE.multiply(grains, grain).quantize(Decimal(1).scaleb(last_digit), context=_WIDE)


def _plain(value: Decimal) -> str:
    """Print plain digits, never an exponent and never minus nothing."""
    return f"{value or abs(value):f}"
