"""A job file of the small shop, and tables for it."""

from pathlib import Path

from planner.datafiles.reader import read_yaml_text
from planner.errors import ProblemsFound
from planner.planning.job_reader import read_job_node
from planner.planning.taking_readings import Taken, take_readings
from planner.teardown.asked import Asked
from tests.planning import shop

COMMENTED = """\
# Kept as it stands, with its blanks  and its tail
format: 1
job: {name: Test job}   # the name
engine: test-2.0
goals: {boost: 1.1 bar gauge, use: street, rev_ceiling: 7200 rpm}
teardown:
  bores:            # measured twice
    unit: mm
    depths: [15, 65]
    axes: [thrust, crank]
    readings:
      1: [[86.071, 86.046], [86.042, 86.0310]]   # first
      2:                                         # not yet
    wall: {1: 6.1,   2: 5.6}
  guides: {unit: mm, exhaust: [0.05, 0.07, 0.09, 0.05]}
"""


def asked(text: str = COMMENTED) -> Asked:
    root = read_yaml_text(text, "job.yaml")
    return Asked(shop.rulebook(), read_job_node(root, shop.rulebook()).facts, root)


def take(folder: Path, table: str | bytes, *, name: str = "table.csv", **options) -> Taken:
    """Write the job, unless it is there, and the table, and take the table in."""
    job, sheet = folder / "job.yaml", folder / name
    if not job.exists():
        job.write_bytes(COMMENTED.encode())
    sheet.write_bytes(table if isinstance(table, bytes) else table.encode())
    return take_readings(job, sheet, shop.rulebook(), **options)


def refused(folder: Path, table: str | bytes, **options) -> list[str]:
    """Return what is told of a table, after making sure that nothing was written."""
    job = folder / "job.yaml"
    try:
        take(folder, table, **options)
    except ProblemsFound as found:
        assert job.read_bytes() == COMMENTED.encode()
        return [str(each).replace(f"{folder}/", "") for each in found.problems]
    return []


def text_of(folder: Path) -> str:
    return (folder / "job.yaml").read_bytes().decode()
