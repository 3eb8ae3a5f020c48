"""A table that cannot be read is told by row and column, and nothing of it is written."""

import pytest

from tests.teardown.jobs import refused

HEAD = "cylinder,depth,thrust [mm],crank [mm]\n"
ROW = "1,15,86.072,86.046\n"


@pytest.mark.parametrize(
    ("table", "at", "told"),
    [
        (HEAD + "1,15,86.O72,86.046\n", "bores.csv:2:3", "'O72' is not a unit"),
        (HEAD + ROW + "3,15,86.1,86.1\n", "bores.csv:3:1", "there is no cylinder '3'"),
        (HEAD + ROW + "1,20,86.1,86.1\n", "bores.csv:3:3", "bores has no depth '20'"),
        (HEAD + "1,15,3.386,86.046\n", "bores.csv:2:3", "3.386"),
        (HEAD + "1,15,860.72,86.046\n", "bores.csv:2:3", "860.72"),
        (HEAD + ROW + ROW, "bores.csv:3:3", "filled twice"),
        (HEAD + ROW + "1,15,86.072,86.046,9\n", "bores.csv:3:5", "has 5 cells"),
        (HEAD + "2,15,86.072,86.046\n", "bores.csv:2:3", "lacks 65 thrust"),
        (HEAD + "1,15,86.072,\n2,15,86.1,86.1\n2,65,86.1,\n", "bores.csv:3:3", "lacks 65 crank"),
        (HEAD + '1,15,"86.072,86.046\n', "bores.csv:2:1", "cannot be read"),
        (HEAD + '1,15,"86,072",86.046\n', "bores.csv:2:3", "the other"),
        (HEAD + '1,15,"1.086,072",86.046\n', "bores.csv:2:3", "a point and a comma"),
        (HEAD, "bores.csv:1:1", "no figures"),
        ("", "bores.csv:1:1", "the table is empty"),
        ("depth,thrust [mm],crank [mm]\n15,86.1,86.1\n", "bores.csv:2:2", "which?"),
        ("cylinder,depth,thrust,crank\n1,15,86.1,86.1 lbs\n", "bores.csv:2:4", "lbs"),
        ("cylinder,depth,thrust [mn],crank\n1,15,86.1,86.1\n", "bores.csv:1:3", "mn"),
        ("main,depth,thrust [mm],crank [mm]\n1,15,86.1,86.1\n", "bores.csv:2:1", "counts main"),
    ],
)
def test_a_slip_is_told_at_its_row_and_column(tmp_path, table, at, told):
    found = refused(tmp_path, table, name="bores.csv")
    assert found
    assert any(each.startswith(at) and told in each for each in found), found


@pytest.mark.parametrize(
    ("table", "told"),
    [
        ("cylinder,depth,thrust [mm]\n1,15,86.1\n", "--reading bores"),
        ("reading,item,value [mm]\nbore,1,86.1\n", "did you mean bores?"),
        ("reading,item,valeu [mm]\nbores,1,86.1\n", "no reading is named so"),
        ("reading,item,note,value [mm]\nbores,1,x,86.1\n", "the columns reading, item"),
        ("reading,item,value,value\nbores,1,86.1,86.1\n", "a second time"),
        ("reading,value [bar]\noil_pressure,1.1\n", "value [bar gauge]"),
        ("cylinder,wall\n1,6.2 kg\n", "6.2 kg"),
    ],
)
def test_a_header_that_does_not_say_what_is_what_is_told(tmp_path, table, told):
    assert any(told in each for each in refused(tmp_path, table))


def test_all_slips_of_a_table_are_told_in_one_run(tmp_path):
    table = HEAD + "1,15,x,86.046\n9,15,86.1,86.1\n"
    assert len(refused(tmp_path, table, name="bores.csv")) == 3


def test_a_file_that_is_no_text_is_told_and_not_read(tmp_path):
    [told] = refused(tmp_path, b"\x81\x8d\x00\xff\x90", name="bores.csv")
    assert "is not text" in told


def test_what_would_make_the_job_wrong_is_told_in_the_job_and_not_written(tmp_path):
    assert refused(tmp_path, "cylinder,wall [mm]\n1,99\n")
