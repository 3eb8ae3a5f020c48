"""Whatever stands in a table or a job: an answer or a named problem, and never a lost figure."""

import io
from csv import writer
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st

from planner.datafiles.reader import read_yaml_text
from planner.errors import BorewrightError
from planner.planning.job_reader import read_job_node
from planner.planning.taking_readings import asked_of, take_readings
from planner.rulebook import evaluate
from planner.teardown.exporting import exported
from tests.planning import shop
from tests.teardown.jobs import COMMENTED

WORDS = st.sampled_from(
    [
        "bores",
        "guide_exhaust",
        "cylinder",
        "cylinder 1",
        "1",
        "2",
        "15",
        "65",
        "thrust",
        "crank",
        "86.071",
        "86,071",
        "86.071 mm",
        "mm",
        "in",
        "value [mm]",
        "reading",
        "item",
        "row",
        "axis",
        "value",
        "unit",
        "depth",
        "",
        "wall [mm]",
        "-0",
        "1e3",
        "nan",
        "inf",
        "unknown",
        '"',
        "6.1",
    ]
)
CELL = st.one_of(WORDS, st.text(max_size=8), st.floats().map(str))
TABLE = st.lists(st.lists(CELL, min_size=1, max_size=6), max_size=6)
STYLE = st.sampled_from([",", ";", "\t"])


def taken(table: bytes, name: str = "bores.csv") -> str:
    """Take a table into a fresh job; return the job's text."""
    with TemporaryDirectory() as folder:
        job, sheet = Path(folder, "job.yaml"), Path(folder, name)
        job.write_bytes(COMMENTED.encode())
        sheet.write_bytes(table)
        told, wanted = (
            told_of(lambda: take_readings(job, sheet, shop.rulebook())),
            job.read_bytes(),
        )
        assert told is None or (told and wanted == COMMENTED.encode())
        return wanted.decode()


def told_of(action) -> str | None:
    """Run something; return what is told when it is refused."""
    try:
        action()
    except BorewrightError as refusal:
        return str(refusal)
    return None


@settings(max_examples=150, deadline=None)
@given(TABLE, STYLE)
def test_any_table_is_taken_or_told(rows, delimiter):
    out = io.StringIO()
    writer(out, delimiter=delimiter).writerows(rows)
    text = taken(out.getvalue().encode())
    read_job_node(read_yaml_text(text, "job"), shop.rulebook())


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=200))
def test_any_bytes_are_taken_or_told(raw):
    taken(raw)


READING = st.integers(86_000, 86_400).map(lambda micron: micron / 1000)
GRID = st.lists(st.lists(READING, min_size=2, max_size=2), min_size=2, max_size=2)


@settings(max_examples=60, deadline=None)
@given(GRID, GRID, st.booleans(), STYLE)
def test_every_figure_of_a_good_table_stands_in_the_job(first, second, comma, delimiter):
    out = io.StringIO()
    sheet = writer(out, delimiter=delimiter)
    sheet.writerow(["cylinder", "depth", "thrust [mm]", "crank [mm]"])
    for cylinder, grid in (("1", first), ("2", second)):
        for depth, row in zip((15, 65), grid, strict=True):
            cells = [f"{cell:.3f}".replace(".", "," if comma else ".") for cell in row]
            sheet.writerow([cylinder, depth, *cells])
    text = taken(out.getvalue().encode())
    facts = read_job_node(read_yaml_text(text, "job"), shop.rulebook()).facts
    for key, grid in (("1", first), ("2", second)):
        wanted = tuple(tuple(round(cell / 1000, 12) for cell in row) for row in grid)
        assert facts.inputs["bores"].entries[key,].value == wanted
    kept = [line for line in COMMENTED.splitlines() if "#" in line]
    assert [line.partition("#")[2] for line in kept] == [
        line.partition("#")[2] for line in text.splitlines() if "#" in line
    ]


VALUE = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.sampled_from(["unknown", "86.07 mm", "3.3886 in", "86,071", "55", "0.05 mm", "x"]),
    st.text(max_size=6),
)
NODE = st.recursive(
    VALUE,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3), st.dictionaries(st.sampled_from("12389x"), inner, max_size=3)
    ),
    max_leaves=8,
)
KEYS = st.sampled_from(
    ["bores", "main_journals", "guides", "deck", "findings", "springs", "crank", "nonsense"]
)


@settings(max_examples=150, deadline=None)
@given(st.dictionaries(KEYS, NODE, max_size=4))
def test_any_readings_in_a_job_are_read_or_told_and_then_planned(teardown):
    import yaml

    job = shop.JOB[: shop.JOB.index("teardown:")]
    text = job + yaml.safe_dump({"teardown": teardown}, allow_unicode=True)

    def plan():
        reading = read_job_node(read_yaml_text(text, "job"), shop.rulebook())
        assert evaluate(shop.rulebook(), reading.facts).outcomes

    assert told_of(plan) != ""


def test_the_demonstration_jobs_go_out_and_come_back_unchanged(tmp_path):
    from planner.rulebook import load_rulebook

    root = Path(__file__).parents[2]
    rulebook = load_rulebook([root / "rules"], [root / "catalogs"])
    for name in ("larch", "sorrel"):
        job, table = tmp_path / f"{name}.yaml", tmp_path / f"{name}.csv"
        job.write_bytes((root / "shared" / "jobs" / job.name).read_bytes())
        before = job.read_bytes()
        table.write_text(exported(asked_of(job, rulebook), decimal_comma=True))
        taken_back = take_readings(job, table, rulebook)
        assert (taken_back.changes, job.read_bytes()) == ((), before)
        assert taken_back.same > 150
