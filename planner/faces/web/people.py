"""Who is at the page: signed sessions, form tokens, names on entries, the passphrase."""

import secrets
from dataclasses import dataclass

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError
from itsdangerous import BadSignature, URLSafeTimedSerializer
from starlette.requests import Request
from starlette.responses import Response

from planner.faces.web.config import Config
from planner.sheets.letters import clean

COOKIE = "bench"
LASTS = 14 * 24 * 3600
MOST_NAME = 60


@dataclass(frozen=True, slots=True)
class Person:
    """Who asks.

    Attributes
    ----------
    session
        A random number that the form token belongs to.
    who
        The name that entries carry; empty until one is picked.
    inside
        Whether the passphrase was given, where there is one.
    """

    session: str
    who: str = ""
    inside: bool = False


class People:
    """Reads and writes sessions.

    Parameters
    ----------
    config
        The secret, and the hash of the passphrase.
    """

    def __init__(self, config: Config) -> None:
        self.config = config
        self._sessions = URLSafeTimedSerializer(config.secret, salt="session")
        self._tokens = URLSafeTimedSerializer(config.secret, salt="form")

    def person(self, request: Request) -> Person:
        """Read who asks; a session that is not ours, or too old, is as good as none."""
        try:
            held = self._sessions.loads(request.cookies.get(COOKIE, ""), max_age=LASTS)
            return Person(str(held["s"]), str(held["w"]), bool(held["i"]))
        except (BadSignature, KeyError, TypeError):
            return Person(secrets.token_urlsafe(16))

    def may_enter(self, person: Person) -> bool:
        """Tell whether somebody may see jobs."""
        return person.inside or not self.config.passphrase_hash

    def remember(self, response: Response, person: Person) -> None:
        """Hand a session out."""
        value = self._sessions.dumps({"s": person.session, "w": person.who, "i": person.inside})
        response.set_cookie(
            COOKIE,
            str(value),
            max_age=LASTS,
            httponly=True,
            samesite="strict",
            secure=self.config.behind_tls,
        )

    def token(self, person: Person) -> str:
        """Make the token that a form of this session carries."""
        return str(self._tokens.dumps(person.session))

    def is_token(self, person: Person, token: str) -> bool:
        """Tell whether a form was handed out to this session."""
        try:
            held = self._tokens.loads(token, max_age=LASTS)
        except BadSignature:
            return False
        return isinstance(held, str) and secrets.compare_digest(held, person.session)

    def opens(self, passphrase: str) -> bool:
        """Tell whether a passphrase is the shop's."""
        try:
            return PasswordHasher().verify(self.config.passphrase_hash, passphrase)
        except (VerificationError, InvalidHashError):
            return False


def hashed(passphrase: str) -> str:
    """Hash a passphrase with argon2id at its library's own settings."""
    return PasswordHasher().hash(passphrase)


def plain_name(text: str) -> str:
    """Bring a typed name to one short line."""
    return " ".join(clean(text).split())[:MOST_NAME]
