"""A bench page for tests: invented jobs, a browser without a window or a network."""

import asyncio
import re
import shutil
from functools import cache
from pathlib import Path

import httpx

from planner.datafiles.locate import shipped_folder
from planner.datafiles.user_cache import user_cache
from planner.faces.web.app import application
from planner.faces.web.config import Config
from planner.faces.web.workshop import Workshop
from planner.rulebook.load import load_rulebook
from planner.rulebook.remembered import remembering
from planner.store.files import FileStore

JOBS = Path(__file__).parents[2] / "shared" / "jobs"
_TOKEN = re.compile(r'name="token" value="([^"]+)"')


@cache
def rulebook():
    return load_rulebook([shipped_folder("rules")], [shipped_folder("catalogs")])


@cache
def workshop():
    """One for all tests: it keeps what it worked out, by the text of the job."""
    return Workshop(rulebook())


def folder_of_jobs(folder):
    for name in ("larch", "sorrel"):
        shutil.copy(JOBS / f"{name}.yaml", folder / f"{name}.yaml")
    return FileStore(folder)


class Visitor:
    """Asks pages and sends forms as a browser would, cookie and token in hand."""

    def __init__(self, store, config=None):
        self.store = store
        self.config = config or Config(secret="of the tests")
        self.app = application(store, workshop(), self.config)
        self.cookies = httpx.Cookies()

    def ask(self, method, path, **rest):
        async def once():
            transport = httpx.ASGITransport(app=self.app, client=("127.0.0.1", 1))
            async with httpx.AsyncClient(
                transport=transport, base_url="http://localhost", cookies=self.cookies
            ) as client:
                answer = await client.request(method, path, **rest)
                self.cookies = client.cookies
                return answer

        with remembering(user_cache()):
            return asyncio.run(once())

    def get(self, path, **rest):
        return self.ask("GET", path, **rest)

    def token(self):
        return _TOKEN.search(self.get("/").text)[1]

    def send(self, path, files=None, headers=None, **fields):
        data = {"token": self.token(), **fields}
        return self.ask("POST", path, data=data, files=files, headers=headers or {})

    def named(self, who="Ann at the bench"):
        self.send("/who", who=who, back="/")
        return self
