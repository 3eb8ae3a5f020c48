"""The `sheets` command."""

from click.testing import CliRunner

import planner.faces.cli.sheets as command_module
from planner.faces.cli.group import cli
from tests.sheets.packets import JOBS

LARCH = str(JOBS / "larch.yaml")


def run(*arguments: str):
    return CliRunner().invoke(cli, ["sheets", *arguments], catch_exceptions=False)


def test_sheets_are_written_as_html_and_pdf_and_named(tmp_path):
    result = run(LARCH, "-o", str(tmp_path / "out"), "--only", "torque", "--only", "first-start")
    assert result.exit_code == 0
    names = sorted(each.name for each in (tmp_path / "out").iterdir())
    assert names == ["first-start.html", "first-start.pdf", "torque.html", "torque.pdf"]
    assert [line.rpartition("/")[2] for line in result.stdout.split()] == [
        "torque.html",
        "first-start.html",
        "torque.pdf",
        "first-start.pdf",
    ]


def test_two_runs_write_the_same_bytes(tmp_path):
    for name in ("one", "two"):
        run(LARCH, "-o", str(tmp_path / name), "--only", "customer", "--paper", "letter")
    for form in ("html", "pdf"):
        one, two = ((tmp_path / name / f"customer.{form}").read_bytes() for name in ("one", "two"))
        assert one == two


def test_without_the_print_engine_html_is_written_and_the_extra_is_named(tmp_path, monkeypatch):
    monkeypatch.setattr(command_module, "is_installed", lambda: False)
    result = run(LARCH, "-o", str(tmp_path), "--only", "torque")
    assert result.exit_code == 0
    assert [each.name for each in tmp_path.iterdir()] == ["torque.html"]
    assert "pip install 'borewright[print]'" in result.stderr


def test_inch_units_reach_the_sheets(tmp_path):
    run(LARCH, "-o", str(tmp_path), "--only", "route", "--units", "inch")
    assert "3.405" in (tmp_path / "route.html").read_text(encoding="utf-8")


def test_what_if_settings_reach_the_sheets(tmp_path):
    run(LARCH, "-o", str(tmp_path), "--only", "torque", "--set", "job.name=Another name")
    assert "Another name" in (tmp_path / "torque.html").read_text(encoding="utf-8")


def test_a_folder_that_cannot_be_made_is_told_in_three_parts(tmp_path):
    (tmp_path / "file").write_text("in the way")
    result = CliRunner().invoke(
        cli, ["sheets", LARCH, "-o", str(tmp_path / "file" / "below"), "--only", "torque"]
    )
    assert isinstance(result.exception, command_module.CannotWriteError)
    assert "cannot be written" in result.exception.problem
