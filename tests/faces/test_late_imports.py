"""What does not need the cylinder model does not import it, nor numpy."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
RUN = """
import sys
from planner.faces.cli import main
sys.argv = ["borewright", *sys.argv[1:]]
try:
    main()
except SystemExit:
    pass
heavy = [name for name in sys.modules if name == "numpy" or name.startswith("planner.physics.cycle.march")]
sys.stderr.write(" ".join(["heavy:", *heavy]))
"""  # noqa: E501 - a program of its own


def heavy(folder, *arguments):
    told = subprocess.run(
        [sys.executable, "-c", RUN, *arguments],
        cwd=folder,
        env={"PYTHONPATH": str(ROOT), "PATH": "", "XDG_CACHE_HOME": str(folder / "cache")},
        capture_output=True,
        text=True,
        check=False,
    )
    return told.stderr.rpartition("heavy:")[2].split()


@pytest.mark.parametrize(
    "arguments",
    [
        ("--help",),
        ("plan", "--help"),
        ("map", "--help"),
        ("rules", "show", "compression_ratio"),
        ("rules", "names"),
        ("schema", "job"),
        ("new", "job.yaml", "--engine", "larch-2.0"),
    ],
    ids=" ".join,
)
def test_a_command_that_works_nothing_out_stays_light(tmp_path, arguments):
    assert heavy(tmp_path, *arguments) == []


def test_a_job_without_its_boost_asks_the_model_nothing(tmp_path):
    text = (ROOT / "shared" / "jobs" / "larch.yaml").read_text(encoding="utf-8")
    kept = [line for line in text.splitlines() if not line.startswith("  boost:")]
    (tmp_path / "job.yaml").write_text("\n".join(kept), encoding="utf-8")
    assert "planner.physics.cycle.march" not in heavy(tmp_path, "plan", "job.yaml")


def test_a_plan_that_needs_it_imports_it_the_first_time_only(tmp_path):
    job = str(ROOT / "shared" / "jobs" / "larch.yaml")
    assert "planner.physics.cycle.march" in heavy(tmp_path, "plan", job)
    assert heavy(tmp_path, "plan", job) == []
