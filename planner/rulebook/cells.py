"""Cells of a decision table, in words or in the standard's signs, and what they admit."""

import re
from functools import lru_cache

from planner.errors import BorewrightError, Place, Problem, nearest
from planner.records import record
from planner.rulebook.columns import BadCell, ChoiceColumn, Column, NumberColumn, Span
from planner.rulebook.number_cells import read_number_cell
from planner.rulebook.values import Interval, OneOf
from planner.units.parse import round_significant

_NOT = re.compile(r"not\s*\((.*)\)|not\s+(.*)", re.DOTALL)
_OTHER_COMMAS = re.compile(r"\s*(?:\bor\b|[/|;])\s*")
_SHOWN = 60


@record
class NumberCell:
    """Stretches of a number's declared range, in rising order and apart."""

    spans: tuple[Span, ...]
    text: str

    def contains(self, value: float) -> bool:
        """Tell whether the cell holds for a value, SI."""
        rounded = round_significant(value)
        return any(span.contains(rounded) for span in self.spans)

    def meets(self, value: float | Interval) -> bool:
        """Tell whether the cell could hold for a value that may be unsettled."""
        around = _stretch(value)
        return any(not span.shared(around).empty for span in self.spans)

    def holds_all(self, value: float | Interval) -> bool:
        """Tell whether the cell holds wherever an unsettled value may turn out to lie."""
        around = _stretch(value)
        return any(span.covers(around) for span in self.spans)


@record
class ChoiceCell:
    """Words of a choice."""

    words: frozenset[str]
    text: str

    def contains(self, value: str) -> bool:
        """Tell whether the cell holds for a word."""
        return value in self.words

    def meets(self, value: str | OneOf) -> bool:
        """Tell whether the cell could hold for a choice that may be unsettled."""
        return not self.words.isdisjoint(_words_left(value))

    def holds_all(self, value: str | OneOf) -> bool:
        """Tell whether the cell holds whichever word that is left comes true."""
        return self.words.issuperset(_words_left(value))


Cell = NumberCell | ChoiceCell


def any_cell(column: Column) -> Cell:
    """Give the cell that admits everything."""
    if isinstance(column, NumberColumn):
        return NumberCell((column.span,), "any")
    return ChoiceCell(frozenset(column.words), "any")


def parse_cell(text: str, column: Column, place: Place | None) -> Cell | Problem:
    """Read one cell.

    Parameters
    ----------
    text
        The cell as written: ``any``, ``street, track``, ``not street``, ``under 10 psi``,
        ``over 0.7 to 1.4 bar``, ``[5 psi .. 15 psi)``, ``8 mm`` and the like.
    column
        The column it stands in.
    place
        Where it stands.

    Returns
    -------
    Cell or Problem
        What the cell admits, or what is wrong with it and how to write it.
    """
    try:
        return _read(text.strip(), column)
    except BorewrightError as error:
        shown = text if len(text) <= _SHOWN else f"{text[:_SHOWN]}…"
        what = f"{column.name} {shown!r}: {error.problem.rstrip('.')} ({error.reason})"
        return Problem(what, error.remedy, place)


@lru_cache(maxsize=4096)
def _read(text: str, column: Column) -> Cell:
    """Read a cell; the same words in the same column come up row after row."""
    if isinstance(column, NumberColumn):
        return NumberCell(read_number_cell(text, column), text)
    return ChoiceCell(_read_words(text, column), text)


def _read_words(text: str, column: ChoiceColumn) -> frozenset[str]:
    everything = frozenset(column.words)
    if text in ("any", "-"):
        return everything
    if found := _NOT.fullmatch(text):
        inside = found[1] if found[1] is not None else found[2]
        left = everything - _listed(inside, column)
        if not left:
            raise BadCell(
                problem="no word is left.",
                reason=f"{column.name} is one of {', '.join(column.words)}; all are ruled out.",
                remedy="Name fewer words after not, or take the row out.",
            )
        return left
    return _listed(text, column)


def _listed(text: str, column: ChoiceColumn) -> frozenset[str]:
    """Read words with commas between them; each must be one of the column's."""
    words = [each.strip().strip('"') for each in text.split(",")]
    for word in words:
        if word not in column.words:
            raise _unknown_word(word, column)
        if words.count(word) > 1:
            raise BadCell(
                problem=f"{word} stands twice.",
                reason="One of the two was probably meant to be another word.",
                remedy=f"Name each once; allowed: {', '.join(column.words)}.",
            )
    return frozenset(words)


def _unknown_word(word: str, column: ChoiceColumn) -> BadCell:
    allowed = ", ".join(column.words)
    offer = nearest(word, column.words)
    parts = _OTHER_COMMAS.split(word)
    remedy = f"Use any of: {allowed}."
    if len(parts) > 1 and all(part in column.words for part in parts):
        remedy = f'Put commas between words: "{", ".join(parts)}".'
    elif word.startswith(("!=", "<>")):
        remedy = f"Write not {word[2:].strip()}."
    elif offer:
        remedy = f"Did you mean {offer}? Allowed: {allowed}."
    return BadCell(
        problem=f"{word[:_SHOWN]!r} is not a word of {column.name}."
        if word
        else "a word is missing.",
        reason="A row for a word that never comes up could not answer.",
        remedy=remedy,
    )


def _stretch(value: float | Interval) -> Span:
    if isinstance(value, Interval):
        return Span(round_significant(value.low), round_significant(value.high))
    rounded = round_significant(value)
    return Span(rounded, rounded)


def _words_left(value: str | OneOf) -> tuple[str, ...]:
    return value.words if isinstance(value, OneOf) else (value,)
