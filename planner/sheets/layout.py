"""Lines of plain text that fit a page of eighty columns, with or without a terminal."""

import textwrap
from collections.abc import Iterable

WIDTH = 80
Lines = list[str]


def wrapped(text: str, indent: str = "", lead: str = "") -> Lines:
    """Wrap a text under a lead; later lines hang under where it began.

    Examples
    --------
    >>> wrapped("one two three", indent="  ", lead="Why: ")
    ['  Why: one two three']
    """
    body = " ".join(text.split())
    if len(indent) + len(lead) > LONGEST_LEAD:
        body, lead = f"{' '.join(lead.split())} {body}", ""
        hang = f"{indent}    "
    else:
        hang = indent + " " * min(len(lead), MOST_HANG)
    first = indent + lead
    return textwrap.wrap(
        body,
        WIDTH,
        initial_indent=first,
        subsequent_indent=hang,
        break_long_words=False,
        break_on_hyphens=False,
    ) or [first.rstrip()]


MOST_HANG = 11
LONGEST_LEAD = 48


def heading(title: str, rule: str = "-") -> Lines:
    """Set a title over a rule, with an empty line before."""
    return ["", title.upper(), rule * WIDTH]


def marked(left: str, mark: str, hang: str = "    ") -> Lines:
    """Set a line with its status at the right edge; what does not fit goes on below."""
    room = WIDTH - len(mark) - 2
    lines = textwrap.wrap(
        left, room, subsequent_indent=hang, break_on_hyphens=False, drop_whitespace=True
    ) or [""]
    lines[0] = f"{lines[0]:<{room + 2}}{mark}".rstrip()
    return lines


def boxed(title: str, text: str, indent: str) -> Lines:
    """Frame a text under a title, so that it stands out in print and without colour."""
    room = WIDTH - len(indent) - 4
    body = textwrap.wrap(" ".join(text.split()), room, break_on_hyphens=False)
    bar = "-" * (room + 2)
    top = f"-- {title} ".ljust(room + 2, "-")
    return [
        f"{indent}+{top}+",
        *(f"{indent}| {line:<{room}} |" for line in body),
        f"{indent}+{bar}+",
    ]


def table(rows: Iterable[tuple[str, str]], indent: str = "") -> Lines:
    """Set short names in a column with their texts beside them."""
    pairs = list(rows)
    room = max((len(name) for name, _ in pairs), default=0)
    lines: Lines = []
    for name, text in pairs:
        lines += wrapped(text, indent, f"{name:<{room}}  ")
    return lines


def shortened(text: str) -> str:
    """Cut what a figure waits for out of a sentence; it is listed on a line of its own.

    Examples
    --------
    >>> shortened("Top not yet known (needs bore readings (three depths)), second wider.")
    'Top (not yet known), second wider.'
    >>> shortened("Pin no answer (no stocked pin is strong enough).")
    'Pin (no answer).'
    """
    for opening, hole in _HOLES.items():
        parts = text.split(opening)
        text = parts[0] + "".join(f"{hole}{_after_bracket(part)}" for part in parts[1:])
    return text


def is_whole(sentence: str) -> bool:
    """Tell whether a shortened sentence has every figure it speaks of."""
    return not any(hole in sentence for hole in _HOLES.values())


NOT_KNOWN = "(not yet known)"
NO_ANSWER = "(no answer)"
_HOLES = {"not yet known (needs": NOT_KNOWN, "no answer (": NO_ANSWER}


def _after_bracket(text: str) -> str:
    """Return what follows the bracket that is open."""
    depth = 1
    for position, letter in enumerate(text):
        depth += {"(": 1, ")": -1}.get(letter, 0)
        if not depth:
            return text[position + 1 :]
    return ""


def counted(number: int, one: str, many: str = "") -> str:
    """Say how many: `1 row`, `3 rows`."""
    return f"{number} {one if number == 1 else many or one + 's'}"
