"""How the bench page is run: where it listens, who may ask, and how much at a time."""

import secrets
from dataclasses import dataclass, field

from planner.errors import BorewrightError

LOOPBACK = ("127.0.0.1", "localhost", "::1")


class OpenToAllError(BorewrightError):
    """A page that would listen beyond this machine with nothing to keep strangers out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Config:
    """Settings of one server.

    Attributes
    ----------
    host, port
        Where it listens.
    names
        Further names it may be asked by, as a proxy or the shop's network calls it.
    passphrase_hash
        The argon2 hash of what everybody in the shop types once; empty on this machine alone.
    secret
        Signs sessions and form tokens.
    behind_tls
        Whether a proxy in front speaks TLS, so that cookies go over TLS only.
    most_bytes
        Largest body that is read.
    per_minute
        Requests that one address may make in a minute, and tries at the passphrase.
    """

    host: str = "127.0.0.1"
    port: int = 8171
    names: tuple[str, ...] = ()
    passphrase_hash: str = ""
    secret: str = field(default_factory=lambda: secrets.token_hex(32))
    behind_tls: bool = False
    most_bytes: int = 2 * 1024 * 1024
    per_minute: int = 1200
    tries_per_minute: int = 6

    def __post_init__(self) -> None:
        """Refuse to be reached from elsewhere, directly or by a proxy, without a passphrase."""
        beyond = self.host not in LOOPBACK or self.names or self.behind_tls
        if beyond and not self.passphrase_hash:
            names = ", ".join((self.host, *self.names))
            raise OpenToAllError(
                problem=f"{names} can be reached from other machines.",
                reason="Anybody on the network could read and change the shop's jobs.",
                remedy="Give --passphrase-file, or leave --host, --name and --tls out.",
            )

    @property
    def hosts(self) -> frozenset[str]:
        """Names, without a port, that a request may ask for."""
        own = LOOPBACK if self.host in LOOPBACK else (self.host, *LOOPBACK)
        return frozenset(each.casefold() for each in (*own, *self.names))
