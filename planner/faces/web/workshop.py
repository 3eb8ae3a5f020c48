"""The rulebook loaded once, and jobs worked out by it: what was asked before is kept."""

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from concurrent.futures import Future
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TypeVar, cast

from planner import __version__
from planner.datafiles.reader import read_yaml_text
from planner.models.history import MadeWith
from planner.planning.assemble import explainer
from planner.planning.explaining import Explainer
from planner.planning.history import code_of
from planner.planning.job_overrides import with_overrides
from planner.planning.job_reader import JobReading, read_job_node
from planner.rulebook.syntax import Rulebook

Settings = tuple[str, ...]
Made = TypeVar("Made")
MOST = 400


class Workshop:
    """Works jobs out for the page.

    Parameters
    ----------
    rulebook
        Loaded and proved.
    """

    def __init__(self, rulebook: Rulebook) -> None:
        self.rulebook = rulebook
        self.made_with = MadeWith(
            rules_edition=rulebook.edition, rules_sha256=rulebook.sha256, version=__version__
        )
        self._kept: OrderedDict[Hashable, object] = OrderedDict()
        self._going: dict[Hashable, Future[object]] = {}
        self._lock = threading.Lock()

    def reading(self, text: str, settings: Settings = ()) -> JobReading:
        """Read a job, with keys set anew.

        Raises
        ------
        ProblemsFound
            With everything wrong in it.
        """
        return self.once(("read", code_of(text), settings), lambda: self._read(text, settings))

    def explained(self, text: str, settings: Settings = ()) -> Explainer:
        """Work a job out, with keys set anew."""
        key = ("explained", code_of(text), settings)
        return self.once(key, lambda: self._explained(text, settings))

    def once(self, key: Hashable, make: Callable[[], Made]) -> Made:
        """Return what was made for a key, or make it; the least lately asked is given up.

        Who asks for what is being made waits for it, so that nothing is made twice.
        """
        with self._lock:
            if key in self._kept:
                self._kept.move_to_end(key)
                return cast("Made", self._kept[key])
            going = self._going.get(key)
            mine = going is None
            future: Future[object] = going or self._going.setdefault(key, Future())
        if not mine:
            return cast("Made", future.result())
        try:
            made = make()
        except BaseException as error:
            self._end(key)
            future.set_exception(error)
            raise
        self._end(key, made)
        future.set_result(made)
        return made

    @property
    def busy(self) -> bool:
        """Whether anything is being worked out now."""
        return bool(self._going)

    def _end(self, key: Hashable, made: object = None) -> None:
        with self._lock:
            del self._going[key]
            if made is None:
                return
            self._kept[key] = made
            while len(self._kept) > MOST:
                self._kept.popitem(last=False)

    def _read(self, text: str, settings: Settings) -> JobReading:
        root = with_overrides(read_yaml_text(text, "job"), settings)
        return read_job_node(root, self.rulebook)

    def _explained(self, text: str, settings: Settings) -> Explainer:
        return explainer(self.reading(text, settings), self.rulebook)


def on_a_copy(text: str, work: Callable[[Path], Made]) -> tuple[str, Made]:
    """Let a command that changes a job file work on a copy of a text.

    Parameters
    ----------
    text
        The job.
    work
        What to do to the file.

    Returns
    -------
    tuple
        The text as it left the file, and what it returned.
    """
    with TemporaryDirectory(prefix="borewright-") as folder:
        path = Path(folder) / "job.yaml"
        path.write_bytes(text.encode("utf-8"))
        done = work(path)
        return path.read_bytes().decode("utf-8"), done
