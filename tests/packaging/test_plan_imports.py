"""What a plan opens: with a compiled rulebook, nothing that reads or proves rules."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SLOW = {"pint", "networkx", "pydantic", "numpy", "rich", "scipy", "jinja2", "numba"}
PROVING = {f"planner.rulebook.{name}" for name in ("load", "table_proof", "table_body", "gives")}
RUN = """
import sys
from planner.faces.cli import main
sys.argv = ["borewright", "plan", sys.argv[1]]
try:
    main()
finally:
    print("opened:", *sys.modules, file=sys.stderr)
"""


@pytest.fixture(scope="module")
def opened(tmp_path_factory):
    """Names of the modules that the third plan of a job opens; two prove the rules."""
    cache = tmp_path_factory.mktemp("cache")

    def run():
        told = subprocess.run(
            [sys.executable, "-c", RUN, "shared/jobs/larch.yaml"],
            cwd=ROOT,
            env={"PYTHONPATH": str(ROOT), "PATH": "", "BOREWRIGHT_CACHE": str(cache)},
            capture_output=True,
            text=True,
            check=False,
        )
        return set(told.stderr.rpartition("opened:")[2].split())

    first, second = run(), run()
    assert first >= PROVING
    assert second >= PROVING
    return run()


def test_neither_pint_nor_networkx_nor_numpy_is_opened(opened):
    assert "yaml" in opened
    assert not opened & SLOW


def test_nothing_that_reads_or_proves_rules_is_opened(opened):
    assert "planner.rulebook.compiled" in opened
    assert not opened & PROVING
