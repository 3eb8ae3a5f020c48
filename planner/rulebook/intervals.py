"""Arithmetic on numbers that may lie between two ends; ends are rounded outward."""

import math
import operator
from collections.abc import Callable, Sequence

from planner.physics.registry import Signature
from planner.rulebook.values import Band, Grid, Interval, Names, Number, OneOf, Shifted, Value

DIGIT = 1e-12
CARRIED = 13


class NeedsFirm(Exception):  # noqa: N818 - nothing is wrong; firm figures are needed
    """A formula has no answer for unsettled values; carries what must be firm."""

    def __init__(self, what: str) -> None:
        super().__init__(what)
        self.what = what


def unsettled(value: Value | None) -> bool:
    """Tell whether a value is still open."""
    if isinstance(value, Band):
        return any(isinstance(part, Interval) for part in value.parts())
    if isinstance(value, Names):
        return bool(value.perhaps)
    return isinstance(value, (Interval, Shifted, OneOf))


def low(value: Number) -> float:
    """Return the lower end."""
    return value.low if isinstance(value, Interval) else value


def high(value: Number) -> float:
    """Return the upper end."""
    return value.high if isinstance(value, Interval) else value


def between(least: float, most: float) -> Number:
    """Make a number from two ends, rounded outward in the twelfth digit when they differ."""
    if least == most:
        return least
    return Interval(least - abs(least) * DIGIT, most + abs(most) * DIGIT)


def hull(values: Sequence[Number]) -> Number:
    """Return the narrowest stretch that holds every value."""
    return between(min(map(low, values)), max(map(high, values)))


def _binary(
    plain: Callable[[float, float], float],
    ends: Callable[[Number, Number], tuple[float, float]],
) -> Callable[[Number, Number], Number]:
    def run(left: Number, right: Number) -> Number:
        if isinstance(left, float) and isinstance(right, float):
            return plain(left, right)
        return between(*ends(left, right))

    return run


def _product_ends(
    function: Callable[[float, float], float],
) -> Callable[[Number, Number], tuple[float, float]]:
    def ends(left: Number, right: Number) -> tuple[float, float]:
        products = [
            function(a, b) for a in (low(left), high(left)) for b in (low(right), high(right))
        ]
        return min(products), max(products)

    return ends


def _quotient_ends(left: Number, right: Number) -> tuple[float, float]:
    if low(right) <= 0.0 <= high(right):
        raise NeedsFirm("a divisor that could be zero")
    return _product_ends(operator.truediv)(left, right)


def _power_ends(left: Number, right: Number) -> tuple[float, float]:
    exponent = high(right)
    ends = sorted((low(left) ** exponent, high(left) ** exponent))
    if low(left) < 0.0 < high(left) and exponent == int(exponent) and int(exponent) % 2 == 0:
        ends[0] = 0.0
    return ends[0], ends[1]


def _snapped(value: float, left: float, right: float) -> float:
    """Drop the digits that a sum of figures of this size cannot carry.

    86.071 mm less 86.046 mm is then 0.025 mm and no hair more, so that it meets a limit of
    0.025 mm as the shop would say.
    """
    scale = max(abs(left), abs(right))
    if scale == 0.0 or not math.isfinite(value):
        return value
    return round(value, CARRIED - math.ceil(math.log10(scale)))


def add(left: Number, right: Number) -> Number:
    """Add two numbers that may be unsettled."""
    if isinstance(left, float) and isinstance(right, float):
        return _snapped(left + right, left, right)
    return _padded(low(left) + low(right), high(left) + high(right), left, right)


def subtract(left: Number, right: Number) -> Number:
    """Subtract two numbers that may be unsettled."""
    if isinstance(left, float) and isinstance(right, float):
        return _snapped(left - right, left, right)
    return _padded(low(left) - high(right), high(left) - low(right), left, right)


def _padded(least: float, most: float, left: Number, right: Number) -> Number:
    """Widen by what snapping may move a settled sum."""
    scale = max(abs(end) for each in (left, right) for end in (low(each), high(each)))
    pad = scale * 10.0**-CARRIED * 10.0
    return between(least - pad, most + pad)


multiply = _binary(operator.mul, _product_ends(operator.mul))
divide = _binary(operator.truediv, _quotient_ends)
power = _binary(operator.pow, _power_ends)


def negate(value: Number) -> Number:
    """Turn the sign."""
    return Interval(-high(value), -low(value)) if isinstance(value, Interval) else -value


def least(*values: Number) -> Number:
    """Return the smallest of some numbers."""
    if all(isinstance(value, float) for value in values):
        return min(map(low, values))
    return between(min(map(low, values)), min(map(high, values)))


def greatest(*values: Number) -> Number:
    """Return the largest of some numbers."""
    if all(isinstance(value, float) for value in values):
        return max(map(low, values))
    return between(max(map(low, values)), max(map(high, values)))


def corner(
    signature: Signature, result: str, values: dict[str, Value], *, upper: bool
) -> dict[str, Value]:
    """Bring unsettled arguments to the ends where a result is least, or greatest.

    Raises
    ------
    NeedsFirm
        When the result does not surely rise or fall with an unsettled argument.
    """
    rises = signature.rises.get(result, ())
    falls = signature.falls.get(result, ())
    found: dict[str, Value] = {}
    for name, value in values.items():
        if not isinstance(value, (Interval, Shifted)):
            found[name] = value
            continue
        if isinstance(value, Shifted) and name in signature.spreads:
            found[name] = value.readings
            continue
        if name not in rises and name not in falls:
            raise NeedsFirm(name)
        grid = signature.arguments[name].grid
        found[name] = _end(value, upper=(name in rises) is upper, grid=grid)
    return found


def _end(value: Interval | Shifted, *, upper: bool, grid: bool) -> float | Grid:
    """Return one end of a stretch; for readings all of them stand there."""
    end = value.high if upper else value.low
    if isinstance(value, Shifted):
        return value.at(end)
    return ((end,),) if grid else end


def spread_within(signature: Signature, values: dict[str, Value]) -> Number | None:
    """Bound a spread of readings that are not in: from nothing to the width of their stretch."""
    open_ = [name for name, value in values.items() if isinstance(value, (Interval, Shifted))]
    if len(open_) != 1 or open_[0] not in signature.spreads:
        return None
    value = values[open_[0]]
    return between(0.0, value.high - value.low) if isinstance(value, Interval) else None
