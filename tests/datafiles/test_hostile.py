"""Files made to exhaust a reader: refused or read within bounds of time and memory.

Each is read in a process of its own whose processor time and address space the system caps, so
that a reader that runs away is stopped and seen.
"""

import subprocess
import sys
from pathlib import Path

import pytest

resource = pytest.importorskip("resource", reason="the system cannot cap a process")
ROOT = Path(__file__).parents[2]
SECONDS = 20
BYTES = 768 * 1024 * 1024
RUN = """
import hashlib, resource, sys
from pathlib import Path
resource.setrlimit(resource.RLIMIT_CPU, ({seconds}, {seconds}))
resource.setrlimit(resource.RLIMIT_AS, ({bytes}, {bytes}))
from planner.datafiles.reader import read_yaml
from planner.datafiles.trace import read_trace
from planner.errors import BorewrightError
from planner.rulebook.compiled import read_compiled
from planner.teardown.table import read_table

def compiled(path):
    text = path.read_bytes()
    path.write_bytes(hashlib.sha256(text).hexdigest().encode() + bytes([10]) + text)
    assert read_compiled(path) is None

readers = {{
    "yaml": read_yaml,
    "trace": read_trace,
    "table": lambda path: read_table(path.read_bytes(), path.name),
    "json": compiled,
}}
try:
    readers[sys.argv[1]](Path(sys.argv[2]))
    print("read")
except BorewrightError as error:
    print("refused", str(error)[:200].replace(chr(10), " "))
"""
SIZE = 2 * 1024 * 1024 - 64
HOSTILE = {
    "yaml open brackets": ("yaml", b"a: " + b"[" * SIZE),
    "yaml open braces": ("yaml", b"{a: " * (SIZE // 4)),
    "yaml dashes": ("yaml", b"- " * (SIZE // 2)),
    "yaml one long word": ("yaml", b"a: " + b"x" * SIZE),
    "yaml one long number": ("yaml", b"a: " + b"9" * SIZE),
    "yaml many names": ("yaml", b"".join(b"k%d: 1\n" % at for at in range(150_000))),
    "yaml one name again and again": ("yaml", b"a: 1\n" * (SIZE // 5)),
    "yaml many aliases": ("yaml", b"a: &a [1]\nb: [" + b"*a, " * (SIZE // 4 - 8) + b"]"),
    "yaml quotes": ("yaml", b'a: "' + b"\\u0061" * (SIZE // 6 - 8) + b'"'),
    "yaml nothing but forbidden characters": ("yaml", b"\x00" * SIZE),
    "yaml larger than it may be": ("yaml", b"a: 1\n" * SIZE),
    "table of commas": ("table", b"," * SIZE),
    "table of lines": ("table", b"cylinder,depth\n" + b"1,2\n" * (SIZE // 4 - 8)),
    "table in one quote": ("table", b'a,"' + b"x" * SIZE),
    "trace of lines": ("trace", b"distance mm,height um\n" + b"0.1,0.1\n" * (SIZE // 8 - 8)),
    "json open brackets": ("json", b"[" * SIZE),
    "json open blocks": ("json", b'{"a":' * (SIZE // 5)),
    "json one long number": ("json", b"9" * SIZE),
}


@pytest.mark.slow
@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_file_ends_within_bounds(name, tmp_path):
    reader, raw = HOSTILE[name]
    path = tmp_path / f"hostile.{reader}"
    path.write_bytes(raw)
    told = subprocess.run(
        [sys.executable, "-c", RUN.format(seconds=SECONDS, bytes=BYTES), reader, str(path)],
        env={"PYTHONPATH": str(ROOT), "PATH": ""},
        capture_output=True,
        text=True,
        check=False,
        timeout=20 * SECONDS,
    )
    assert told.returncode == 0, told.stderr[-600:]
    assert told.stdout.startswith(("read", "refused"))
