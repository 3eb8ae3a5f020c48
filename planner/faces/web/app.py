"""The application: which address is answered by what, and what stands in front of all."""

from collections.abc import Awaitable, Callable

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp

from planner.errors import BorewrightError
from planner.faces.web import (
    asbuilt_page,
    board_page,
    goals_page,
    history_page,
    jobs_page,
    readings_page,
    sheets_page,
)
from planner.faces.web.ahead import Ahead
from planner.faces.web.bench import Ask, Bench, Upload, read_ask
from planner.faces.web.config import Config
from planner.faces.web.guard import LARGE, Guard, Rate
from planner.faces.web.pages import static_file
from planner.faces.web.people import People, Person
from planner.faces.web.workshop import Workshop
from planner.store.keeping import Store

Handler = Callable[[Bench, Ask], Response]
Endpoint = Callable[[Request], Awaitable[Response]]
MOST_FIELDS = 2000


def application(store: Store, workshop: Workshop, config: Config) -> ASGIApp:
    """Make the application.

    Parameters
    ----------
    store
        Where jobs are kept.
    workshop
        The rulebook, loaded.
    config
        Hosts, limits, passphrase.

    Returns
    -------
    ASGIApp
        What a server runs.
    """
    bench = Bench(store, workshop, People(config), config, Ahead(workshop))
    door = Rate(config.tries_per_minute)
    routes = [
        Route("/static/{file}", _static),
        Route("/door", _get(bench, jobs_page.door_page, shut=False)),
        Route(
            "/door", _tried(_post(bench, jobs_page.open_door, shut=False), door), methods=["POST"]
        ),
        *(Route(path, _get(bench, handler)) for path, handler in _GET),
        *(Route(path, _post(bench, handler), methods=["POST"]) for path, handler in _POST),
    ]
    app = Starlette(routes=routes, exception_handlers={HTTPException: _plain, Exception: _broken})
    return Guard(app, config)


_GET: tuple[tuple[str, Handler], ...] = (
    ("/", jobs_page.jobs_page),
    ("/backup", jobs_page.backup_file),
    ("/job/{name}/goals", goals_page.goals_page),
    ("/job/{name}/cells", goals_page.moved_cells),
    ("/job/{name}/why/{what}", goals_page.why_page),
    ("/job/{name}/compare", goals_page.compare_page),
    ("/job/{name}/readings", readings_page.readings_page),
    ("/job/{name}/asbuilt", asbuilt_page.asbuilt_page),
    ("/job/{name}/board", board_page.board_page),
    ("/job/{name}/history", history_page.history_page),
    ("/job/{name}/revision/{number}", history_page.revision_text),
    ("/job/{name}/sheets", sheets_page.sheets_page),
    ("/job/{name}/sheets/{sheet}", sheets_page.sheet_file),
)
_POST: tuple[tuple[str, Handler], ...] = (
    ("/who", jobs_page.name_person),
    ("/jobs", jobs_page.begin_job),
    ("/job/{name}/goals", goals_page.save_goals),
    ("/job/{name}/readings", readings_page.save_readings),
    ("/job/{name}/readings/check", readings_page.check_readings),
    ("/job/{name}/readings/table", readings_page.take_table),
    ("/job/{name}/asbuilt", asbuilt_page.save_asbuilt),
    ("/job/{name}/done", board_page.sign_step),
    ("/job/{name}/reopen", board_page.open_step),
    ("/job/{name}/bring-back", history_page.bring_back),
)


def _get(bench: Bench, handler: Handler, *, shut: bool = True) -> Endpoint:
    async def endpoint(request: Request) -> Response:
        person = bench.people.person(request)
        if shut and not bench.people.may_enter(person):
            return RedirectResponse("/door", 303)
        return await _answered(bench, handler, read_ask(request, person), request)

    return endpoint


def _post(bench: Bench, handler: Handler, *, shut: bool = True) -> Endpoint:
    async def endpoint(request: Request) -> Response:
        person = bench.people.person(request)
        if shut and not bench.people.may_enter(person):
            return PlainTextResponse("Give the passphrase first.\n", 403)
        ask = await _form(request, person)
        if not bench.people.is_token(person, ask.said("token")):
            return PlainTextResponse(
                "This form is too old or not ours; load its page again.\n", 403
            )
        return await _answered(bench, handler, ask, request)

    return endpoint


def _tried(endpoint: Endpoint, rate: Rate) -> Endpoint:
    """Slow down who tries passphrases."""

    async def slowed(request: Request) -> Response:
        if not rate.allows(request.client.host if request.client else ""):
            return PlainTextResponse("Too many tries; wait a minute.\n", 429)
        return await endpoint(request)

    return slowed


async def _form(request: Request, person: Person) -> Ask:
    """Read a form whole; files in it stay in memory, under the limit of every body."""
    pairs: list[tuple[str, str]] = []
    uploads: dict[str, Upload] = {}
    async with request.form(max_files=4, max_fields=MOST_FIELDS) as form:
        for key, value in form.multi_items():
            if isinstance(value, UploadFile):
                uploads[key] = Upload(value.filename or "", await value.read())
            else:
                pairs.append((key, value))
    return read_ask(request, person, tuple(pairs), uploads)


async def _answered(bench: Bench, handler: Handler, ask: Ask, request: Request) -> Response:
    try:
        answer = await run_in_threadpool(handler, bench, ask)
    except BorewrightError as error:
        answer = await run_in_threadpool(bench.trouble, ask, error)
    if "set-cookie" not in answer.headers and not request.cookies.get("bench"):
        bench.people.remember(answer, ask.person)
    return answer


async def _static(request: Request) -> Response:
    found = static_file(request.path_params["file"])
    if found is None:
        return PlainTextResponse("There is no such file.\n", 404)
    return Response(found[0], media_type=found[1], headers={"cache-control": "max-age=3600"})


async def _plain(_: Request, error: Exception) -> Response:
    status = error.status_code if isinstance(error, HTTPException) else 500
    said = {
        404: "There is no such page.\n",
        405: "Not that way.\n",
        400: "That does not read.\n",
        413: f"{LARGE}\n",
    }
    return PlainTextResponse(said.get(status, "That went wrong.\n"), status)


async def _broken(_: Request, __: Exception) -> Response:
    return PlainTextResponse(
        "The page broke on this request. Nothing was written; what is typed is still in the "
        "browser. The server's own window says more.\n",
        500,
    )
