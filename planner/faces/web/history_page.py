"""Handlers of the history: who changed what, and bringing an old state back as a new one."""

from starlette.responses import PlainTextResponse, Response

from planner.errors import BorewrightError
from planner.faces.web.bench import Ask, Bench, onwards
from planner.models.history import Revision

_LONGEST = 160


class NoSuchRevisionError(BorewrightError):
    """A revision that a job does not have."""


def history_page(bench: Bench, ask: Ask) -> Response:
    """List the revisions, the newest first."""
    job = bench.store.job(ask.name)
    revisions = bench.store.revisions(ask.name)
    return bench.job_page(
        ask,
        "history",
        job,
        title="History",
        here="history",
        revisions=[*reversed(revisions)],
        short=_short,
    )


def revision_text(bench: Bench, ask: Ask) -> Response:
    """Hand a job file out as a revision left it."""
    found = _revision(bench, ask, ask.path["number"])
    return PlainTextResponse(found.text)


def bring_back(bench: Bench, ask: Ask) -> Response:
    """Bring an old state back; it becomes the newest revision, and none is lost."""
    found = _revision(bench, ask, ask.said("number"))
    entry = bench.entry(ask, f"brought back revision {found.number}")
    bench.store.add(ask.name, found.text, bench.base(ask), entry)
    return onwards(f"/job/{ask.name}/history")


def _revision(bench: Bench, ask: Ask, said: str) -> Revision:
    revisions = bench.store.revisions(ask.name)
    for each in revisions:
        if str(each.number) == said:
            return each
    raise NoSuchRevisionError(
        problem=f"{ask.name} has no revision {said[:20]!r}.",
        reason=f"It has {len(revisions)}.",
        remedy="Choose one from its history.",
    )


def _short(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]}…"
