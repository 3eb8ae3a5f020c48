"""Commands of the quote and the route: compare, done, and parts for a spreadsheet."""

import csv
import json
from io import StringIO

import pytest
from click.testing import CliRunner

from planner.errors import BorewrightError
from planner.faces.cli.group import cli
from tests.planning.priced import ROOT

LARCH = str(ROOT / "shared" / "jobs" / "larch.yaml")


def run(*arguments):
    return CliRunner().invoke(cli, [str(each) for each in arguments])


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "job.yaml"
    path.write_bytes((ROOT / "shared" / "jobs" / "larch.yaml").read_bytes())
    return path


def test_compare_tells_what_a_setting_changes():
    found = run("compare", LARCH, "--set", "goals.fuel=e85", "--set", "goals.ethanol=always")
    assert found.exit_code == 0
    assert "compression ratio: 8.3 to 8.8" in found.stdout


def test_compare_tells_two_files_apart_as_json(job):
    job.write_text(job.read_text("utf-8").replace("boost: 1.1 bar", "boost: 1.3 bar"), "utf-8")
    found = run("compare", LARCH, job, "--format", "json")
    assert found.exit_code == 0
    told = json.loads(found.stdout)
    assert told["inputs"][0]["id"] == "boost"
    assert told["specification"][0]["rule"].startswith("rules/")


def test_compare_with_nothing_to_compare_is_wrong_use():
    found = run("compare", LARCH)
    assert found.exit_code == 2
    assert "--set KEY=VALUE" in found.stderr


def test_done_writes_who_and_when_and_tells_what_is_next(job):
    found = run("done", job, "goal_interview", "--by", "A. Builder", "--on", "2027-01-12")
    assert found.exit_code == 0
    assert "goal_interview: done 2027-01-12 by A. Builder" in found.stdout
    assert "Can start now: running_tests" in found.stdout
    assert "by: A. Builder" in job.read_text("utf-8")


def test_done_out_of_turn_is_told_in_three_parts(job):
    found = run("done", job, "line_hone")
    assert isinstance(found.exception, BorewrightError)
    assert str(found.exception).count("\n") == 2


def test_a_day_that_is_no_date_is_wrong_use(job):
    assert run("done", job, "goal_interview", "--on", "12.1.2027").exit_code == 2


def test_the_parts_come_as_a_table_for_a_spreadsheet():
    found = run("plan", LARCH, "--format", "csv")
    assert found.exit_code == 0
    rows = list(csv.DictReader(StringIO(found.stdout)))
    assert rows[0]["part"] == "pistons"
    assert {row["order"] for row in rows} == {"now"}
