"""Figures of a table set into a job: only what differs moves, and every other byte stays."""

import pytest

from planner.planning.taking_readings import asked_of, take_readings
from planner.teardown.exporting import exported
from tests.planning import shop
from tests.teardown.jobs import COMMENTED, take, text_of

GRID = """\
cylinder,depth,thrust [mm],crank [mm]
1,15,86.072,86.046
1,65,86.042,86.031
2,15,86.138,86.083
2,65,86.074,86.052
"""


def changed_lines(before, after):
    return [
        (old, new)
        for old, new in zip(before.splitlines(), after.splitlines(), strict=True)
        if old != new
    ]


def test_a_grid_changes_only_the_figures_that_differ(tmp_path):
    taken = take(tmp_path, GRID, name="bores.csv")
    assert taken.written
    assert changed_lines(COMMENTED, text_of(tmp_path)) == [
        (
            "      1: [[86.071, 86.046], [86.042, 86.0310]]   # first",
            "      1: [[86.072, 86.046], [86.042, 86.0310]]   # first",
        ),
        (
            "      2:                                         # not yet",
            "      2: [[86.138, 86.083], [86.074, 86.052]]" + " " * 41 + "# not yet",
        ),
    ]


def test_what_is_new_what_changes_and_what_stood_there_is_told(tmp_path):
    taken = take(tmp_path, GRID, name="bores.csv")
    told = [(each.label, each.before, each.after) for each in taken.changes]
    assert told == [
        ("bores cylinder 1", "86.071, 86.046; 86.042, 86.0310", "86.072, =; =, ="),
        ("bores cylinder 2", "", "86.138, 86.083; 86.074, 86.052"),
    ]
    assert taken.same == 3


def test_a_dry_run_writes_nothing(tmp_path):
    taken = take(tmp_path, GRID, name="bores.csv", write=False)
    assert not taken.written
    assert len(taken.changes) == 2
    assert text_of(tmp_path) == COMMENTED


def test_the_same_table_a_second_time_changes_nothing(tmp_path):
    take(tmp_path, GRID, name="bores.csv")
    first = text_of(tmp_path)
    again = take(tmp_path, GRID, name="bores.csv")
    assert (again.changes, again.same, again.written) == ((), 8, False)
    assert text_of(tmp_path) == first


def test_a_list_fills_a_block_that_is_not_there_with_its_unit_and_axes(tmp_path):
    rows = "".join(
        f"main_journals;main {main};1;{axis};53,98{main}\n" for main in (1, 2, 3) for axis in "XY"
    )
    take(tmp_path, "reading;item;row;axis;value [mm]\n" + rows)
    assert "    unit: mm\n    axes: [X, Y]\n    readings: {1: [[53.981, 53.981]], 2:" in text_of(
        tmp_path
    )
    grid = asked_of(tmp_path / "job.yaml", shop.rulebook()).facts.inputs["main_journals"]
    assert grid.entries[("2",)].value == ((0.053982, 0.053982),)


def test_a_figure_of_another_unit_keeps_the_unit_it_was_typed_in(tmp_path):
    take(tmp_path, "cylinder,wall [in]\n1,0.24\n")
    assert "wall: {1: 0.24 in,   2: 5.6}" in text_of(tmp_path)


def test_a_column_named_by_a_reading_fills_a_list_in_the_job(tmp_path):
    take(tmp_path, "exhaust valve,guide_exhaust [mm]\n3,0.08\n")
    assert "exhaust: [0.05, 0.07, 0.08, 0.05]" in text_of(tmp_path)


def test_one_figure_without_items_is_written_with_its_unit(tmp_path):
    take(tmp_path, "reading,value [mm]\ndeck_flatness,0.06\n")
    assert "deck: {flatness: 0.06 mm}" in text_of(tmp_path)


def test_carriage_returns_and_a_byte_order_mark_of_the_job_survive(tmp_path):
    windows = b"\xef\xbb\xbf" + COMMENTED.replace("\n", "\r\n").encode()
    (tmp_path / "job.yaml").write_bytes(windows)
    take(tmp_path, "cylinder,wall [mm]\n1,6.2\n")
    assert (tmp_path / "job.yaml").read_bytes() == windows.replace(b"{1: 6.1,", b"{1: 6.2,")


@pytest.mark.parametrize("decimal_comma", [False, True])
def test_exported_edited_and_taken_back_is_the_same_job(tmp_path, decimal_comma):
    job, table = tmp_path / "job.yaml", tmp_path / "all.csv"
    job.write_text(COMMENTED)
    table.write_text(exported(asked_of(job, shop.rulebook()), decimal_comma=decimal_comma))
    taken = take_readings(job, table, shop.rulebook())
    assert (taken.changes, taken.same) == ((), 10)
    assert job.read_text() == COMMENTED


def test_a_job_that_is_emptied_is_filled_again_from_its_export(tmp_path):
    full = shop.JOB
    job, table = tmp_path / "job.yaml", tmp_path / "all.csv"
    job.write_text(full)
    before = asked_of(job, shop.rulebook()).facts
    table.write_text(exported(asked_of(job, shop.rulebook())))
    job.write_text(
        full[: full.index("teardown:")] + "teardown: {findings: "
        "[{id: cap_fretting, where: main 2, note: brown patches}]}\n"
    )
    take_readings(job, table, shop.rulebook())
    after = asked_of(job, shop.rulebook()).facts
    held = {name: fact.entries for name, fact in before.inputs.items()}
    assert {name: fact.entries for name, fact in after.inputs.items()} == held
