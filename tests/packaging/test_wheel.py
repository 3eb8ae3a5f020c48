"""The wheel holds all it needs, installs clean, and plans from a folder of its own."""

import json
import shutil
import subprocess
import sys
import tomllib
import venv
import zipfile
from pathlib import Path

import pytest

import planner

ROOT = Path(planner.__file__).parent.parent
# What the build reads; the tests' own caches and the repository stay out of it.
PARTS = ("planner", "rules", "catalogs", "pyproject.toml", "README.md", "LICENSE")
JOB = "larch.yaml"


def run(*command, folder):
    """Run a command away from the checkout and give its output."""
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
    assert done.returncode == 0, f"{command}\n{done.stdout}\n{done.stderr}"
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """The wheel, built from a copy of the tree so that nothing is left behind in it."""
    folder = tmp_path_factory.mktemp("wheel")
    source = folder / "source"
    source.mkdir()
    for part in PARTS:
        if (ROOT / part).is_dir():
            unwanted = shutil.ignore_patterns("__pycache__", "_data")
            shutil.copytree(ROOT / part, source / part, ignore=unwanted)
        else:
            shutil.copy2(ROOT / part, source / part)
    run(sys.executable, "-m", "build", "--wheel", "--outdir", folder, source, folder=folder)
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory):
    """The scripts folder of a clean environment with the wheel in it."""
    folder = tmp_path_factory.mktemp("clean")
    venv.create(folder / "venv", with_pip=True)
    scripts = folder / "venv" / ("Scripts" if sys.platform == "win32" else "bin")
    run(scripts / "python", "-m", "pip", "install", "--quiet", wheel, folder=folder)
    return scripts


def yaml_files(kind):
    return {str(each.relative_to(ROOT)) for each in (ROOT / kind).rglob("*.yaml")}


@pytest.mark.slow
def test_the_wheel_holds_every_rule_and_catalog_and_no_tests(wheel):
    names = zipfile.ZipFile(wheel).namelist()
    data = {each.removeprefix("planner/_data/") for each in names if "/_data/" in each}
    wanted = yaml_files("rules") | yaml_files("catalogs")
    assert wanted
    assert wanted <= data
    tops = {each.partition("/")[0] for each in names}
    assert tops == {"planner", f"borewright-{planner.__version__}.dist-info"}


@pytest.mark.slow
def test_the_wheel_carries_the_licence_and_the_command(wheel):
    archive = zipfile.ZipFile(wheel)
    info = f"borewright-{planner.__version__}.dist-info"
    assert "MIT License" in archive.read(f"{info}/licenses/LICENSE").decode()
    assert (
        "borewright = planner.faces.cli:main" in archive.read(f"{info}/entry_points.txt").decode()
    )


@pytest.mark.slow
def test_an_installed_command_plans_a_copied_job_from_another_folder(installed, tmp_path):
    shutil.copy2(ROOT / "shared" / "jobs" / JOB, tmp_path / JOB)
    text = run(installed / "borewright", "plan", JOB, "--format", "json", folder=tmp_path)
    plan = json.loads(text)
    assert plan["schema"] == "borewright.plan/1"
    assert plan["decisions"]["compression_ratio"]["status"] in {"firm", "provisional"}
    assert plan["operations"]


@pytest.mark.slow
def test_the_installed_rules_are_those_inside_the_package(installed, tmp_path):
    code = (
        "from planner.datafiles.locate import shipped_folder;"
        "print(shipped_folder('rules')); print(shipped_folder('catalogs'))"
    )
    for line in run(installed / "python", "-c", code, folder=tmp_path).splitlines():
        assert Path(line).parent.name == "_data"
        assert not Path(line).is_relative_to(ROOT)


def test_the_version_is_told_once_more_in_the_settings():
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert settings["project"]["version"] == planner.__version__
