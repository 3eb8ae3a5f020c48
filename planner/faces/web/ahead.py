"""Work out ahead what will perhaps be asked next, while nobody waits for anything."""

import threading
from collections import deque
from collections.abc import Callable
from contextlib import suppress
from contextvars import copy_context

from planner.errors import BorewrightError
from planner.faces.web.workshop import Workshop

MOST = 3
Work = Callable[[], object]


class Ahead:
    """Does the latest wishes, one at a time, and none while somebody's request is worked out.

    Parameters
    ----------
    workshop
        Keeps what is made, so that the request finds it.
    """

    def __init__(self, workshop: Workshop) -> None:
        self.workshop = workshop
        self._wishes: deque[Work] = deque(maxlen=MOST)
        self._lock = threading.Lock()
        self._running = False

    def wish(self, work: Work) -> None:
        """Put something on the list; the oldest wish beyond three is forgotten."""
        context = copy_context()
        with self._lock:
            self._wishes.append(lambda: context.run(work))
            if self._running:
                return
            self._running = True
        threading.Thread(target=self._run, name="ahead", daemon=True).start()

    def _run(self) -> None:
        while True:
            with self._lock:
                if not self._wishes or self.workshop.busy:
                    self._wishes.clear()
                    self._running = False
                    return
                work = self._wishes.popleft()
            with suppress(BorewrightError):
                work()
