"""What an edit of the rules does to stored jobs, and which edited rule is behind it."""

import json
from concurrent.futures import Future

import pytest

from planner.planning.impact import impact_on
from planner.planning.impact_run import Books, OtherChangeError, Record, jobs_in, results, run
from planner.planning.job_reader import read_job
from planner.rulebook import load_rulebook
from planner.rulebook.definitions import Edited
from tests.planning.edited_books import EDIT, ROOT, edited, jobs

LARCH = ROOT / "shared" / "jobs" / "larch.yaml"


@pytest.fixture(scope="module")
def ours():
    return load_rulebook([ROOT / "rules"], [ROOT / "catalogs"])


@pytest.fixture(scope="module")
def old_folder(tmp_path_factory):
    return edited(tmp_path_factory.mktemp("old"))


@pytest.fixture(scope="module")
def change(ours, old_folder):
    return Edited(load_rulebook([old_folder / "rules"], [old_folder / "catalogs"]), ours)


def test_the_one_edited_row_is_found_and_moved_lines_are_no_edit(change):
    assert change.decisions == {"clearance_for_each_bore"}
    assert not change.rows
    assert not change.operations


def test_rules_held_against_themselves_change_nothing(ours):
    assert Edited(ours, ours).nothing


def test_a_decision_that_moves_names_the_row_behind_it(change):
    moved = impact_on(read_job(LARCH, change.old), read_job(LARCH, change.new), change)
    by_name = {each.id: each for each in moved if each.about == "decision"}
    wall = by_name["piston_to_wall"]
    assert (wall.before[:5], wall.after[:5]) == ("0.070", "0.078")
    (cause,) = wall.causes
    assert cause.rule == "clearance_for_each_bore"
    row = (ROOT / "rules" / "piston_clearance.yaml").read_text(encoding="utf-8").splitlines()
    line = int(cause.at.rpartition(":")[2])
    assert EDIT[0] in row[line - 1]
    assert cause.was_at == f"rules/piston_clearance.yaml:{line + 1}"
    assert "forged_2618" in cause.row


def test_what_does_not_rest_on_the_edit_is_not_told(change):
    moved = impact_on(read_job(LARCH, change.old), read_job(LARCH, change.new), change)
    names = {each.id for each in moved}
    assert names >= {"piston_to_wall", "finished_bore"}
    assert not names & {"compression_ratio", "top_ring_gap", "bore_oversize", "pin_wall"}


def test_a_catalog_row_that_was_edited_is_named(ours, tmp_path):
    folder = edited(tmp_path / "stock")
    path = folder / "catalogs" / "pins.yaml"
    text = path.read_text(encoding="utf-8")
    row = next(line for line in text.splitlines() if "price_low: 62" in line)
    assert "price_low: 62" in text
    path.write_text(text.replace("price_low: 62", "price_low: 61", 1), encoding="utf-8")
    change = Edited(load_rulebook([folder / "rules"], [folder / "catalogs"]), ours)
    assert change.rows == {"pins": (f"pins {row.partition(':')[0].strip()}",)}


class HereAndNow:
    """A pool that works at once."""

    def __init__(self, stop_after=None):
        self.left = stop_after
        self.jobs = []

    def submit(self, work, *arguments):
        if self.left == 0:
            raise KeyboardInterrupt
        self.left = None if self.left is None else self.left - 1
        self.jobs.append(arguments[-1])
        found = Future()
        found.set_result(work(*arguments))
        return found


@pytest.fixture(scope="module")
def books(old_folder, tmp_path_factory):
    def texts(folder):
        return (str(folder / "rules"),), (str(folder / "catalogs"),)

    return Books(texts(old_folder), texts(ROOT), str(tmp_path_factory.mktemp("cache")))


def test_a_run_that_was_stopped_goes_on_where_it_was(books, tmp_path):
    folder, path = jobs(tmp_path / "jobs", 3), tmp_path / "kept.jsonl"
    first = Record(path, "old new")
    with pytest.raises(KeyboardInterrupt):
        list(run(books, folder, first, HereAndNow(stop_after=2), 1))
    first.take(
        json.dumps({"job": "job_0.yaml", "sha256": "as it was", "moved": [], "problem": ""})
    )
    first.close()
    with path.open("a", encoding="utf-8") as stream:
        stream.write('{"job": "job_1.yaml", "sha')
    (folder / "job_2.yaml").write_text("job: [", encoding="utf-8")

    again, pool = Record(path, "old new"), HereAndNow()
    told = list(run(books, folder, again, pool, 1))
    again.close()
    assert told[-1] == (3, 3)
    assert set(pool.jobs) == {"job_0.yaml", "job_1.yaml", "job_2.yaml"}
    found = {each.job: each for each in results(path, set(jobs_in(folder)))}
    assert len(found) == 3
    assert "not closed" in found["job_2.yaml"].problem
    assert any(each.id == "piston_to_wall" for each in found["job_0.yaml"].moved)

    third, pool = Record(path, "old new"), HereAndNow()
    assert list(run(books, folder, third, pool, 1)) == [(3, 3)]
    third.close()
    assert pool.jobs == []


def test_a_record_of_another_change_is_refused(tmp_path):
    Record(tmp_path / "kept.jsonl", "one change").close()
    with pytest.raises(OtherChangeError, match="another change"):
        Record(tmp_path / "kept.jsonl", "another change")


def test_a_job_that_cannot_be_opened_is_told_and_the_rest_goes_on(books, tmp_path):
    folder = jobs(tmp_path / "jobs", 1)
    (folder / "gone.yaml").symlink_to(tmp_path / "nowhere")
    kept = Record(tmp_path / "kept.jsonl", "x")
    list(run(books, folder, kept, HereAndNow(), 1))
    kept.close()
    found = list(results(kept.path, set(jobs_in(folder))))
    assert [bool(each.problem) for each in found] == [True, False]
