"""What every request passes first: host, origin, size, rate; and the headers of all answers."""

import time
from collections import OrderedDict
from collections.abc import Mapping
from typing import Any
from urllib.parse import urlsplit

from starlette.exceptions import HTTPException
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from planner.faces.web.config import Config

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; "
    "frame-ancestors 'none'"
)
"""Of every page of ours: scripts and styles are files of ours, never words in a page."""

SHEET_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox allow-popups"
)
"""Of a sheet, which holds its own style and font and no script at all."""

_HEADERS = {
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "geolocation=(), microphone=(), camera=(self)",
    "x-frame-options": "DENY",
}
_SAFE = ("GET", "HEAD")
_MOST_ADDRESSES = 4096
LARGE = "That is larger than this page takes."


class TooLargeError(HTTPException):
    """A body that grew over the limit while it was read."""

    def __init__(self) -> None:
        super().__init__(413, LARGE)


class Guard:
    """Wraps the application; nothing reaches it that has not passed.

    Parameters
    ----------
    app
        The application.
    config
        Hosts, limits.
    """

    def __init__(self, app: ASGIApp, config: Config) -> None:
        self.app, self.config = app, config
        self.rate = Rate(config.per_minute)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through or refuse it, each with the headers."""
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.app(scope, receive, send)
            return
        headers = _headers(scope)
        refusal = self._refusal(scope, headers)

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                _add(message)
            await send(message)

        if refusal is not None:
            await refusal(scope, receive, with_headers)
            return
        await self.app(scope, _measured(receive, self.config.most_bytes), with_headers)

    def _refusal(self, scope: Scope, headers: Mapping[str, str]) -> PlainTextResponse | None:
        """Say why a request does not pass, or nothing."""
        length = headers.get("content-length", "0")
        client = scope.get("client")
        posted = scope["method"] == "POST"
        checks = (
            (_name_of(headers.get("host", "")) in self.config.hosts, 421, "Not under that name."),
            (scope["method"] in (*_SAFE, "POST"), 405, "Only GET and POST are answered."),
            (not posted or _is_ours(headers), 403, "This form came from another page."),
            (_is_small(length, self.config.most_bytes), 413, LARGE),
        )
        for passed, status, said in checks:
            if not passed:
                return PlainTextResponse(f"{said}\n", status)
        if not self.rate.allows(client[0] if client else ""):
            return PlainTextResponse("Too many requests; wait a minute.\n", 429)
        return None


def _is_small(length: str, most: int) -> bool:
    return length.isdecimal() and int(length) <= most


class Rate:
    """Counts requests by address, filled up evenly over a minute."""

    def __init__(self, per_minute: int) -> None:
        self.most = float(per_minute)
        self._left: OrderedDict[str, tuple[float, float]] = OrderedDict()

    def allows(self, address: str, now: float | None = None) -> bool:
        """Take one from an address's share; tell whether there was one."""
        at = time.monotonic() if now is None else now
        left, since = self._left.pop(address, (self.most, at))
        left = min(self.most, left + (at - since) * self.most / 60)
        allowed = left >= 1
        self._left[address] = (left - 1 if allowed else left, at)
        while len(self._left) > _MOST_ADDRESSES:
            self._left.popitem(last=False)
        return allowed


def _headers(scope: Scope) -> Mapping[str, str]:
    return {
        name.decode("latin-1").lower(): value.decode("latin-1") for name, value in scope["headers"]
    }


def _name_of(host: str) -> str:
    """Take the port off a host; an address of version 6 stands in brackets."""
    name = host.partition("]")[0].removeprefix("[") if host.startswith("[") else host
    return (name if host.startswith("[") else host.partition(":")[0]).casefold()


def _is_ours(headers: Mapping[str, str]) -> bool:
    """Tell whether a form was sent from a page of this server."""
    if headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
        return False
    origin = headers.get("origin")
    if origin is None:
        return True  # the form's token still has to be right
    return urlsplit(origin).netloc.casefold() == headers.get("host", "").casefold()


def _add(message: Message) -> None:
    """Add the headers that an answer lacks."""
    listed: list[tuple[bytes, bytes]] = list(message.get("headers", []))
    there = {name.lower() for name, _ in listed}
    own: dict[str, str] = {
        **_HEADERS,
        "content-security-policy": POLICY,
        "cache-control": "no-store",
    }
    for name, value in own.items():
        if name.encode() not in there:
            listed.append((name.encode(), value.encode()))
    message["headers"] = listed


def _measured(receive: Receive, most: int) -> Receive:
    """Count a body as it comes in, whatever length it said it has."""
    seen = 0

    async def counting() -> Any:  # noqa: ANN401 - a message of the server
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        if seen > most:
            raise TooLargeError
        return message

    return counting
