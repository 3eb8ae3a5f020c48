"""Cells of a column of numbers: ``over 0.7 to 1.4 bar``, ``< 10 psi``, ``[5 psi .. 15 psi)``."""

import re
from collections.abc import Callable, Iterable

from planner.errors import nearest
from planner.rulebook.columns import (
    BadCell,
    NumberColumn,
    Span,
    read_ends,
    read_pair,
    read_value,
    refuse_empty,
)

LONGEST = 200

_BETWEEN = re.compile(r"(over|from)\s+(.+?)\s+to\s+(under\s+)?(.+)")
_ONE_END = re.compile(r"(under|up to|over|at least)\s+(\S.*)|(<=|>=|<|>|≤|≥)\s*(\S.*)")
_NOT = re.compile(r"not\s*\((.*)\)|not\s+(.*)")
_DECIMAL_COMMA = re.compile(r"\d,\d")
_TO_ALONE = re.compile(r"(\S.*?)\s*(?:\bto\b|\.\.\.?|–|—|\band\b| - )\s*(\S.*)")
_OPENING = re.compile(r"[^\W\d]+(?:\s[^\W\d]+)?|[^\w\s.+\-]+")
_AND = re.compile(r"\s+(?:and|-)\s+")
_NUMBER_FIRST = re.compile(r"[+\-\N{MINUS SIGN}]?\.?\d")

# What others say, and what we say; nothing where the value stands alone.
_MEANT = {
    "above": "over", "more than": "over", "greater than": "over", "exceeds": "over",
    "below": "under", "less than": "under", "smaller than": "under", "beneath": "under",
    "at most": "up to", "no more": "up to", "not over": "up to", "max": "up to",
    "maximum": "up to", "to": "up to", "until": "up to", "=<": "<=",
    "no less": "at least", "min": "at least", "minimum": "at least", "=>": ">=",
    "between": "from", "exactly": "", "equals": "",
    "=": "", "==": "", "!=": "not", "<>": "not",
}  # fmt: skip
_OPENERS = ("under", "up to", "over", "at least", "from", "any", "not")


def read_number_cell(text: str, column: NumberColumn) -> tuple[Span, ...]:
    """Read a cell into the stretches of the declared range it speaks of, in rising order.

    Raises
    ------
    BorewrightError
        When the cell cannot be read, leaves the range, or leaves nothing.
    """
    if len(text) > LONGEST:
        raise BadCell(
            problem=f"the cell is {len(text)} letters long.",
            reason=f"A cell of numbers has at most {LONGEST}.",
            remedy="Split it over several rows.",
        )
    if text in ("any", "-"):
        return (column.span,)
    if found := _NOT.fullmatch(text):
        inside = (found[1] if found[1] is not None else found[2]).strip()
        ruled_out = (column.span,) if inside in ("any", "-") else _read_list(inside, column)
        return _outside_of(ruled_out, column)
    return _read_list(text, column)


def _read_list(text: str, column: NumberColumn) -> tuple[Span, ...]:
    """Read one test, or several with commas between them."""
    if _DECIMAL_COMMA.search(text):
        raise BadCell(
            problem=f"{text!r} has a comma between two digits.",
            reason="It could be a decimal comma, a thousands comma or two values.",
            remedy="Write 1.5 for one and a half, 1500 for fifteen hundred, '1, 5' for either.",
        )
    return _merged(_read_test(each.strip(), column) for each in text.split(","))


def _read_test(text: str, column: NumberColumn) -> Span:
    """Read one test and hold it against the declared range."""
    readers: tuple[Callable[[str, NumberColumn], Span | None], ...] = (
        _bracketed, _between, _one_ended, _alone,
    )  # fmt: skip
    for read in readers:
        span = read(text, column)
        if span is not None:
            inside = span.shared(column.span)
            if inside.empty:
                raise _nothing_left(text, column)
            return inside
    raise _unreadable(text, column)


def _bracketed(text: str, column: NumberColumn) -> Span | None:
    span = read_ends(text, column.unit, column.kind)
    if span is not None:
        _within(span.low, column)
        _within(span.high, column)
    return span


def _between(text: str, column: NumberColumn) -> Span | None:
    found = _BETWEEN.fullmatch(text)
    if found is None:
        return None
    opener, low_text, under, high_text = found.groups()
    low, high = read_pair(low_text, high_text, column.unit, column.kind)
    span = Span(_within(low, column), _within(high, column), opener == "over", bool(under))
    refuse_empty(span, low_text, high_text)
    return span


def _one_ended(text: str, column: NumberColumn) -> Span | None:
    found = _ONE_END.fullmatch(text)
    if found is None:
        return None
    sign, number = found[1] or found[3], found[2] or found[4]
    value = _within(read_value(number, column.unit, column.kind), column)
    whole = column.span
    if sign in ("under", "<"):
        return Span(whole.low, value, whole.low_open, high_open=True)
    if sign in ("up to", "<=", "≤"):
        return Span(whole.low, value, whole.low_open)
    return Span(value, whole.high, sign in ("over", ">"), whole.high_open)


def _alone(text: str, column: NumberColumn) -> Span | None:
    if not _NUMBER_FIRST.match(text) or _TO_ALONE.fullmatch(text):
        return None
    value = _within(read_value(text, column.unit, column.kind), column)
    return Span(value, value)


def _within(value: float, column: NumberColumn) -> float:
    """Return the value when it is inside the declared range, its ends included."""
    whole = column.span
    if whole.low <= value <= whole.high:
        return value
    beyond, end = ("below", whole.low) if value < whole.low else ("above", whole.high)
    least_most = "least" if value < whole.low else "most"
    raise BadCell(
        problem=f"{column.show(value)} is {beyond} the declared range {column.declared}.",
        reason=f"{column.name} never has that value, so the row could not answer.",
        remedy=f"Write at {least_most} {column.show(end)}, or widen the range of {column.name}.",
    )


def _nothing_left(text: str, column: NumberColumn) -> BadCell:
    return BadCell(
        problem=f"{text!r} leaves no value of the declared range {column.declared}.",
        reason="The row could never answer.",
        remedy=f"Move the figure inside {column.declared}, or take the row out.",
    )


def _unreadable(text: str, column: NumberColumn) -> BadCell:
    """Say what was probably meant."""
    return BadCell(
        problem=f"{text[:60]!r} is not a cell we can read." if text else "the cell is empty.",
        reason=f"{column.name} is a number.",
        remedy=_remedy(text, column),
    )


def _remedy(text: str, column: NumberColumn) -> str:
    example = column.show(column.span.high)
    if not text:
        return f"Write any, or a test such as under {example}."
    if _NUMBER_FIRST.match(text) and (found := _TO_ALONE.fullmatch(text)):
        low, high = found.groups()
        return f"Write from {low} to {high} (both included) or over {low} to {high} ({low} not)."
    if offer := _reworded(text):
        return f"Did you mean {offer}?"
    return f"Write for example under {example}, from … to …, any, or one value with its unit."


def _reworded(text: str) -> str | None:
    """Put our opening word in place of another's: ``above 2 bar`` becomes ``over 2 bar``."""
    found = _OPENING.match(text)
    if found is None:
        return None
    for opener in (found[0], found[0].split(" ", maxsplit=1)[0]):
        said = opener.casefold().strip()
        meant = _MEANT.get(said, nearest(said, _OPENERS))
        rest = text[len(opener) :].strip()
        if meant is not None and not (meant == "any" and rest):
            rest = _AND.sub(" to ", rest) if meant == "from" else rest
            return f"{meant} {rest}".strip()
    return None


def _merged(spans: Iterable[Span]) -> tuple[Span, ...]:
    """Put spans in rising order and join those that meet."""
    ordered = sorted(spans, key=lambda each: (each.low, each.low_open))
    joined = [ordered[0]]
    for span in ordered[1:]:
        last = joined[-1]
        apart = span.low > last.high or (
            span.low == last.high and span.low_open and last.high_open
        )
        if apart:
            joined.append(span)
            continue
        high = max(last.high, span.high)
        ends_open = all(each.high_open for each in (last, span) if each.high == high)
        joined[-1] = Span(last.low, high, last.low_open, ends_open)
    return tuple(joined)


def _outside_of(spans: tuple[Span, ...], column: NumberColumn) -> tuple[Span, ...]:
    """Give the rest of the declared range."""
    whole = column.span
    edges = [(whole.low, whole.low_open)]
    for span in spans:
        edges += [(span.low, not span.low_open), (span.high, not span.high_open)]
    edges.append((whole.high, whole.high_open))
    rest = [
        Span(low, high, low_open, high_open)
        for (low, low_open), (high, high_open) in zip(edges[::2], edges[1::2], strict=True)
    ]
    left = tuple(each for each in rest if not each.empty)
    if not left:
        raise _nothing_left("not " + column.declared, column)
    return left
