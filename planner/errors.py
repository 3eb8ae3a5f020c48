"""Every error a user may see, each told in three parts: what, why, what to do."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, NamedTuple

if TYPE_CHECKING:
    from typing_extensions import override as override
else:  # typing has it only from Python 3.12 on, and the package that lends it is slow to open

    def override(method):  # noqa: ANN001, ANN201 - the checker sees the other one
        """Mark a method that replaces its parent's; here it does nothing."""
        return method


class Place(NamedTuple):
    """A spot in a file, counted from 1 as editors count."""

    file: str
    line: int
    column: int

    @override
    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing found wrong, or to be asked, with its fix and where it stands."""

    what: str
    fix: str
    place: Place | None = None
    kind: Literal["error", "question"] = "error"

    @override
    def __str__(self) -> str:
        where = f"{self.place}: " if self.place else ""
        return f"{where}{self.kind}: {self.what}\n  fix: {self.fix}"


class BorewrightError(Exception):
    """The parent of every error meant for a person.

    Parameters
    ----------
    problem
        What was found, with the value and where it stands.
    reason
        Why that stops the work.
    remedy
        What to do about it.
    """

    def __init__(self, *, problem: str, reason: str, remedy: str) -> None:
        super().__init__(problem)
        self.problem = problem
        self.reason = reason
        self.remedy = remedy

    @override
    def __str__(self) -> str:
        return f"{self.problem}\n  Why: {self.reason}\n  Do:  {self.remedy}"

    def at(self, place: Place | None) -> Problem:
        """Turn the error into a problem at a place in a file."""
        return Problem(f"{self.problem} ({self.reason})", self.remedy, place)


class ProblemsFound(BorewrightError):
    """All the problems of one run, in the order they stand in the files.

    ``readable`` is what could be read all the same, for a caller that goes on to report what
    else is wrong; nothing when the file could not be followed to its end.
    """

    def __init__(self, problems: Iterable[Problem], readable: object = None) -> None:
        self.readable = readable
        nowhere = Place("", 0, 0)
        self.problems = tuple(sorted(problems, key=lambda each: each.place or nowhere))
        count = len(self.problems)
        super().__init__(
            problem=f"{count} problem{'' if count == 1 else 's'} found.",
            reason="A plan made from a faulty file would give wrong figures.",
            remedy="Correct each one as its fix says and run the command again.",
        )

    @override
    def __str__(self) -> str:
        return "\n".join(str(each) for each in self.problems)


class OutsideValidity(BorewrightError):
    """A formula was asked about something outside the range it holds for."""


class NotANumber(BorewrightError):
    """Text that should be a number is none, or could be read two ways."""


class UnknownUnit(BorewrightError):
    """A unit that is not in the unit table."""


class MissingUnit(BorewrightError):
    """A number stands alone where it must carry a unit."""


class WrongDimension(BorewrightError):
    """A value in a unit of another sort, such as kilograms for a length."""


class KindClash(BorewrightError):
    """Two values of one unit that may not be mixed, such as gauge and absolute."""


class BadSignature(BorewrightError):
    """A formula and its registered signature do not agree."""


class UnknownFormula(BorewrightError):
    """A rule names a formula that is not registered."""


class DataNotFound(BorewrightError):
    """The rules or catalogs that ship with the program are not where they should be."""


def nearest(word: str, allowed: Iterable[str]) -> str | None:
    """Offer the allowed word most like the one written, or None when none is close.

    Parameters
    ----------
    word
        The word as written.
    allowed
        The words that would have been right.

    Returns
    -------
    str or None
        The nearest allowed word.

    Examples
    --------
    >>> nearest("piston_to_wal", ["pin_wall", "piston_to_wall"])
    'piston_to_wall'
    >>> nearest("teapot", ["bore", "stroke"])
    """
    from difflib import get_close_matches  # only when something is wrong

    by_plain = {each.casefold(): each for each in sorted(allowed, reverse=True)}
    found = get_close_matches(word.casefold(), by_plain, n=1, cutoff=0.6)
    return by_plain[found[0]] if found else None
