"""Handlers of the list of jobs, of names and passphrase, and of the backup."""

from dataclasses import dataclass, replace

from starlette.responses import Response

from planner.errors import BorewrightError
from planner.faces.web.bench import Ask, Bench, onwards
from planner.faces.web.people import plain_name
from planner.planning.starter import starter_job
from planner.store.backup import backup
from planner.store.keeping import Kept


@dataclass(frozen=True, slots=True)
class Listed:
    """One job on the list."""

    name: str
    title: str
    reference: str = ""
    stage: str = ""
    due: str = ""
    number: int = 0
    who: str = ""
    when: str = ""
    trouble: str = ""


def jobs_page(bench: Bench, ask: Ask) -> Response:
    """List the jobs, those due first on top."""
    word = ask.said("q").casefold()
    listed = [_listed(bench, bench.store.job(name)) for name in bench.store.names()]
    found = [
        each
        for each in listed
        if word in " ".join((each.name, each.title, each.reference, each.stage)).casefold()
    ]
    found.sort(key=lambda each: (each.due or "9999", each.name))
    engines = [*sorted(bench.workshop.rulebook.stock_rows.get("engines", ())), "inline"]
    return bench.page(
        ask,
        "jobs",
        title="Jobs",
        jobs=found,
        query=ask.said("q"),
        engines=engines,
        typed="",
    )


def _listed(bench: Bench, job: Kept) -> Listed:
    line = Listed(job.name, job.name, number=job.number, who=job.who, when=job.when)
    try:
        reading = bench.workshop.reading(job.text)
    except BorewrightError as error:
        return replace(line, trouble=f"does not read yet: {str(error).splitlines()[0]}")
    held = reading.job
    return replace(
        line,
        title=held.name or job.name,
        reference=held.reference,
        stage=reading.facts.stage,
        due=held.deadline,
    )


def begin_job(bench: Bench, ask: Ask) -> Response:
    """Begin a job from the starter of its engine."""
    text = starter_job(bench.workshop.rulebook, ask.said("engine"), "inspected")
    job = bench.store.create(ask.said("name"), text, bench.entry(ask, "begun"))
    return onwards(f"/job/{job.name}/goals")


def name_person(bench: Bench, ask: Ask) -> Response:
    """Take the name that entries carry from now on."""
    person = replace(ask.person, who=plain_name(ask.said("who")))
    answer = onwards(_inside(ask.said("back")))
    bench.people.remember(answer, person)
    return answer


def _inside(path: str) -> str:
    """Return a path of this server, whatever a form says."""
    return path if path.startswith("/") and not path.startswith(("//", "/\\")) else "/"


def backup_file(bench: Bench, ask: Ask) -> Response:  # noqa: ARG001 - as every handler
    """Hand all jobs out as one file."""
    headers = {"content-disposition": 'attachment; filename="borewright-backup.zip"'}
    return Response(backup(bench.store), media_type="application/zip", headers=headers)


def door_page(bench: Bench, ask: Ask) -> Response:
    """Ask for the passphrase."""
    return bench.page(ask, "door", title="Passphrase", wrong="")


def open_door(bench: Bench, ask: Ask) -> Response:
    """Let in who knows the passphrase."""
    if not bench.people.opens(ask.said("passphrase")):
        wrong = "That is not the passphrase."
        return bench.page(ask, "door", status=403, title="Passphrase", wrong=wrong)
    answer = onwards("/")
    bench.people.remember(answer, replace(ask.person, inside=True))
    return answer
