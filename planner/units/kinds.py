"""Kinds: values that share a unit and still may not be mixed, and their algebra.

A gauge pressure and an absolute one are both in bar; a clearance on diameter and one per
side are both in mm. A kind of None means that nothing is said, and mixes with everything.
"""

from typing import Literal

from planner.errors import KindClash, UnknownUnit, nearest
from planner.units.dimension import (
    ENERGY,
    LENGTH,
    MASS,
    NONE,
    PRESSURE,
    ROTATION,
    TEMPERATURE,
    VOLUME,
    Dimension,
)

Operation = Literal["+", "-", "min", "max", "compare"]

GAUGE = "gauge"
ABSOLUTE = "absolute"
PRESSURE_DIFFERENCE = "pressure difference"
STRESS = "stress"
DIAMETER = "diameter"
RADIUS = "radius"
ON_DIAMETER = "clearance on diameter"
PER_SIDE = "clearance per side"
GAP = "gap"
READING = "reading"
RISE = "rise"

KINDS: dict[str, Dimension] = {
    GAUGE: PRESSURE,
    ABSOLUTE: PRESSURE,
    PRESSURE_DIFFERENCE: PRESSURE,
    STRESS: PRESSURE,
    DIAMETER: LENGTH,
    RADIUS: LENGTH,
    ON_DIAMETER: LENGTH,
    PER_SIDE: LENGTH,
    GAP: LENGTH,
    READING: TEMPERATURE,
    RISE: TEMPERATURE,
    "torque": ENERGY,
    "energy": ENERGY,
    "speed of rotation": ROTATION,
    "mass": MASS,
    "volume": VOLUME,
    "angle": NONE,
}

# What a sum or difference of two kinds is, where it is not simply the same kind again.
_SUMS: dict[tuple[str, str, str], str] = {
    ("-", DIAMETER, DIAMETER): ON_DIAMETER,
    ("-", RADIUS, RADIUS): PER_SIDE,
    ("-", READING, READING): RISE,
    ("-", ABSOLUTE, ABSOLUTE): PRESSURE_DIFFERENCE,
    ("-", GAUGE, GAUGE): PRESSURE_DIFFERENCE,
    ("+", DIAMETER, ON_DIAMETER): DIAMETER,
    ("+", ON_DIAMETER, DIAMETER): DIAMETER,
    ("-", DIAMETER, ON_DIAMETER): DIAMETER,
    ("+", RADIUS, PER_SIDE): RADIUS,
    ("+", PER_SIDE, RADIUS): RADIUS,
    ("-", RADIUS, PER_SIDE): RADIUS,
    ("+", READING, RISE): READING,
    ("+", RISE, READING): READING,
    ("-", READING, RISE): READING,
    ("+", ABSOLUTE, PRESSURE_DIFFERENCE): ABSOLUTE,
    ("+", PRESSURE_DIFFERENCE, ABSOLUTE): ABSOLUTE,
    ("-", ABSOLUTE, PRESSURE_DIFFERENCE): ABSOLUTE,
    ("+", GAUGE, PRESSURE_DIFFERENCE): GAUGE,
    ("+", PRESSURE_DIFFERENCE, GAUGE): GAUGE,
    ("-", GAUGE, PRESSURE_DIFFERENCE): GAUGE,
}

_WAYS_OUT: dict[frozenset[str], str] = {
    frozenset({GAUGE, ABSOLUTE}): "turn the gauge pressure round with absolute(p, at) first",
    frozenset({ON_DIAMETER, PER_SIDE}): "turn the clearance per side round with on_diameter()",
    frozenset({DIAMETER, RADIUS}): "bring both to a diameter or both to a radius first",
    frozenset({READING, RISE}): "take the rise from a reading with reading - reading",
}

_VERBS = {
    "+": "added to",
    "-": "taken together with",
    "min": "put beside",
    "max": "put beside",
    "compare": "compared with",
}


def known_kind(kind: str, dimension: Dimension) -> str:
    """Return the kind as written if it is on the list and fits the dimension.

    Raises
    ------
    KindClash
        When the kind belongs to another dimension.
    UnknownUnit
        When there is no such kind.
    """
    if kind not in KINDS:
        offer = nearest(kind, KINDS)
        raise UnknownUnit(
            problem=f"{kind!r} is not a kind.",
            reason="Kinds are a closed list, so that a misspelt one cannot hide a mix-up.",
            remedy=f"Did you mean {offer!r}?" if offer else f"Use one of: {', '.join(KINDS)}.",
        )
    if KINDS[kind] != dimension:
        raise KindClash(
            problem=f"The kind {kind!r} does not fit the unit.",
            reason=f"{kind!r} is told of another sort of quantity.",
            remedy="Correct the kind or the unit.",
        )
    return kind


def sum_kind(op: Operation, left: str | None, right: str | None) -> str | None:
    """Say what kind a sum, difference, least, greatest or comparison of two kinds has.

    Parameters
    ----------
    op
        One of + - min max compare; a comparison has no kind, so it gives None.
    left, right
        The kinds of the two values; None where nothing is said.

    Returns
    -------
    str or None
        The kind of the result.

    Raises
    ------
    KindClash
        When the two may not be mixed.

    Examples
    --------
    >>> sum_kind("-", "diameter", "diameter")
    'clearance on diameter'
    >>> sum_kind("+", "diameter", None)
    """
    if left is None or right is None:
        return None
    if (op, left, right) in _SUMS:
        return _SUMS[op, left, right]
    if left == right:
        return None if op == "compare" else left
    raise _clash(op, left, right)


def product_kind(
    op: Literal["*", "/", "**"],
    left: str | None,
    right: str | None,
    *,
    left_plain: bool = False,
    right_plain: bool = False,
) -> str | None:
    """Say what kind a product, quotient or power has.

    Only a plain number, one written in the formula without a unit, keeps the kind of the
    other side: half a diameter clearance is still one, but gap per bore times bore is no
    diameter. A named ratio is not a plain number.

    Examples
    --------
    >>> product_kind("*", None, "gap", left_plain=True)
    'gap'
    >>> product_kind("*", "diameter", None)
    """
    if op in ("*", "/") and right_plain:
        return left
    if op == "*" and left_plain:
        return right
    return None


def _clash(op: str, left: str, right: str) -> KindClash:
    """Word the refusal as a machinist would."""
    ways = _WAYS_OUT.get(frozenset({left, right}), "bring both to one kind first")
    return KindClash(
        problem=f"{_article(left)} cannot be {_VERBS[op]} {_article(right).lower()}.",
        reason="They share a unit but not a meaning, so the figure would be wrong.",
        remedy=f"{ways[0].upper()}{ways[1:]}.",
    )


def _article(kind: str) -> str:
    """Give a kind as it is spoken: a gauge pressure, an absolute pressure."""
    spoken = f"{kind} pressure" if kind in (GAUGE, ABSOLUTE) else kind
    spoken = f"temperature {kind}" if kind in (READING, RISE) else spoken
    return f"{'An' if spoken[0] in 'aeiou' else 'A'} {spoken}"
