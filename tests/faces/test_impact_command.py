"""`rules impact`: on all cores, from a folder or a revision, and on a cluster."""

import csv
import io
import json

import pytest
from click.testing import CliRunner

from planner.datafiles.revisions import NoSuchRevisionError, unpack_revision
from planner.faces.cli.group import cli
from planner.planning.impact_cluster import NoClusterError, cluster
from planner.rulebook.files import read_rule_files
from tests.planning.edited_books import ROOT, edited, jobs


@pytest.fixture(scope="module")
def folders(tmp_path_factory):
    base = tmp_path_factory.mktemp("impact")
    return edited(base / "old"), jobs(base / "jobs", 2)


def called(folders, *arguments):
    old, stored = folders
    words = ["rules", "impact", "--against", str(old), "--jobs", str(stored), *arguments]
    return CliRunner().invoke(cli, words, catch_exceptions=False)


def test_the_text_sums_up_and_progress_goes_to_standard_error(folders):
    told = called(folders, "--workers", "2")
    assert "2 jobs: 2 change, 0 stay the same" in told.stdout
    assert "piston to wall: 2 jobs; job_0.yaml: 0.070" in told.stdout
    assert "by clearance_for_each_bore rules/piston_clearance.yaml:" in told.stdout
    assert "2 of 2 jobs" in told.stderr
    assert "of 2 jobs" not in told.stdout
    assert max(map(len, told.stdout.splitlines())) <= 80


def test_csv_and_json_tell_every_job_alike(folders, tmp_path):
    record = ("--record", str(tmp_path / "kept.jsonl"))
    rows = list(csv.DictReader(io.StringIO(called(folders, "--format", "csv", *record).stdout)))
    document = json.loads(called(folders, "--format", "json", *record).stdout)
    moved = {
        (job["job"], each["about"], each["id"], each["before"], each["after"])
        for job in document["jobs"]
        for each in job["moved"]
    }
    assert document["schema"] == "borewright.impact/1"
    assert moved == {
        tuple(row[k] for k in ("job", "about", "id", "before", "after")) for row in rows
    }


def test_without_old_rules_there_is_nothing_to_hold_against(folders):
    told = CliRunner().invoke(cli, ["rules", "impact", "--jobs", str(folders[1])])
    assert told.exit_code == 2
    assert "Name the old rules" in told.stderr


def test_a_revision_is_unpacked_as_it_was(tmp_path):
    if not (ROOT / ".git").exists():
        pytest.skip("not a checkout")
    unpack_revision("HEAD", ROOT, ("rules", "catalogs"), tmp_path)
    assert read_rule_files([tmp_path / "rules"], [tmp_path / "catalogs"]).headings["decisions"]


@pytest.mark.parametrize("revision", ["no-such-thing", "--output=stolen", "HEAD:nowhere"])
def test_what_is_no_revision_is_refused_by_name(tmp_path, revision):
    with pytest.raises(NoSuchRevisionError, match=revision.replace("-", ".")):
        unpack_revision(revision, ROOT, ("rules", "catalogs"), tmp_path)
    assert not list(tmp_path.iterdir())


def test_a_cluster_that_is_not_there_is_told(monkeypatch):
    pytest.importorskip("distributed")
    monkeypatch.setattr("planner.planning.impact_cluster.PATIENCE", "0.5s")
    with (
        pytest.raises(NoClusterError, match="No Dask cluster works at"),
        cluster("tcp://127.0.0.1:9"),
    ):
        pass


@pytest.mark.slow
def test_a_real_cluster_says_the_same_as_this_machine(folders):
    distributed = pytest.importorskip("distributed")
    alone = called(folders, "--format", "json").stdout
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
    ) as local:
        far = called(folders, "--format", "json", "--dask", local.scheduler_address).stdout
    assert json.loads(far) == json.loads(alone)
