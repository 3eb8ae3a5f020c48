"""Explain in shop words the traps that YAML lays for people who write tables by hand."""

import re
from typing import Any

import yaml

from planner.datafiles.nodes import Node, Scalar
from planner.errors import Place, Problem

_QUOTE = "put the text in quotes, or write it in words, such as over 10 psi"
# Tried in this order on the line where reading stopped: what is seen there, and what it means.
_ON_THE_LINE: tuple[tuple[str, str, str], ...] = (
    (
        r"^ *\t",
        "the line is indented with a tab, which YAML does not take",
        "use spaces",
    ),
    (
        r"[:\-,{\[] *[>|]=? *[^\s>|+\-]",
        "a cell that starts with > is not in quotes",
        _QUOTE,
    ),
    (
        r"(?:: |- |, |\{|\[)\s*[\[(][^\"'\]\[()]*\.\.[^\"'\]\[()]*[\])]",
        "an interval that starts with [ or ( is not in quotes",
        'put the interval in quotes: "[0 bar .. 4 bar]"',
    ),
    (
        r":\s+-\s*(?:[,}#]|$)",
        "a lone - cannot stand for any here",
        "write any",
    ),
    (
        r"^\s*(?:- )?[\w ]+: [^\"'#{\[]*: ",
        "a colon followed by a space stands inside the text",
        "put the text in quotes",
    ),
    (
        r"^\s*(?:- )?\w+:[^\s:/]",
        "the colon has no space behind it",
        "write name: value, with a space",
    ),
    (
        r"[:\-,{[] +[@`%]",
        "text may not start with @ ` or %",
        "put the text in quotes",
    ),
    (
        r"[:\-,{[] +[*&!]",
        "text may not start with * & or !",
        "put the text in quotes",
    ),
)
_BY_MESSAGE: tuple[tuple[str, str, str], ...] = (
    (
        "quoted scalar",
        "a quotation mark is opened and never closed",
        'close it; inside "…" write \\" for the mark itself',
    ),
    (
        "mapping values are not allowed",
        "a colon followed by a space stands where no name can be",
        "put the text in quotes, or check the indentation of the line",
    ),
    (
        "could not find expected ':'",
        "a name is not followed by a colon",
        "write name: value, or indent the line as part of the one above",
    ),
    (
        "did not find expected key",
        "the line fits neither the list nor the names above it",
        "check its indentation, and that the line above is complete",
    ),
    ("exceeded maximum", "values are nested more than 50 deep here", "flatten them"),
    (
        "expected <block end>",
        "the line fits neither the list nor the names above it",
        "check its indentation",
    ),
    (
        "flow",
        "a bracket { or [ is not closed, or a comma is missing",
        "count the brackets on this line and above",
    ),
    (
        "block collection",
        "the line fits neither the list nor the names above it",
        "check its indentation",
    ),
    ("tab", "a tab stands where YAML takes only spaces", "use spaces"),
)


def explain(error: yaml.YAMLError, text: str, file: str) -> Problem:
    """Turn what stopped the parser into one problem with a fix.

    Parameters
    ----------
    error
        The parser's error.
    text
        The whole text.
    file
        The name to give in the message.

    Returns
    -------
    Problem
        Where reading stopped, the likely trap, and the fix.
    """
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    message = f"{getattr(error, 'context', None) or ''} {getattr(error, 'problem', None) or ''}"
    place = Place(file, mark.line + 1, mark.column + 1) if mark else Place(file, 1, 1)
    if "quoted scalar" in message and "end of stream" in message:
        place = _start(error, file) or place
    what, fix = _seen_on_the_line(error, text, place) or _by_message(message)
    return Problem(what, fix, place)


def _start(error: yaml.YAMLError, file: str) -> Place | None:
    """Give the place where the unfinished thing began."""
    mark: Any = getattr(error, "context_mark", None)
    return Place(file, mark.line + 1, mark.column + 1) if mark else None


def _seen_on_the_line(error: yaml.YAMLError, text: str, place: Place) -> tuple[str, str] | None:
    """Look at the line where reading stopped, then at the one where the value began."""
    lines = re.split("\r\n|\r|\n", text)
    begun = _start(error, place.file)
    numbers = (place.line, begun.line if begun else place.line, max(place.line - 1, 1))
    for number in dict.fromkeys(numbers):
        line = lines[number - 1] if number <= len(lines) else ""
        for pattern, what, fix in _ON_THE_LINE:
            if re.search(pattern, line[:1000]):
                return what, fix
    return None


def _by_message(message: str) -> tuple[str, str]:
    """Fall back on what the parser itself said."""
    for part, what, fix in _BY_MESSAGE:
        if part in message:
            return what, fix
    said = " ".join(message.split()) or "the text is not YAML"
    return f"reading stopped here: {said}", "check the line and the one above it"


def interval_as_list(items: list[Node], place: Place, *, flow: bool) -> Problem | None:
    """Notice [0 bar .. 4 bar] without quotes, which YAML takes for a list of one text."""
    if not flow or len(items) != 1:
        return None
    only = items[0]
    if isinstance(only, Scalar) and not only.quoted and " .. " in only.text:
        return Problem(
            f"the interval [{only.text}] is read as a list, since it is not in quotes",
            f'put it in quotes: "[{only.text}]"',
            place,
        )
    return None


def cut_by_comma(key: Scalar, value: Node, text: str) -> Problem | None:
    """Notice a name without a value in {…}: a comma has cut a text or a number in two."""
    if not isinstance(value, Scalar) or value.text or value.quoted:
        return None
    if text[key.span[1] :].lstrip().startswith(":") or not key.text:
        return None
    if key.text[0].isdigit():
        return Problem(
            f"the comma before {key.text!r} cuts a number in two",
            "write 8000 without a thousands comma, 0.85 with a decimal point",
            key.place,
        )
    return Problem(
        f"{key.text!r} has no value; the comma before it cuts the text in two",
        "put the whole text in quotes, or give the name a value",
        key.place,
    )
