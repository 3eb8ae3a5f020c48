"""The impact of a change of the rules, as text, CSV and JSON; one job in memory at a time."""

import csv
import io
import json
from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass, field

from planner.models.impact import Cause, JobImpact, Moved
from planner.sheets.layout import WIDTH, wrapped

COLUMNS = ("job", "about", "id", "title", "before", "after", "rule", "at", "row", "was_at")
_HEADS = {
    "decision": "DECISIONS",
    "operation": "OPERATIONS",
    "part": "PARTS",
    "cost": "PRICE",
}


@dataclass(slots=True)
class _Tally:
    """What is told of one thing that moves: in how many jobs, and the first of them."""

    first: Moved
    job: str
    jobs: int = 0
    causes: dict[Cause, None] = field(default_factory=dict)


def impact_text(found: Iterable[JobImpact], titles: tuple[str, str]) -> str:
    """Sum the impact up: what moves in how many jobs, with one example and the rules behind it.

    Parameters
    ----------
    found
        The result of each job.
    titles
        How to call the old and the new rules.

    Returns
    -------
    str
        Lines of at most eighty columns.
    """
    jobs = changed = 0
    problems: list[str] = []
    tallies: dict[tuple[str, str], _Tally] = {}
    for each in found:
        jobs += 1
        changed += bool(each.moved)
        if each.problem:
            problems.append(f"{each.job}: {each.problem.splitlines()[0]}")
        for moved in each.moved:
            _count(tallies, moved, each.job)
    lines = [*wrapped(f"{titles[0]} -> {titles[1]}", "", "IMPACT  "), "=" * WIDTH]
    lines.append(f"{jobs} jobs: {changed} change, {jobs - changed - len(problems)} stay the same")
    for about, head in _HEADS.items():
        lines += _section(head, [each for key, each in tallies.items() if key[0] == about])
    if problems:
        lines += ["", "NOT COMPARED"]
        lines += [line for each in problems[:20] for line in wrapped(each, "", "  ")]
        lines += [f"  and {len(problems) - 20} more"] if len(problems) > 20 else []
    return "\n".join(lines) + "\n"


def _count(tallies: dict[tuple[str, str], _Tally], moved: Moved, job: str) -> None:
    tally = tallies.setdefault((moved.about, moved.id), _Tally(moved, job))
    tally.jobs += 1
    if len(tally.causes) < 8:
        tally.causes.update(dict.fromkeys(moved.causes))


def _section(head: str, tallies: list[_Tally]) -> Iterator[str]:
    if not tallies:
        return
    yield from ("", head)
    groups: dict[tuple[Cause, ...], list[_Tally]] = {}
    for each in sorted(tallies, key=lambda one: -one.jobs):
        groups.setdefault(tuple(each.causes), []).append(each)
    for causes, group in groups.items():
        for each in group:
            yield from wrapped(_example(each), "", f"{each.first.id.replace('_', ' ')}: ")
        for cause in causes:
            yield from wrapped(_cause(cause), "    ", "by ")


def _example(tally: _Tally) -> str:
    jobs = "1 job" if tally.jobs == 1 else f"{tally.jobs} jobs"
    return f"{jobs}; {tally.job}: {tally.first.before} -> {tally.first.after}"


def _cause(cause: Cause) -> str:
    stands = cause.at or (f"{cause.was_at}, now gone" if cause.was_at else "")
    return " ".join(part for part in (cause.rule, stands, cause.row or cause.was_row) if part)


def impact_csv(found: Iterable[JobImpact]) -> Iterator[str]:
    """Write the impact as CSV, a line for each thing that moves and each rule behind it."""
    yield _row(COLUMNS)
    for each in found:
        if each.problem:
            yield _row((each.job, "problem", "", each.problem.splitlines()[0], *[""] * 6))
        for moved in each.moved:
            told = (each.job, moved.about, moved.id, moved.title, moved.before, moved.after)
            for cause in moved.causes or (Cause(""),):
                yield _row((*told, cause.rule, cause.at, cause.row, cause.was_at))


def _row(cells: Iterable[str]) -> str:
    line = io.StringIO()
    csv.writer(line, lineterminator="").writerow(cells)
    return line.getvalue()


def impact_json(found: Iterable[JobImpact], titles: tuple[str, str]) -> Iterator[str]:
    """Write the impact as one JSON document, job by job."""
    head = {"schema": "borewright.impact/1", "old": titles[0], "new": titles[1]}
    yield f'{json.dumps(head)[:-1]}, "jobs": ['
    before = ""
    for each in found:
        yield f"{before}{json.dumps(asdict(each), allow_nan=False)}"
        before = ","
    yield "]}"
