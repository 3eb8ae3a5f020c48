"""The readings command: what it brings is shown, what is wrong is told, and nothing is lost."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from planner.faces.cli.group import cli

ROOT = Path(__file__).parents[2]
LARCH = ROOT / "shared" / "jobs" / "larch.yaml"


@pytest.fixture
def job(tmp_path):
    copy = tmp_path / "larch.yaml"
    copy.write_bytes(LARCH.read_bytes())
    return copy


def run(*words):
    return CliRunner().invoke(cli, ["readings", *map(str, words)])


def test_an_export_taken_back_changes_nothing(job, tmp_path):
    table = tmp_path / "all.csv"
    assert run(job, "--export", table, "--decimal-comma").exit_code == 0
    told = run(job, table)
    assert told.exit_code == 0
    assert f"Nothing to change in {job}." in told.output
    assert job.read_bytes() == LARCH.read_bytes()


def test_a_changed_figure_is_shown_and_only_its_line_moves(job, tmp_path):
    table = tmp_path / "bores.csv"
    table.write_text("cylinder,depth,thrust [mm]\n3,15,86.140\n")
    told = run(job, table)
    assert told.exit_code == 0
    assert "bores cylinder 3:" in told.output
    before, after = LARCH.read_text().splitlines(), job.read_text().splitlines()
    moved = [(a, b) for a, b in zip(before, after, strict=True) if a != b]
    assert [b for _, b in moved] == [moved[0][0].replace("86.138", "86.14")]


def test_a_broken_table_is_told_by_row_and_column_and_nothing_is_written(job, tmp_path):
    table = tmp_path / "bores.csv"
    table.write_text("cylinder,depth,thrust [mm]\n3,15,3.386\n")
    told = run(job, table)
    assert told.exit_code != 0
    assert "bores.csv:2:3" in str(told.exception)
    assert job.read_bytes() == LARCH.read_bytes()


def test_a_dry_run_says_what_would_be_written(job, tmp_path):
    table = tmp_path / "bores.csv"
    table.write_text("cylinder,depth,thrust [mm]\n3,15,86.140\n")
    assert "Nothing was written" in run(job, table, "--dry-run").output
    assert job.read_bytes() == LARCH.read_bytes()


def test_a_blank_sheet_of_one_component_is_printed(job):
    told = run(job, "--blank", "--only", "main_journals")
    assert told.exit_code == 0
    assert "main 5 " in told.output
    assert "outside micrometer" in told.output


def test_a_component_without_a_sheet_is_told_with_the_nearest(job):
    told = run(job, "--blank", "--only", "bore")
    assert "Did you mean bores?" in str(told.exception)


@pytest.mark.parametrize("words", [(), ("x.csv", "--blank")])
def test_one_thing_at_a_time_is_asked_for(job, words):
    told = run(job, *words)
    assert told.exit_code == 2
    assert "Give one of" in told.output
