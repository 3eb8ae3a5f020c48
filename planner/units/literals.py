"""Figures written into a sentence, turned into the units that the reader's shop works in.

A sentence of the rules is written in metric. What stands in its braces is printed in the system
asked for anyway; what its writer spelled out, such as `0.5 to 1.0 mm`, is turned here, with as
many digits as were written.
"""

import re
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from planner.units.find import find_unit
from planner.units.parse import to_si, to_unit
from planner.units.show import System

_NUMBER = r"-?\d+(?:\.\d+)?"
_LITERAL = re.compile(
    rf"(?P<within>\bwithin )?(?<![\w.])(?P<first>{_NUMBER})(?:(?P<link> to | or | and )"
    rf"(?P<second>{_NUMBER}))? (?P<unit>mm|um|bar|MPa|kN|N|kg|m/s|degC)"
    r"(?P<kind> gauge| absolute)?(?![\w/*²³])"
)


@dataclass(frozen=True, slots=True)
class _Turn:
    """What a unit becomes, how it is spelled, and how many more decimals it needs."""

    unit: str
    spelled: str
    more: int
    most: int


_TURNS = {
    "mm": _Turn("in", "in", 2, 4),
    "um": _Turn("uin", "µin", -1, 0),
    "bar": _Turn("psi", "psi", -1, 1),
    "MPa": _Turn("ksi", "ksi", 1, 1),
    "kN": _Turn("lbf", "lbf", -2, 0),
    "N": _Turn("lbf", "lbf", 0, 1),
    "kg": _Turn("lb", "lb", 1, 2),
    "m/s": _Turn("ft/min", "ft/min", -2, 0),
    "degC": _Turn("degF", "°F", 0, 0),
}


@lru_cache(maxsize=2048)
def in_units_of(text: str, system: System) -> str:
    """Turn the metric figures of a sentence into inch ones, or add those in brackets.

    Parameters
    ----------
    text
        A sentence of the rules.
    system
        metric leaves it as it is, inch turns its figures, both adds the inch ones.

    Returns
    -------
    str
        The sentence.

    Examples
    --------
    >>> in_units_of("chamfer 0.5 to 1.0 mm; no bubbles at 2 to 3 bar", "inch")
    'chamfer 0.020 to 0.039 in; no bubbles at 29 to 44 psi'
    >>> in_units_of("flat within 0.005 mm", "both")
    'flat within 0.005 mm (0.0002 in)'
    >>> in_units_of("opens within 2 degC of its mark, full at 90 degC", "inch")
    'opens within 4 °F of its mark, full at 194 °F'
    """
    if system == "metric":
        return text
    return _LITERAL.sub(lambda found: _turned(found, both=system == "both"), text)


def _turned(found: re.Match[str], *, both: bool) -> str:
    turn = _TURNS[found["unit"]]
    numbers = [each for each in (found["first"], found["second"]) if each]
    written = max(len(each.partition(".")[2]) for each in numbers)
    # a temperature after `within` is a difference, which has no zero to shift
    apart = found["unit"] == "degC" and found["within"]
    told = [_number(each, found["unit"], turn, written, apart=bool(apart)) for each in numbers]
    kind = found["kind"] or ""
    inch = f"{(found['link'] or '').join(told)} {turn.spelled}{kind}"
    within = found["within"] or ""
    return f"{found[0]} ({inch})" if both else f"{within}{inch}"


def _number(text: str, unit: str, turn: _Turn, written: int, *, apart: bool) -> str:
    names = ("delta_degC", "delta_degF") if apart else (unit, turn.unit)
    value = to_unit(to_si(float(text), find_unit(names[0])), find_unit(names[1]))
    decimals = min(max(written + turn.more, 0), turn.most)
    while value and not round(value, decimals):
        decimals += 1
    return f"{Decimal(repr(value)):.{decimals}f}"
