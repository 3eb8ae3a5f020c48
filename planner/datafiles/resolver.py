"""Read plain YAML words as the 1.2 core schema does, without the surprises of 1.1.

yes, no, on and off stay words; 1:30 stays a word; 010 stays text, so that nobody takes it
for eight. Only true, false, null and ~ have a meaning of their own.
"""

import math
import re

from planner.datafiles.nodes import Value

_NULL = {"", "~", "null", "Null", "NULL"}
_BOOL = {"true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False}
_NUMBER = re.compile(
    r"(?P<int>[-+]?(?:0|[1-9][0-9]{0,29}))"
    r"|(?P<octal>0o[0-7]{1,20})"
    r"|(?P<hexadecimal>0x[0-9a-fA-F]{1,20})"
    r"|(?P<float>[-+]?(?:\.[0-9]+|(?:0|[1-9][0-9]*)(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?)"
)
_NOT_FINITE = re.compile(r"[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN)")


def resolve(text: str) -> Value:
    """Say what a plain word stands for.

    Parameters
    ----------
    text
        The word as written, without quotes.

    Returns
    -------
    str, int, float, bool or None
        The value; a number too large for a float stays text.

    Examples
    --------
    >>> [resolve(word) for word in ("off", "010", "0o17", "1:30", "8.50", "~")]
    ['off', '010', 15, '1:30', 8.5, None]
    """
    if text in _NULL:
        return None
    if text in _BOOL:
        return _BOOL[text]
    found = _NUMBER.fullmatch(text) if text[0] in "+-.0123456789" else None
    if not found:
        return text
    if found["float"]:
        value = float(text)
        return value if math.isfinite(value) else text
    return int(text, 10 if found["int"] else 0)


def is_not_finite(text: str) -> bool:
    """Say whether a plain word is YAML's infinity or not-a-number, or overflows to one."""
    if _NOT_FINITE.fullmatch(text):
        return True
    found = _NUMBER.fullmatch(text)
    return bool(found and found["float"] and not math.isfinite(float(text)))
