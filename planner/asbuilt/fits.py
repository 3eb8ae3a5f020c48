"""What is measured of a finished engine, and the ways to put right what fails: the catalogs."""

from collections.abc import Mapping
from functools import partial

from planner.errors import Place, Problem, ProblemsFound, nearest
from planner.records import record
from planner.rulebook.syntax import Rulebook, StockRow
from planner.rulebook.values import Names, Value

METALS = ("none", "exchange", "polish", "hone", "cut", "replace")
"""Least metal first."""

WHOLE = "whole"
TYPED = "typed"
ACCEPTED = "accepted"
"""Key of the job under which somebody signs for what is not proved."""


@record
class Fit:
    """One thing measured; see `rules/asbuilt.yaml` for the fields."""

    id: str
    says: str
    limits: str
    side: str
    set: str
    reads: str
    sources: tuple[str, ...]
    sure: str
    plain: bool
    clearance: bool
    at: tuple[str, ...]
    place: Place


@record
class Correction:
    """One way to put something right; see `rules/asbuilt.yaml` for the fields."""

    id: str
    fits: tuple[str, ...]
    side: str
    metal: str
    rank: float
    says: str
    repeat_from: tuple[str, ...]
    only_with: tuple[str, ...]
    place: Place

    @property
    def order(self) -> tuple[int, float, str]:
        """Sort key: least metal first."""
        return METALS.index(self.metal), self.rank, self.id


def fit_names(rulebook: Rulebook) -> tuple[str, ...]:
    """Return the names that readings of the finished engine may stand under in a job."""
    return tuple(_rows(rulebook, "fits"))


def read_fits(rulebook: Rulebook) -> dict[str, Fit]:
    """Return what is measured, in the catalog's order; nothing when the rulebook has no fits.

    Raises
    ------
    ProblemsFound
        For every name in a row that the rulebook does not know.
    """
    fits = {name: _fit(name, row) for name, row in _rows(rulebook, "fits").items()}
    problems = [each for fit in fits.values() for each in _fit_problems(fit, fits, rulebook)]
    if problems:
        raise ProblemsFound(problems)
    return fits


def read_corrections(rulebook: Rulebook) -> tuple[Correction, ...]:
    """Return the ways to put things right, least metal first.

    Raises
    ------
    ProblemsFound
        For every name in a row that the rulebook does not know.
    """
    rows = _rows(rulebook, "corrections")
    found = sorted((_correction(*each) for each in rows.items()), key=lambda each: each.order)
    fits = set(_rows(rulebook, "fits"))
    problems = [each for row in found for each in _correction_problems(row, fits, rulebook)]
    if problems:
        raise ProblemsFound(problems)
    return tuple(found)


def _rows(rulebook: Rulebook, stock: str) -> Mapping[str, StockRow]:
    declared = rulebook.stocks.get(stock)
    return {} if declared is None else rulebook.stock_rows.get(declared.catalog, {})


def _names(values: Mapping[str, Value], name: str) -> tuple[str, ...]:
    value = values.get(name)
    return value.called if isinstance(value, Names) else ()


def _fit(name: str, row: StockRow) -> Fit:
    names = partial(_names, row.values)
    return Fit(
        id=name,
        says=", ".join(names("says")),
        limits=names("limits")[0],
        side=str(row.values["side"]),
        set=str(row.values["set"]),
        reads=str(row.values["reads"]),
        sources=names("from"),
        sure=names("sure")[0],
        plain=row.values["accept"] == "plain",
        clearance=row.values["clearance"] == "yes",
        at=names("at"),
        place=row.place,
    )


def _correction(name: str, row: StockRow) -> Correction:
    names, rank = partial(_names, row.values), row.values["rank"]
    return Correction(
        id=name,
        fits=names("fits"),
        side=str(row.values["side"]),
        metal=str(row.values["metal"]),
        rank=rank if isinstance(rank, int | float) else 0.0,
        says=" ".join(names("says")),
        repeat_from=names("repeat_from"),
        only_with=names("only_with"),
        place=row.place,
    )


def _fit_problems(fit: Fit, fits: Mapping[str, Fit], rulebook: Rulebook) -> list[Problem]:
    known = {*rulebook.results, *rulebook.decisions, *rulebook.inputs, *rulebook.records}
    names = (fit.limits.partition(".")[0], fit.sure)
    wrong = [_unknown(fit.id, each, known, fit.place) for each in names if each not in known]
    wrong += [
        _unknown(fit.id, each, set(fits), fit.place) for each in fit.sources if each not in fits
    ]
    operations = rulebook.operations
    wrong += [
        _unknown(fit.id, each, set(operations), fit.place)
        for each in fit.at
        if each not in operations
    ]
    return wrong


def _correction_problems(row: Correction, fits: set[str], rulebook: Rulebook) -> list[Problem]:
    wrong = [_unknown(row.id, each, fits, row.place) for each in row.fits if each not in fits]
    operations = set(rulebook.operations)
    wrong += [
        _unknown(row.id, each, operations, row.place)
        for each in row.repeat_from
        if each not in operations
    ]
    return wrong


def _unknown(row: str, name: str, known: set[str], place: Place) -> Problem:
    offer = nearest(name, known)
    fix = f"did you mean {offer}?" if offer else "write a name of the rulebook"
    return Problem(f"{row} names {name!r}, which nobody knows", fix, place)
