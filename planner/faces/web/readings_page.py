"""Handlers of the readings: grids at the machine, questions at once, tables pasted or sent."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path

from starlette.responses import HTMLResponse, Response

from planner.datafiles.reader import read_yaml_text
from planner.errors import Problem, ProblemsFound
from planner.faces.web.bench import Ask, Bench, address, onwards
from planner.faces.web.bore_pictures import Drawn, bores_drawn
from planner.faces.web.grids import (
    Grid,
    Sent,
    counts_of,
    filled_keys,
    grids_of,
    label_of,
    sent_of,
)
from planner.faces.web.pages import template
from planner.faces.web.workshop import on_a_copy
from planner.planning.taking_readings import Taken, take_readings
from planner.rulebook.syntax import Field
from planner.store.keeping import Kept
from planner.teardown.asked import Asked
from planner.teardown.blank import components

TABLE = "sent.csv"


@dataclass(frozen=True, slots=True)
class Checked:
    """What was found of what was typed.

    Attributes
    ----------
    text
        The job with the readings in it; as it was when they cannot be taken.
    questions
        Readings that can hardly be right, and were not asked about before.
    problems
        Figures that cannot be read, each with the box it stands in.
    """

    text: str
    taken: Taken | None = None
    questions: tuple[Problem, ...] = ()
    problems: tuple[tuple[str, Problem], ...] = ()
    lacking: tuple[str, ...] = ()
    pictures: tuple[Drawn, ...] = ()


def readings_page(bench: Bench, ask: Ask) -> Response:
    """Show the grids of one component."""
    job = bench.store.job(ask.name)
    return _page(bench, ask, job, Checked(job.text))


def check_readings(bench: Bench, ask: Ask) -> Response:
    """Look at what is typed so far, and write nothing."""
    job = bench.store.job(ask.name)
    _, fields, asked = _component(bench, ask, job)
    typed = dict(filled_keys(ask.form))
    checked = _checked(bench, job.text, sent_of(grids_of(asked, fields), typed))
    return HTMLResponse(template("checked").render(checked=checked, label=label_of))


def save_readings(bench: Bench, ask: Ask) -> Response:
    """Take what was typed into the job; what cannot be taken stays in its boxes."""
    job = bench.store.job(ask.name)
    part, fields, asked = _component(bench, ask, job)
    typed = dict(filled_keys(ask.form))
    sent = sent_of(grids_of(asked, fields), typed)
    checked = _checked(bench, job.text, sent)
    if checked.problems or (sent.lacking and not sent.keys):
        return _page(bench, ask, job, checked, typed=typed, status=422)
    if checked.text != job.text or bench.base(ask) != job.number:
        entry = bench.entry(ask, f"readings: {part}")
        bench.store.add(ask.name, checked.text, bench.base(ask), entry)
    if sent.lacking:
        return _page(bench, ask, bench.store.job(ask.name), checked, typed=typed)
    return onwards(address(f"/job/{ask.name}/readings", [("part", part), ("saved", "1")]))


def take_table(bench: Bench, ask: Ask) -> Response:
    """Take a table that was pasted or sent as a file."""
    job = bench.store.job(ask.name)
    upload = ask.uploads.get("file")
    raw = upload.data if upload and upload.data else ask.said("table").encode("utf-8")
    entry = bench.entry(ask, "readings from a table")
    text, _ = _taken(bench, job.text, raw, ask.said("reading"))
    bench.store.add(ask.name, text, bench.base(ask), entry)
    return onwards(address(f"/job/{ask.name}/readings", [("part", ask.said("part"))]))


def _page(
    bench: Bench,
    ask: Ask,
    job: Kept,
    checked: Checked,
    *,
    typed: dict[str, str] | None = None,
    status: int = 200,
) -> Response:
    part, fields, asked = _component(bench, ask, job)
    grids = grids_of(asked, fields, typed)
    reading = bench.workshop.reading(job.text)
    parts = components(asked, "released")
    return bench.job_page(
        ask,
        "readings",
        job,
        status=status,
        title="Readings",
        here="readings",
        part=part,
        parts=counts_of(asked, parts),
        grids=grids,
        quiet=replace(checked, pictures=()),
        label=label_of,
        doubts=[each for each in reading.doubts if _is_about(each, fields)],
        saved=not ask.form and ask.said("saved") == "1",
        pictures=bores_drawn(reading, asked) if _has_bores(grids) else (),
    )


def _component(bench: Bench, ask: Ask, job: Kept) -> tuple[str, list[Field], Asked]:
    """Return the component asked for, what is measured on it, and the job."""
    reading = bench.workshop.reading(job.text)
    asked = Asked(bench.workshop.rulebook, reading.facts, read_yaml_text(job.text, "job"))
    parts = components(asked, "released")
    part = ask.said("part")
    if part not in parts:
        part = next(iter(parts))
    return part, parts[part], asked


def _checked(bench: Bench, text: str, sent: Sent) -> Checked:
    if not sent.keys:
        return Checked(text, lacking=sent.lacking)
    before = bench.workshop.reading(text)
    try:
        after, taken = _taken(bench, text, sent.table.encode("utf-8"), "")
    except ProblemsFound as found:
        placed = tuple((_key(each, sent.keys), each) for each in found.problems)
        return Checked(text, problems=placed, lacking=sent.lacking)
    known = {each.what for each in before.doubts}
    reading = bench.workshop.reading(after)
    asked = Asked(bench.workshop.rulebook, reading.facts, read_yaml_text(after, "job"))
    drawn = bores_drawn(reading, asked) if any("|bores|" in key for key in sent.keys) else ()
    return Checked(
        after,
        taken=taken,
        questions=tuple(each for each in taken.doubts if each.what not in known),
        lacking=sent.lacking,
        pictures=drawn,
    )


def _taken(bench: Bench, text: str, raw: bytes, reading: str) -> tuple[str, Taken]:
    def work(path: Path) -> Taken:
        table = path.with_name(TABLE)
        table.write_bytes(raw)
        return take_readings(path, table, bench.workshop.rulebook, reading)

    return on_a_copy(text, work)


def _key(problem: Problem, keys: tuple[str, ...]) -> str:
    """Find the box that a problem of the table stands in."""
    place = problem.place
    if place is None or not place.file.endswith(TABLE) or not 2 <= place.line <= len(keys) + 1:
        return ""
    return keys[place.line - 2]


def _is_about(doubt: Problem, fields: Iterable[Field]) -> bool:
    return any(doubt.what.startswith((each.job, each.name)) for each in fields)


def _has_bores(grids: Iterable[Grid]) -> bool:
    return any(each.name == "bores" for each in grids)
