"""The `finish` command: a trace in, figures out, and an exit code a shop can rely on."""

import json
import math
from pathlib import Path

from click.testing import CliRunner

from planner.faces.cli.finish import command

ROOT = Path(__file__).resolve().parents[2]
LARCH = str(ROOT / "shared/jobs/larch.yaml")


def trace(folder, height):
    path = folder / "trace.csv"
    rows = [f"{at * 0.0005:.4f},{height * math.sin(at / 30):.5f}" for at in range(9600)]
    path.write_text("\n".join(["distance mm,height um", *rows]), encoding="utf-8")
    return str(path)


def test_figures_without_a_job_end_well(tmp_path):
    told = CliRunner().invoke(command, [trace(tmp_path, 0.5)])
    assert told.exit_code == 0
    assert "Rpk" in told.output


def test_a_surface_outside_the_jobs_limits_ends_with_one(tmp_path):
    told = CliRunner().invoke(command, [trace(tmp_path, 3.0), "--job", LARCH])
    assert told.exit_code == 1
    assert "Finish wanted: plateau" in told.output
    assert "OUTSIDE" in told.output


def test_json_tells_each_figure(tmp_path):
    told = CliRunner().invoke(command, [trace(tmp_path, 0.5), "--format", "json"])
    names = [each["name"] for each in json.loads(told.output)["figures"]]
    assert names == ["Ra", "Rz", "Rpk", "Rk", "Rvk", "Mr1", "Mr2"]


def test_a_cut_off_that_is_no_length_is_wrong_use(tmp_path):
    told = CliRunner().invoke(command, [trace(tmp_path, 0.5), "--cut-off", "3 bar"])
    assert told.exit_code == 2
    assert "is not a length" in told.output
