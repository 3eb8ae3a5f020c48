"""A job keeps every state it was in; nothing is lost and nothing overwritten."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from planner.models.history import MadeWith
from planner.planning.history import (
    BEGINS,
    BY_HAND,
    Edit,
    NoSuchRevisionError,
    UnfinishedChangeError,
    UnreadableJobError,
    change_job,
    changes_between,
    history_path,
    put_down,
    read_history,
)

KILLING = Path(__file__).with_name("killing.py")
RULES = MadeWith(rules_edition="2027.1", rules_sha256="ab" * 32, version="0.1.0")
JOB = "format: 1\nas_built:\n  finished_bore: {unit: mm, readings: {3: 86.51}}   # warm\n"


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "larch.yaml"
    path.write_text(JOB, encoding="utf-8")
    return path


def _change(job, key, value, **told):
    told = {"who": "A. Roe", "why": "measured again", "made_with": RULES} | told
    return change_job(job, [Edit(tuple(key.split(".")), value)], **told)


def test_a_change_is_written_down_with_who_when_what_old_and_new(job):
    made = _change(job, "as_built.finished_bore.readings.3", 86.502)
    assert job.read_text() == JOB.replace("86.51", "86.502")
    history = read_history(job)
    assert [each.why for each in history.revisions] == [BEGINS, "measured again"]
    assert history.last == made
    assert made.who == "A. Roe"
    assert made.when.endswith("Z")
    assert made.made_with == RULES
    change = made.changes[0]
    assert (change.key, change.old, change.new) == (
        "as_built.finished_bore.readings.3",
        "86.51",
        "86.502",
    )


def test_what_was_changed_in_an_editor_is_a_revision_of_its_own(job):
    _change(job, "job.name", "Larch")
    job.write_text(job.read_text().replace("warm", "cold").replace("86.51", "86.52"))
    _change(job, "job.reference", "D-1", who="B. Moe")
    whys = [(each.why, each.who) for each in read_history(job).revisions]
    assert whys[2] == (BY_HAND, "B. Moe")
    assert read_history(job).revisions[2].changes[0].new == "86.52"
    assert len(whys) == 4


def test_nothing_changed_writes_nothing_down(job):
    _change(job, "job.name", "Larch")
    before = history_path(job).read_text()
    assert _change(job, "job.name", "Larch") is None
    assert history_path(job).read_text() == before


def test_every_state_can_be_looked_at_again(job):
    _change(job, "job.name", "Larch")
    _change(job, "job.name", "Sorrel")
    assert read_history(job).revision(1).text == JOB
    assert "Larch" in read_history(job).revision(2).text
    with pytest.raises(NoSuchRevisionError, match="no revision 9"):
        read_history(job).revision(9)


def test_a_writer_killed_before_it_replaced_the_file_is_caught_up_with(job):
    _change(job, "job.name", "Larch")
    before = job.read_text()
    _change(job, "job.reference", "D-1")
    job.write_text(before)  # as if killed between the history and the file
    _change(job, "job.note", "later")
    assert "D-1" in job.read_text()
    assert [each.number for each in read_history(job).revisions] == [1, 2, 3, 4]


def test_a_command_that_holds_the_lock_itself_finishes_what_was_left_half_done(job):
    _change(job, "job.name", "Larch")
    before = job.read_text()
    _change(job, "job.reference", "D-1")
    job.write_text(before)  # as if killed between the history and the file
    with pytest.raises(UnfinishedChangeError, match="half done"):
        put_down(job, before + "x: 1\n", who="A", why="w", made_with=RULES)
    assert "D-1" in job.read_text()
    made = put_down(job, job.read_text() + "x: 1\n", who="A", why="w", made_with=RULES)
    assert made.changes[0].key == "x"
    assert put_down(job, job.read_text(), who="A", why="w", made_with=RULES) is None


def test_a_torn_line_is_named_and_what_follows_still_reads(job):
    _change(job, "job.name", "Larch")
    with history_path(job).open("a") as file:
        file.write('{"number": 3, "torn')
    _change(job, "job.note", "later")
    history = read_history(job)
    assert history.damaged == (3,)
    assert [each.number for each in history.revisions] == [1, 2, 3]
    assert history.broken == ()


def test_a_line_that_somebody_changed_breaks_the_chain(job):
    _change(job, "job.name", "Larch")
    _change(job, "job.note", "later")
    lines = history_path(job).read_text().splitlines()
    lied = json.loads(lines[1]) | {"who": "somebody else"}
    lines[1] = json.dumps(lied)
    history_path(job).write_text("\n".join(lines) + "\n")
    assert read_history(job).broken == (3,)


def test_a_file_that_is_not_there_is_named(tmp_path):
    with pytest.raises(UnreadableJobError, match=r"none\.yaml cannot be read"):
        _change(tmp_path / "none.yaml", "job.name", "x")


def test_a_text_that_is_no_yaml_still_leaves_a_revision():
    change = changes_between("a: 1\n", "a: [1\n")
    assert [each.key for each in change] == ["a", "(the file could not be read)"]


_WRITER = """
import sys
from pathlib import Path
from planner.models.history import MadeWith
from planner.planning.history import Edit, change_job
for count in range(15):
    edit = Edit(("as_built", sys.argv[2], "readings", str(count)), float(count))
    change_job(Path(sys.argv[1]), [edit], who=sys.argv[2], why="test", made_with=MadeWith())
"""


def test_two_processes_writing_at_once_lose_neither_ones_entry(job):
    running = [
        subprocess.Popen([sys.executable, "-c", _WRITER, str(job), name])
        for name in ("bench", "hone")
    ]
    assert [each.wait(timeout=120) for each in running] == [0, 0]
    history = read_history(job)
    assert len(history.revisions) == 31
    text = job.read_text()
    assert text == history.last.text
    assert all(f"{count}: {float(count)}" in text for count in range(15))
    assert text.count("14: 14.0") == 2


@pytest.mark.skipif(sys.platform == "win32", reason="needs fork")
def test_a_program_killed_at_any_moment_leaves_the_old_file_or_the_new_one(job):
    ended = subprocess.run(
        [sys.executable, str(KILLING), str(job), "40", "1"],
        env={**os.environ, "PYTHONPATH": str(KILLING.parents[2])},
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert ended.returncode == 0, ended.stderr
    assert ended.stdout.startswith("40 kills")
