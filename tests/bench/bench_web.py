"""How long the bench page takes to answer: one person at a slider, and twenty at once.

Run it by hand: ``python -m tests.bench.bench_web``. It takes under a minute and prints figures;
it asserts only that no answer is an error.
"""

import statistics
import sys
import tempfile
import threading
import time
from contextvars import copy_context
from pathlib import Path

import httpx
import uvicorn

from planner.datafiles.user_cache import user_cache
from planner.faces.web.app import application
from planner.faces.web.config import Config
from planner.rulebook.remembered import remembering
from tests.web.shop import folder_of_jobs, workshop

PORT = 8199
LOOKS_FOR = 0.7
"""Seconds a person looks at an answer before the next step."""
PEOPLE, MOVES, BETWEEN = 20, 5, 5.0


def say(text):
    sys.stdout.write(f"{text}\n")
    sys.stdout.flush()


def spread(times):
    times = sorted(times)
    at = times[min(len(times) - 1, int(len(times) * 0.95))]
    return f"median {statistics.median(times):.0f} ms, 95th {at:.0f} ms, most {times[-1]:.0f} ms"


def move(client, job, boost, shown):
    query = {"goals.boost": f"{boost:.6g} bar gauge", "shown": shown}
    began = time.perf_counter()
    answer = client.get(f"/job/{job}/cells", params=query)
    assert answer.status_code == 200, answer.text
    return (time.perf_counter() - began) * 1000, f"goals.boost={boost:.6g} bar gauge"


def one_person(client, start, wait):
    times, shown = [], ""
    for count in range(20):
        took, shown = move(client, "larch", start + 0.05 * count, shown)
        times.append(took)
        time.sleep(wait)
    return times


def many_people(base):
    times, wrong = [], []

    def person(at):
        try:
            with httpx.Client(base_url=base, timeout=30) as client:
                time.sleep(at * BETWEEN / PEOPLE)
                shown = ""
                for count in range(MOVES):
                    boost = 0.6 + 0.05 * ((at + count) % 20)
                    took, shown = move(client, ("larch", "sorrel")[at % 2], boost, shown)
                    times.append(took)
                    time.sleep(BETWEEN)
        except (AssertionError, httpx.HTTPError) as error:
            wrong.append(repr(error))

    people = [threading.Thread(target=person, args=(at,)) for at in range(PEOPLE)]
    for each in people:
        each.start()
    for each in people:
        each.join()
    return times, wrong


def main():
    with tempfile.TemporaryDirectory() as folder, remembering(user_cache()):
        app = application(
            folder_of_jobs(Path(folder)), workshop(), Config(port=PORT, per_minute=100_000)
        )
        server = uvicorn.Server(uvicorn.Config(app, port=PORT, log_level="error", ws="none"))
        # The server's thread keeps answers of slow formulas as `serve` does.
        context = copy_context()
        run = threading.Thread(target=lambda: context.run(server.run))
        run.start()
        while not server.started:
            time.sleep(0.02)
        base = f"http://127.0.0.1:{PORT}"
        with httpx.Client(base_url=base, timeout=30) as client:
            client.get("/job/larch/goals")
            say(f"one person, step by step:   {spread(one_person(client, 0.5, LOOKS_FOR))}")
            say(f"the same steps again:       {spread(one_person(client, 0.5, 0))}")
            say(f"one person, no pause:       {spread(one_person(client, 1.525, 0))}")
        times, wrong = many_people(base)
        say(f"{PEOPLE} people, a move each {BETWEEN:g} s: {spread(times)}, {len(wrong)} errors")
        server.should_exit = True
        run.join()
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
