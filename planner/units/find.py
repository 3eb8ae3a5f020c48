"""Find a unit by what was written: a line of the table, a pressure suffix, or a compound."""

import re
from functools import lru_cache

from planner.errors import UnknownUnit, nearest
from planner.units.dimension import ACCELERATION, NONE, PRESSURE, Dimension, over, power, times
from planner.units.table import HINTS, PLAIN, SPELLINGS, UNITS, Unit

_SIGNS = str.maketrans({"·": "*", "⋅": "*", "×": "*"})
_RAISED = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")
_TOKEN = re.compile(r"\*\*-?\d{1,2}|[*/()]|[^\W\d]\w*|[%°]\w?|1(?![\d.])")
_SUFFIX = {"gauge": "gauge", "absolute": "absolute"}
_SHORT = {"psig": "psi gauge", "psia": "psi absolute"}
LONGEST = 40


def find_unit(text: str, expected: Dimension | None = None) -> Unit:
    """Find the unit that some text names.

    Parameters
    ----------
    text
        The unit as written: mm, bar gauge, W/m/K, kg·m². Empty text is a plain number.
    expected
        What is being measured. It settles `g`: an acceleration where one is expected,
        otherwise a gram.

    Returns
    -------
    Unit
        The unit, named as the table names it.

    Raises
    ------
    UnknownUnit
        When nothing in the table, alone or joined, is meant.

    Examples
    --------
    >>> find_unit("psig")
    Unit(name='psi gauge', factor=6894.75729316836, offset=0.0, dimension=..., kind='gauge')
    """
    plain = _tidy(text)
    if plain == "g" and expected == ACCELERATION:
        plain = "g_load"
    return _find(plain)


@lru_cache(maxsize=512)
def _find(text: str) -> Unit:
    """Find a unit by its tidied text."""
    if not text:
        return PLAIN
    if text in SPELLINGS:
        return UNITS[SPELLINGS[text]]
    if text in HINTS:
        raise _unknown(text)
    base, _, last = _SHORT.get(text, text).rpartition(" ")
    if last in _SUFFIX and base:
        return _pressure(base, _SUFFIX[last])
    return _Compound(text).unit()


@lru_cache(maxsize=1024)
def _tidy(text: str) -> str:
    """Bring the spellings of one unit together: signs, raised figures, spaces."""
    plain = re.sub(r"[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+", lambda m: "**" + m[0].translate(_RAISED), text)
    plain = " ".join(plain.translate(_SIGNS).replace("^", "**").split())
    return re.sub(r" ?(\*\*|[*/]) ?", r"\1", plain)


def _pressure(base: str, kind: str) -> Unit:
    """Join a pressure unit with the word that says where its zero is."""
    unit = _find(base)
    if unit.dimension != PRESSURE or unit.kind:
        raise UnknownUnit(
            problem=f"{base} {kind} is not a unit.",
            reason="Only a pressure is gauge or absolute.",
            remedy=f"Write {base} alone, or a pressure such as bar {kind}.",
        )
    return Unit(f"{unit.name} {kind}", unit.factor, 0.0, PRESSURE, kind)


class _Compound:
    """Reads units joined with * / ** and brackets, from left to right."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.tokens = _TOKEN.findall(text) if len(text) <= LONGEST else []
        if "".join(self.tokens) != text:
            raise _unknown(text)
        self.at = 0

    def unit(self) -> Unit:
        """Read the whole text as one unit."""
        factor, dimension = self._product()
        if self.at != len(self.tokens):
            raise _unknown(self.text)
        return Unit(self.text, factor, 0.0, dimension)

    def _take(self) -> str:
        """Take the next token, or an empty one at the end."""
        token = self.tokens[self.at] if self.at < len(self.tokens) else ""
        self.at += 1
        return token

    def _peek(self) -> str:
        return self.tokens[self.at] if self.at < len(self.tokens) else ""

    def _product(self) -> tuple[float, Dimension]:
        """Read factors joined with * and /."""
        factor, dimension = self._power()
        while self._peek() in ("*", "/"):
            if self._take() == "*":
                other, its = self._power()
                factor, dimension = factor * other, times(dimension, its)
            else:
                other, its = self._power()
                factor, dimension = factor / other, over(dimension, its)
        return factor, dimension

    def _power(self) -> tuple[float, Dimension]:
        """Read one factor and the power it may be raised to."""
        factor, dimension = self._atom()
        if self._peek().startswith("**"):
            exponent = int(self._take()[2:])
            if abs(exponent) > 6:
                raise _unknown(self.text)
            factor, dimension = factor**exponent, power(dimension, exponent)
        return factor, dimension

    def _atom(self) -> tuple[float, Dimension]:
        """Read a unit of the table, a 1, or a bracket."""
        word = self._take()
        if word == "1":
            return 1.0, NONE
        if word == "(":
            inside = self._product()
            if self._take() != ")":
                raise _unknown(self.text)
            return inside
        if word not in SPELLINGS:
            raise _unknown(self.text, word)
        unit = UNITS[SPELLINGS[word]]
        if unit.offset:
            raise UnknownUnit(
                problem=f"{self.text} joins a thermometer reading with another unit.",
                reason=f"{word} counts from its own zero, so it cannot be multiplied.",
                remedy=f"Write K or delta_{unit.name} in its place.",
            )
        return unit.factor, unit.dimension


def _unknown(text: str, part: str = "") -> UnknownUnit:
    """Refuse a unit, with the nearest one we know."""
    wrong = part or text
    shown = text if len(text) <= LONGEST else f"{text[:LONGEST]}…"
    hint = HINTS.get(wrong) or HINTS.get(text)
    offer = nearest(wrong[:LONGEST], SPELLINGS)
    if not hint:
        hint = f"Did you mean {offer}?" if offer else "Use a shop unit: mm, in, thou, bar, psi, …"
    return UnknownUnit(
        problem=f"{shown!r} is not a unit we know.",
        reason="Guessing a unit would give a wrong figure.",
        remedy=hint,
    )
