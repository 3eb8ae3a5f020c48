"""What every handler works with: the store, the workshop, who asks, and pages to answer with."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from planner.errors import BorewrightError, ProblemsFound
from planner.faces.web.ahead import Ahead
from planner.faces.web.config import Config
from planner.faces.web.pages import template
from planner.faces.web.people import People, Person
from planner.faces.web.workshop import Workshop
from planner.planning.history import changes_between
from planner.store.keeping import (
    DamagedRevisionError,
    Entry,
    JobNameError,
    Kept,
    NoSuchJobError,
    StaleError,
    Store,
)


class NoNameError(BorewrightError):
    """An entry that nobody put a name to."""


@dataclass(frozen=True, slots=True)
class Upload:
    """A file that came with a form."""

    name: str
    data: bytes


@dataclass(frozen=True, slots=True)
class Ask:
    """One request, read.

    Attributes
    ----------
    path
        Names in its address, such as the job.
    query, form
        Keys and values.
    part
        Whether the page's script asks for a part of the page.
    """

    path: Mapping[str, str]
    query: tuple[tuple[str, str], ...]
    form: tuple[tuple[str, str], ...]
    person: Person
    address: str
    part: bool = False
    uploads: Mapping[str, Upload] = field(default_factory=dict)

    def said(self, key: str) -> str:
        """Return what a form or a query says under a key; nothing is the empty word."""
        return dict((*self.query, *self.form)).get(key, "").strip()

    @property
    def name(self) -> str:
        """The job asked for."""
        return self.path["name"]


@dataclass(frozen=True, slots=True)
class Bench:
    """The server's own things."""

    store: Store
    workshop: Workshop
    people: People
    config: Config
    ahead: Ahead

    def page(self, ask: Ask, drawn: str, /, *, status: int = 200, **shown: object) -> Response:
        """Answer with a page."""
        text = template(drawn).render(
            person=ask.person,
            token=self.people.token(ask.person),
            made_with=self.workshop.made_with,
            back=ask.address,
            **shown,
        )
        return HTMLResponse(text, status)

    def job_page(
        self, ask: Ask, drawn: str, job: Kept, /, *, status: int = 200, **shown: object
    ) -> Response:
        """Answer with a page about a job."""
        return self.page(ask, drawn, status=status, job=job, heading=self.heading(job), **shown)

    def heading(self, job: Kept) -> str:
        """Name a job as its file does, or by the file's name while it does not read."""
        try:
            return self.workshop.reading(job.text).job.name or job.name
        except BorewrightError:
            return job.name

    def entry(self, ask: Ask, why: str) -> Entry:
        """Sign an entry.

        Raises
        ------
        NoNameError
            When nobody picked a name yet.
        """
        if not ask.person.who:
            raise NoNameError(
                problem="Nobody's name stands on this entry.",
                reason="An entry that nobody signed cannot be asked about later.",
                remedy="Put your name in the box at the top, set it, and send this again.",
            )
        return Entry(ask.person.who, why, self.workshop.made_with)

    def base(self, ask: Ask) -> int:
        """Return the revision that a form was drawn from."""
        said = ask.said("base")
        return int(said) if said.isdecimal() and len(said) < 9 else 0

    def trouble(self, ask: Ask, error: BorewrightError) -> Response:
        """Answer with what went wrong, in its three parts."""
        if isinstance(error, StaleError):
            return self._stale(ask, error)
        problems = [str(each) for each in getattr(error, "problems", ())]
        if isinstance(error, ProblemsFound):
            shown = {"problem": "This does not read.", "reason": "", "remedy": ""}
        else:
            shown = {"problem": error.problem, "reason": error.reason, "remedy": error.remedy}
        missing = isinstance(error, NoSuchJobError | JobNameError)
        status = 404 if missing else 500 if isinstance(error, DamagedRevisionError) else 422
        back = f"/job/{ask.path['name']}/goals" if "name" in ask.path and not missing else "/"
        return self.page(
            ask,
            "trouble",
            status=status,
            title="Trouble",
            way_back=back,
            problems=problems,
            **shown,
        )

    def _stale(self, ask: Ask, error: StaleError) -> Response:
        """Show both versions side by side."""
        return self.page(
            ask,
            "stale",
            status=409,
            title="Two versions",
            theirs=error.theirs,
            differences=changes_between(error.theirs.text, error.mine),
            problem=error.problem,
            reason=error.reason,
            remedy=error.remedy,
            way_back=f"/job/{error.theirs.name}/goals",
        )


def address(path: str, pairs: Iterable[tuple[str, str]] = ()) -> str:
    """Write an address with a query."""
    query = urlencode(list(pairs))
    return f"{path}?{query}" if query else path


def onwards(path: str) -> Response:
    """Send the browser on after a form was taken."""
    return RedirectResponse(path, 303)


def read_ask(
    request: Request,
    person: Person,
    form: tuple[tuple[str, str], ...] = (),
    uploads: Mapping[str, Upload] | None = None,
) -> Ask:
    """Read a request."""
    whole = request.url.path + (f"?{request.url.query}" if request.url.query else "")
    return Ask(
        path=dict(request.path_params),
        query=tuple(request.query_params.multi_items()),
        form=form,
        person=person,
        address=whole,
        part=request.headers.get("hx-request") == "true",
        uploads=uploads or {},
    )
