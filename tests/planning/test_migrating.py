"""Jobs of every format there was: read as they are, or brought up, or refused by name."""

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from planner.errors import ProblemsFound
from planner.faces.cli.group import cli
from planner.planning.job_keys import FORMAT
from planner.planning.job_reader import read_job
from planner.planning.migrating import NotMigratedError, migrate
from planner.rulebook import load_rulebook

ROOT = Path(__file__).parents[2]
PAST = Path(__file__).parent / "formats"


@pytest.fixture(scope="module")
def rulebook():
    return load_rulebook([ROOT / "rules"], [ROOT / "catalogs"])


def copied(name, folder):
    return Path(shutil.copy(PAST / name, folder / name))


@pytest.mark.parametrize("name", sorted(each.name for each in PAST.glob("*.yaml")))
def test_a_job_of_every_past_format_reads_after_it_is_migrated(name, tmp_path, rulebook):
    path = copied(name, tmp_path)
    migrate(path)
    reading = read_job(path, rulebook)
    larch = read_job(ROOT / "shared" / "jobs" / "larch.yaml", rulebook)
    assert reading.job.engine == larch.job.engine
    assert reading.facts.inputs.keys() == larch.facts.inputs.keys()
    assert migrate(path) is False


def test_there_is_a_job_of_every_format():
    numbered = {each.stem for each in PAST.glob("format_*.yaml")}
    assert numbered == {f"format_{number}" for number in range(1, int(FORMAT) + 1)}


def test_only_the_number_is_added_below_the_opening_comment(tmp_path):
    path = copied("unnumbered.yaml", tmp_path)
    before = path.read_text(encoding="utf-8").splitlines()
    assert migrate(path) is True
    after = path.read_text(encoding="utf-8").splitlines()
    assert after[0].startswith("#")
    after.remove("format: 1")
    assert after == before


def test_line_ends_of_another_system_stay(tmp_path):
    path = tmp_path / "job.yaml"
    path.write_bytes(b"# a comment\r\njob: {name: one}\r\n")
    migrate(path)
    assert path.read_bytes() == b"# a comment\r\nformat: 1\r\njob: {name: one}\r\n"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("format: 2\njob: {}\n", "bring the program up to date"),
        ("format: one\njob: {}\n", "no such format"),
        ("format: [1]\njob: {}\n", "not one number"),
        ("- a list\n", "a block of keys"),
        ("job: [\n", "not closed"),
    ],
)
def test_what_is_no_job_of_ours_is_refused_and_left(tmp_path, text, told):
    path = tmp_path / "job.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(ProblemsFound, match=told):
        migrate(path)
    assert path.read_text(encoding="utf-8") == text


def test_a_job_on_one_line_in_braces_is_left_to_its_writer(tmp_path):
    path = tmp_path / "job.yaml"
    path.write_text("{job: {name: one}}\n", encoding="utf-8")
    with pytest.raises(NotMigratedError, match="Write format: 1"):
        migrate(path)
    assert path.read_text(encoding="utf-8") == "{job: {name: one}}\n"


def test_the_command_goes_on_past_a_job_it_refuses(tmp_path):
    newer = tmp_path / "newer.yaml"
    newer.write_text("format: 9\n", encoding="utf-8")
    old = copied("unnumbered.yaml", tmp_path)
    told = CliRunner().invoke(cli, ["migrate", str(newer), str(old)])
    assert told.exit_code == 1
    assert "format 9" in told.stderr
    assert "unnumbered.yaml: brought up to format 1" in told.stdout
