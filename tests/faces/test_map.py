"""The `map` command: what it writes, what it refuses."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from planner.faces.cli.group import cli

LARCH = str(Path(__file__).parents[2] / "shared" / "jobs" / "larch.yaml")


def run(*arguments):
    return CliRunner().invoke(cli, ["map", *arguments])


@pytest.mark.parametrize("form", ["svg", "json", "csv"])
def test_it_writes_what_the_ending_says(tmp_path, form):
    told = run(LARCH, "-o", str(tmp_path / f"map.{form}"))
    text = (tmp_path / f"map.{form}").read_text(encoding="utf-8")
    assert told.exit_code == 0
    assert told.stdout == ""
    assert "Map: 90 of 90 tiles." in told.stderr
    begins = {"svg": "<svg", "json": "{", "csv": "ratio,"}
    assert text.startswith(begins[form])


def test_what_if_moves_the_ring(tmp_path):
    path = tmp_path / "map.json"
    run(LARCH, "-o", str(path), "--set", "goals.boost=0.8 bar gauge")
    assert json.loads(path.read_text(encoding="utf-8"))["chosen_boost"] == pytest.approx(0.8)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [(("map.png",), "written as .svg, .json, .csv"), (("map.svg", "--fine"), "do not fit")],
)
def test_wrong_use_is_told_before_any_work(tmp_path, arguments, words):
    name, *flags = arguments
    told = run(LARCH, "-o", str(tmp_path / name), *flags)
    assert told.exit_code == 2
    assert words in told.stderr
