"""Whoever looks finds the old file or the new one, whole."""

import subprocess
import sys

import pytest

from planner.datafiles.writing import NotWrittenError, add_line, locked, write_whole


def test_a_file_is_replaced_whole_and_nothing_is_left_beside_it(tmp_path):
    path = tmp_path / "job.yaml"
    path.write_text("old\n")
    path.chmod(0o640)
    write_whole(path, "new ±\r\n")
    assert path.read_bytes() == "new ±\r\n".encode()
    assert path.stat().st_mode & 0o777 == 0o640
    assert [each.name for each in tmp_path.iterdir()] == ["job.yaml"]


def test_a_link_stays_a_link(tmp_path):
    path, link = tmp_path / "job.yaml", tmp_path / "link.yaml"
    path.write_text("old")
    link.symlink_to(path)
    write_whole(link, "new")
    assert link.is_symlink()
    assert path.read_text() == "new"


def test_a_folder_that_is_not_there_is_named_and_the_way_out_said(tmp_path):
    with pytest.raises(NotWrittenError, match=r"nowhere.job\.yaml cannot be written") as refused:
        write_whole(tmp_path / "nowhere" / "job.yaml", "x")
    assert "Check the disk" in refused.value.remedy


def test_a_torn_last_line_is_closed_and_never_overwritten(tmp_path):
    path = tmp_path / "log"
    path.write_text('{"n": 1}\n{"n": 2, "ha')
    add_line(path, '{"n": 2}')
    assert path.read_text() == '{"n": 1}\n{"n": 2, "ha\n{"n": 2}\n'


_COUNT = """
import sys
from pathlib import Path
from planner.datafiles.writing import locked, write_whole
path = Path(sys.argv[1])
for _ in range(50):
    with locked(path):
        write_whole(path, str(int(path.read_text()) + 1))
"""


def test_processes_that_lock_do_not_lose_each_others_counts(tmp_path):
    path = tmp_path / "count"
    path.write_text("0")
    running = [subprocess.Popen([sys.executable, "-c", _COUNT, str(path)]) for _ in range(3)]
    assert [each.wait(timeout=60) for each in running] == [0, 0, 0]
    assert path.read_text() == "150"


def test_a_lock_is_let_go_when_the_block_ends_in_an_error(tmp_path):
    path = tmp_path / "job.yaml"
    with pytest.raises(ValueError, match="stopped"), locked(path):
        raise ValueError("stopped")
    with locked(path):
        pass
