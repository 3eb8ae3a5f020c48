"""Letters of a text: which the shipped fonts have, how wide they run, where lines break."""

import json
import re
import unicodedata
from functools import cache
from importlib.resources import files

ELLIPSIS = "…"
BREAK = "\u200b"
_LONG_WORD, _PIECE = re.compile(r"\S{41,}"), re.compile(r".{1,24}")
FAMILY = "Fira Sans"
_BIDI = frozenset("\u200e\u200f\u061c")
_PLAIN_SPACES = dict.fromkeys(map(ord, "\t\n\r\v\f\u2028\u2029"), " ")


@cache
def advances(weight: str = "regular") -> dict[str, int]:
    """Return the advance of each letter of a weight, in thousandths of the type size."""
    table = json.loads(
        files("planner.sheets.fonts").joinpath("advances.json").read_text(encoding="utf-8")
    )
    return {letter: int(width) for width, letters in table[weight].items() for letter in letters}


def width(text: str, size: float, weight: str = "regular") -> float:
    """Measure a text set in one line; a letter the font has not counts as the widest usual one.

    Examples
    --------
    >>> width("WW", 10.0) > width("ii", 10.0)
    True
    """
    table = advances(weight)
    return sum(table.get(letter, 1000) for letter in text) * size / 1000


def cut(text: str, room: float, size: float, weight: str = "regular") -> str:
    """Shorten a text with an ellipsis until it fits in one line.

    Examples
    --------
    >>> cut("piston", 1000.0, 10.0)
    'piston'
    >>> cut("piston to wall clearance", 40.0, 10.0)
    'piston…'
    """
    if width(text, size, weight) <= room:
        return text
    kept = text
    while kept and width(kept + ELLIPSIS, size, weight) > room:
        kept = kept[:-1]
    return kept.rstrip() + ELLIPSIS


def lines(text: str, room: float, size: float, *, most: int, weight: str = "regular") -> list[str]:
    """Break a text into lines that fit, the last one shortened when there are too many."""
    found: list[str] = []
    for word in text.split():
        joined = f"{found[-1]} {word}" if found else word
        if found and width(joined, size, weight) <= room:
            found[-1] = joined
        else:
            found.append(word)
    if len(found) > most:
        found[most - 1 :] = [" ".join(found[most - 1 :])]
    return [cut(each, room, size, weight) for each in found]


def clean(text: str) -> str:
    r"""Take out of a text what is no letter: control codes and marks that turn its direction.

    Examples
    --------
    >>> clean("one\x00 two\u202ethree\nfour")
    'one twothree four'
    """
    spaced = text.translate(_PLAIN_SPACES)
    kept = "".join(each for each in spaced if each not in _BIDI and _is_text(each))
    return " ".join(kept.split())


def _is_text(letter: str) -> bool:
    return unicodedata.category(letter) not in ("Cc", "Cf", "Cs", "Co", "Cn")


def in_our_fonts(text: str) -> str:
    r"""Spell a letter that the fonts have not by its code, so that it is neither lost nor a box.

    Examples
    --------
    >>> in_our_fonts("Größe \u8eca")
    'Größe [8ECA]'
    """
    table = advances()
    if all(letter in table for letter in text):
        return text
    return "".join(letter if letter in table else f"[{ord(letter):04X}]" for letter in text)


def breakable(text: str) -> str:
    """Let a very long word break: a place without width after every few letters of it.

    Examples
    --------
    >>> breakable("short words stay")
    'short words stay'
    >>> len(breakable("x" * 60).split(BREAK))
    3
    """
    if not _LONG_WORD.search(text):
        return text
    return _LONG_WORD.sub(lambda word: BREAK.join(_PIECE.findall(word[0])), text)
