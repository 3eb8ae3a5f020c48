"""Handlers of the goals page: the plan that moves with the goals, why, compare, save."""

from collections.abc import Iterable, Mapping
from functools import partial
from typing import Any
from urllib.parse import parse_qsl

from markupsafe import Markup
from starlette.responses import HTMLResponse, Response

from planner.errors import Problem, ProblemsFound
from planner.faces.web.bench import Ask, Bench, address, onwards
from planner.faces.web.cells import FOREMOST, cells_of, changed_cells, groups_of, titles_of
from planner.faces.web.goals import (
    elsewhere,
    goal_fields,
    goals_of,
    next_steps,
    query_of,
    settings_of,
    with_goals,
)
from planner.faces.web.pages import template
from planner.faces.web.workshop import Settings
from planner.planning.compare import compare
from planner.planning.history import code_of
from planner.rulebook.flips import flips
from planner.sheets.compare_text import compare_text
from planner.sheets.flips_text import flips_text
from planner.sheets.why_text import decision_text, operation_text
from planner.store.keeping import Kept

_MOST_TOLD = 6
_NO_MOVES = "It has no inputs that move it."
_BLOCKS = ("conflicts", "cautions", "questions", "missing", "work", "stand", "price", "days")


def goals_page(bench: Bench, ask: Ask) -> Response:
    """Show the goals, and the plan they lead to."""
    job = bench.store.job(ask.name)
    settings = settings_of(ask.query, job.text, bench.workshop.rulebook)
    return _page(bench, ask, job, settings)


def _page(bench: Bench, ask: Ask, job: Kept, settings: Settings, status: int = 200) -> Response:
    rulebook = bench.workshop.rulebook
    problems: tuple[Problem, ...] = ()
    cells: Mapping[str, Markup] = {}
    plan = None
    try:
        plan = bench.workshop.explained(job.text, settings).plan
        cells = _cells(bench, job.text, settings)
    except ProblemsFound as found:
        problems = found.problems
    first, rest = goals_of(job.text, settings, rulebook, problems)
    return bench.job_page(
        ask,
        "goals",
        job,
        status=status,
        title="Goals",
        here="goals",
        first=first,
        rest=rest,
        settings=settings,
        shown=address("", query_of(settings)),
        compare=_compare_address(job, settings),
        cells=cells,
        problems=elsewhere(problems, rulebook),
        told="",
        groups=groups_of(plan) if plan else [],
        fore=[(each, plan.decisions[each].title) for each in FOREMOST if each in plan.decisions]
        if plan
        else [],
    )


def moved_cells(bench: Bench, ask: Ask) -> Response:
    """Answer a moved goal with the cells that changed, and no others."""
    job = bench.store.job(ask.name)
    rulebook = bench.workshop.rulebook
    settings = settings_of(ask.query, job.text, rulebook)
    try:
        after = _cells(bench, job.text, settings)
    except ProblemsFound as found:
        return _moved(bench, job, settings, found.problems, shown=ask.said("shown"))
    was = _shown(bench, ask, job)
    changed = changed_cells(_before(bench, job, was), after)
    answer = _moved(bench, job, settings, (), cells=changed)
    for each in next_steps(was, settings, rulebook):
        bench.ahead.wish(partial(_cells, bench, job.text, each))
    answer.headers["HX-Replace-Url"] = address(f"/job/{job.name}/goals", query_of(settings))
    return answer


def _shown(bench: Bench, ask: Ask, job: Kept) -> Settings:
    """Return the settings that the page shows now."""
    pairs = parse_qsl(ask.said("shown").removeprefix("?"), keep_blank_values=True)
    return settings_of(pairs, job.text, bench.workshop.rulebook)


def _before(bench: Bench, job: Kept, shown: Settings) -> Mapping[str, Markup]:
    """Return the cells that the page shows; none when it cannot be told, so all are sent."""
    try:
        return _cells(bench, job.text, shown)
    except ProblemsFound:
        return {}


def _moved(
    bench: Bench,
    job: Kept,
    settings: Settings,
    problems: Iterable[Problem],
    *,
    cells: Mapping[str, Markup] | None = None,
    shown: str | None = None,
) -> Response:
    rulebook, wrong = bench.workshop.rulebook, tuple(problems)
    first, rest = goals_of(job.text, settings, rulebook, wrong)
    told = "These goals cannot be worked out; the plan below is the one before."
    if cells is not None:
        told = _told(bench, job, settings, cells)
    text = template("moved").render(
        cells=cells or {},
        plain=_BLOCKS,
        shown=address("", query_of(settings)) if shown is None else shown,
        told=told,
        settings=settings,
        compare=_compare_address(job, settings),
        problems=elsewhere(wrong, rulebook),
        fields=[*first, *rest],
    )
    return HTMLResponse(text)


def _told(bench: Bench, job: Kept, settings: Settings, cells: Mapping[str, Markup]) -> str:
    """Say in one line what moved, for who does not see it move."""
    plan = bench.workshop.explained(job.text, settings).plan
    titles = titles_of(plan, cells)
    if not titles:
        return "No answer changed." if not cells else "Reasons changed; no answer did."
    more = f", and {len(titles) - _MOST_TOLD} more" if len(titles) > _MOST_TOLD else ""
    return f"Changed: {', '.join(titles[:_MOST_TOLD])}{more}."


def why_page(bench: Bench, ask: Ask) -> Response:
    """Say why a decision or an operation came out as it did, and what would change it."""
    job = bench.store.job(ask.name)
    settings = settings_of(ask.query, job.text, bench.workshop.rulebook)
    asked = bench.workshop.explained(job.text, settings)
    name = ask.path["what"]
    step = asked.step(name)
    told, moves = "", ""
    if asked.is_decision(name) or step is None:
        lines = asked.decision(name, asked.steps.names.system, deep=True)
        told = decision_text(lines, asked.advice(name), asked.cautions(name), "builder")
    if name in asked.results.rulebook.decisions:
        key = ("flips", code_of(job.text), settings, name)
        moves = bench.workshop.once(
            key, lambda: flips_text(asked.results, name, flips(asked.results, name))
        )
    if step is not None:
        numbers = {each.id: each.step for each in asked.plan.operations}
        told += operation_text(step, numbers, asked.afterwards(name), "machinist")
    shown: dict[str, Any] = {"name": name, "why": told, "flips": moves or _NO_MOVES}
    if ask.part:
        return HTMLResponse(template("why_part").render(**shown))
    back = address(f"/job/{job.name}/goals", query_of(settings))
    return bench.job_page(ask, "why", job, title="Why", here="goals", back_to=back, **shown)


def compare_page(bench: Bench, ask: Ask) -> Response:
    """Say what these goals change against the saved version."""
    job = bench.store.job(ask.name)
    settings = settings_of(ask.query, job.text, bench.workshop.rulebook)
    old, new = (bench.workshop.explained(job.text, each) for each in ((), settings))
    told = compare_text(compare(old, new, ("saved version", "these goals")))
    back = address(f"/job/{job.name}/goals", query_of(settings))
    return bench.job_page(
        ask, "compare", job, title="Compare", here="goals", told=told, back_to=back
    )


def save_goals(bench: Bench, ask: Ask) -> Response:
    """Write the goals of the form into the job, as a new revision."""
    job = bench.store.job(ask.name)
    base = bench.base(ask)
    began = job.text
    if base != job.number:
        began = next((x.text for x in bench.store.revisions(ask.name) if x.number == base), began)
    settings = settings_of(ask.form, began, bench.workshop.rulebook)
    try:
        bench.workshop.reading(began, settings)
        text = with_goals(began, settings)
    except ProblemsFound:
        return _page(bench, ask, job, settings, 422)
    bench.store.add(ask.name, text, base, bench.entry(ask, "goals"))
    return onwards(f"/job/{ask.name}/goals")


def _cells(bench: Bench, text: str, settings: Settings) -> Mapping[str, Markup]:
    goals = frozenset(each.name for each in goal_fields(bench.workshop.rulebook).values())
    return bench.workshop.once(
        ("cells", code_of(text), settings),
        lambda: cells_of(bench.workshop.explained(text, settings).plan, goals),
    )


def _compare_address(job: Kept, settings: Settings) -> str:
    return address(f"/job/{job.name}/compare", query_of(settings))
