"""Change a job over and over in a process that is killed at a random moment, many times.

Run as a program: ``killing.py JOB KILLS SEED``. Prints how many kills and how many revisions.
"""

import os
import random
import signal
import sys
import time
from pathlib import Path

from planner.datafiles.reader import read_yaml_text
from planner.models.history import MadeWith
from planner.planning.history import Edit, change_job, read_history

LONGEST = 0.03
"""Longest time from the start of a writer to its end. [s]"""


def write_for_ever(job: Path) -> None:
    """Add reading after reading until somebody ends it."""
    count = 0
    while True:
        count += 1
        edit = Edit(("as_built", f"writer_{os.getpid()}", "readings", str(count)), 86.5 + count)
        change_job(job, [edit], who="a machinist", why="test", made_with=MadeWith())


def killed_once(job: Path, after: float) -> None:
    """Start a writer and kill it."""
    child = os.fork()
    if child == 0:
        try:
            write_for_ever(job)
        finally:
            os._exit(3)
    time.sleep(after)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    if not os.WIFSIGNALED(status):
        raise SystemExit(f"a writer stopped by itself: {status}")


def whole(job: Path) -> int:
    """Check that the file is one of the revisions, whole; return how many there are."""
    text = job.read_text(encoding="utf-8")
    read_yaml_text(text, "job")
    history = read_history(job)
    if not history.revisions:
        return 0
    last, states = history.revisions[-1], {each.text for each in history.revisions}
    if text not in states or (text != last.text and last.before != _code(text)):
        raise SystemExit("the file is neither the old state nor the new one")
    if history.broken or [each.number for each in history.revisions] != list(
        range(1, len(history.revisions) + 1)
    ):
        raise SystemExit("a revision was lost or overwritten")
    return len(history.revisions)


def _code(text: str) -> str:
    from planner.planning.history import code_of

    return code_of(text)


def main(job: Path, kills: int, seed: int) -> None:
    """Kill so many writers and check after each."""
    luck = random.Random(seed)
    seen = 0
    for _ in range(kills):
        killed_once(job, luck.uniform(0.0, LONGEST))
        now = whole(job)
        if now < seen:
            raise SystemExit("revisions went away")
        seen = now
        if job.stat().st_size > 20_000:
            job.write_text("format: 1   # begun again\n", encoding="utf-8")
    sys.stdout.write(f"{kills} kills, {seen} revisions\n")


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
