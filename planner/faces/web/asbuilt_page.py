"""Handlers of the as-built page: what the finished engine measures, judged as it is typed in."""

from collections.abc import Iterator, Mapping
from datetime import datetime

from starlette.responses import Response

from planner.datafiles.reader import read_yaml_text
from planner.datafiles.splice import Plain, spliced
from planner.errors import Problem, ProblemsFound
from planner.faces.web.bench import Ask, Bench, onwards
from planner.models.asbuilt import FitDoc, Verification
from planner.planning.history import code_of
from planner.planning.verification import verify_node

PREFIX = "b"


def asbuilt_page(bench: Bench, ask: Ask) -> Response:
    """Show what is measured of the finished engine, with verdicts and cures."""
    job = bench.store.job(ask.name)
    return bench.job_page(
        ask,
        "asbuilt",
        job,
        title="As built",
        here="asbuilt",
        verification=_verified(bench, job.text),
        today=datetime.now().astimezone().date().isoformat(),
    )


def save_asbuilt(bench: Bench, ask: Ask) -> Response:
    """Take readings of the finished engine into the job, with who and when."""
    job = bench.store.job(ask.name)
    entry = bench.entry(ask, "as built")
    fits = {each.id: each for each in _verified(bench, job.text).fits}
    text = job.text
    signed = {"by": entry.who, "on": ask.said("on")}
    for fit, readings in _typed(ask.form, fits).items():
        for path, value in _edits(fits[fit], readings, signed):
            text = spliced(text, ("as_built", fit, *path), value)
    bench.workshop.reading(text)
    _verified(bench, text)
    bench.store.add(ask.name, text, bench.base(ask), entry)
    return onwards(f"/job/{ask.name}/asbuilt")


def _verified(bench: Bench, text: str) -> Verification:
    key = ("verified", code_of(text))
    root = read_yaml_text(text, "job")
    return bench.workshop.once(
        key, lambda: verify_node(root, bench.workshop.rulebook)
    ).verification


def _typed(
    form: tuple[tuple[str, str], ...], fits: Mapping[str, FitDoc]
) -> dict[str, dict[str, float]]:
    """Return the figures that were filled in, by fit and item.

    Raises
    ------
    ProblemsFound
        With every box that holds no figure.
    """
    found: dict[str, dict[str, float]] = {}
    problems: list[Problem] = []
    for key, value in form:
        lead, _, rest = key.partition("|")
        fit, _, item = rest.partition("|")
        text = value.strip().replace(",", ".")
        known = fit in fits and item in {each.item for each in fits[fit].items}
        if lead != PREFIX or not text or not known:
            continue
        try:
            found.setdefault(fit, {})[item] = float(text)
        except ValueError:
            what = f"{fit} {item}: {value[:40]!r} is no figure"
            problems.append(Problem(what, f"type the figure alone, in {fits[fit].unit or 'it'}"))
    if problems:
        raise ProblemsFound(problems)
    return found


def _edits(
    fit: FitDoc, readings: Mapping[str, float], signed: Mapping[str, str]
) -> Iterator[tuple[tuple[str, ...], Plain]]:
    if fit.unit:
        yield ("unit",), fit.unit
    for key, value in signed.items():
        if value:
            yield (key,), value
    for item, figure in readings.items():
        yield (("readings", item) if item else ("value",)), figure
