"""Run the bench page."""

import os
import secrets
from collections.abc import Callable
from pathlib import Path

import uvicorn

from planner.datafiles.user_cache import user_cache
from planner.errors import BorewrightError
from planner.faces.web.app import application
from planner.faces.web.config import Config
from planner.faces.web.people import hashed
from planner.faces.web.workshop import Workshop
from planner.rulebook.remembered import remembering
from planner.rulebook.syntax import Rulebook
from planner.store.keeping import Store

LEAST_LETTERS = 10


class WeakPassphraseError(BorewrightError):
    """A passphrase that is guessed too soon."""


def config_of(
    host: str, port: int, names: tuple[str, ...], passphrase_file: Path | None, *, tls: bool
) -> Config:
    """Make the settings of a server from the command line's words."""
    return Config(
        host=host,
        port=port,
        names=names,
        passphrase_hash=_hash_of(passphrase_file) if passphrase_file else "",
        secret=_secret(),
        behind_tls=tls,
    )


def serve(store: Store, rulebook: Rulebook, config: Config, say: Callable[[str], None]) -> None:
    """Serve until somebody stops it.

    Parameters
    ----------
    store
        Where jobs are kept.
    rulebook
        Loaded once.
    config
        Where to listen, and for whom.
    say
        Told the address.
    """
    app = application(store, Workshop(rulebook), config)
    host = f"[{config.host}]" if ":" in config.host else config.host
    say(f"The bench page: http://{host}:{config.port}/   (Ctrl-C stops it)")
    with remembering(user_cache()):
        uvicorn.run(
            app,
            host=config.host,
            port=config.port,
            log_level="warning",
            server_header=False,
            limit_concurrency=200,
            timeout_keep_alive=20,
            proxy_headers=config.behind_tls,
        )


def _hash_of(file: Path) -> str:
    """Read a passphrase file: the passphrase itself, or a hash of it made before."""
    text = file.read_text(encoding="utf-8").strip()
    if text.startswith("$argon2"):
        return text
    if len(text) < LEAST_LETTERS:
        raise WeakPassphraseError(
            problem=f"The passphrase in {file} has {len(text)} letters.",
            reason="Whoever guesses it reads and changes every job.",
            remedy=f"Use {LEAST_LETTERS} letters or more: three or four words do well.",
        )
    return hashed(text)


def _secret() -> str:
    """Return the secret that signs sessions, the same after a restart where it can be kept."""
    folder = user_cache()
    made = secrets.token_hex(32)
    if folder is None:
        return made
    path = folder / "bench-secret"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        held = path.read_text(encoding="utf-8").strip()
        return held or made
    except OSError:
        return made
    with os.fdopen(handle, "w", encoding="utf-8") as file:
        file.write(made)
    return made
