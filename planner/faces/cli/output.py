"""Printing that works on a terminal, in a pipe, without colour and without UTF-8."""

import os
import re
import sys
from typing import TextIO

import click

# Only where the console cannot show the sign itself.
_PLAIN = str.maketrans(
    {
        "±": "+/-",
        "µ": "u",
        "²": "2",
        "³": "3",
        "·": "*",
        "°": "deg ",
        "×": "x",
        "–": "-",
        "—": "-",
        "\u2212": "-",
        "≥": ">=",
        "≤": "<=",
        "“": '"',
        "”": '"',
        "\u2018": "'",
        "\u2019": "'",
        "′": "'",
        "…": "...",
        "½": "1/2",
    }
)
_COLOURS = (
    (re.compile(r"\b(DANGER|REFUSED|STOP)\b"), "red"),
    (re.compile(r"\b(WARNING|PROVISIONAL|WAITING|PERHAPS|HOLD POINT|REPLACE|REPAIR)\b"), "yellow"),
    (re.compile(r"\bFIRM\b"), "green"),
)


def say(text: str) -> None:
    """Print a result on standard output."""
    _write(text, sys.stdout, err=False)


def complain(text: str) -> None:
    """Print talk on standard error."""
    _write(text, sys.stderr, err=True)


def _write(text: str, stream: TextIO, *, err: bool) -> None:
    text = text if text.endswith("\n") else f"{text}\n"
    text = carried(text, stream.encoding or "ascii")
    if stream.isatty() and not os.environ.get("NO_COLOR"):
        text = coloured(text)
    click.echo(text, nl=False, err=err)


def carried(text: str, encoding: str) -> str:
    """Return a text that an encoding can carry; unchanged when it already can.

    Examples
    --------
    >>> carried("±0.002 mm, 12 cm³", "ascii")
    '+/-0.002 mm, 12 cm3'
    >>> carried("±0.002 mm", "utf-8")
    '±0.002 mm'
    """
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        return text.translate(_PLAIN).encode(encoding, "replace").decode(encoding)
    return text


def coloured(text: str) -> str:
    """Colour the status and signal words; they read the same without."""
    for pattern, colour in _COLOURS:
        text = pattern.sub(lambda word: click.style(word[0], fg=colour, bold=True), text)  # noqa: B023 - used at once
    return text
