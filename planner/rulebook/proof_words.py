"""The words in which a table's faults are told to whoever wrote it."""

from collections.abc import Sequence

from planner.errors import Place, Problem
from planner.rulebook.cases import Case
from planner.rulebook.hits import Hit
from planner.rulebook.tables import Row

SHOWN_LINES = 5


def overlap_problems(hit: Hit, pairs: Sequence[tuple[Row, Row, Case]], more: int) -> list[Problem]:
    """Tell of rows at odds, each pair at its later row."""
    odds, fix = _OVERLAP[hit is Hit.ANY]
    found = [
        Problem(f"this row and {_rows([first])} both answer {case.words}{odds}", fix, second.place)
        for first, second, case in pairs
    ]
    if more:
        plural = "s" if more > 1 else ""
        what = f"{more} more pair{plural} of rows of this table meet{'' if plural else 's'}{odds}"
        found.append(Problem(what, "cut the rows named above first", pairs[-1][1].place))
    return found


_OVERLAP = {
    False: (
        "",
        "under hit: unique each case has one row: cut one of the two, "
        "or write hit: first and put the special row above the general one",
    ),
    True: (
        " and say different things",
        "under hit: any rows that meet must say the same: make them agree, or cut one of the two",
    ),
}


def gap_problem(case: Case, place: Place | None) -> Problem:
    """Tell of a case without a row."""
    cells = f"{case.cells}, …" if case.cells else "…"
    return Problem(
        f"no row answers {case.words}",
        f"widen a row next to it, or add a row {{{cells}}} "
        "with its result, or with impossible: and the reason",
        place,
    )


def dead_problem(hit: Hit, row: Row, because: Sequence[Row]) -> Problem:
    """Tell of a row that never answers."""
    winners = _rows(because)
    takes = "take" if len(because) > 1 else "takes"
    if hit is Hit.PRIORITY:
        what = f"this row is never reached: {winners} {takes} all its cases, and win over it"
        fix = "take the row out, or narrow the rows that win over it"
    elif hit is Hit.ANY:
        what = f"this row adds nothing: {winners} already {takes} all its cases"
        fix = "take the row out, or widen it to cases that no other row has"
    else:
        what = f"this row is never reached: {winners} above it {takes} all its cases"
        fix = "move the row above them, or take it out"
    return Problem(what, fix, row.place)


def tangled(count: int, place: Place | None) -> Problem:
    """Tell of a table whose proof was given up."""
    return Problem(
        f"the {count} rows of this table cross each other too often to be proved",
        "split the table in two decisions, or end it with a row of any cells under hit: first",
        place,
    )


def _rows(rows: Sequence[Row]) -> str:
    """Name rows by their lines; of many, the first few."""
    lines = [str(row.place.line) for row in rows]
    if len(lines) > SHOWN_LINES:
        lines[SHOWN_LINES - 1 :] = [f"{len(lines) - SHOWN_LINES + 1} more"]
    *others, last = lines
    if not others:
        return f"the row at line {last}"
    return f"the rows at lines {', '.join(others)} and {last}"
