"""The torque and stretch sheet never tells a figure of ours as the one to tighten to."""

import pytest

from planner.errors import ProblemsFound
from tests.planning.priced import JOBS, plan

TYPED = 'torque_sheet.rod_bolts={value: "0.14 mm stretch", from: "bolt maker sheet 7"}'


@pytest.mark.parametrize("name", JOBS)
def test_every_line_is_blocked_until_the_maker_s_figure_is_typed(name):
    lines = plan(name).torque_sheet
    assert {"rod_bolts", "head_fasteners"} <= {each.id for each in lines}
    for each in lines:
        assert each.value == ""
        assert each.blocked.startswith("BLOCKED: no figure from the maker")
        assert each.lubricant
        assert each.sequence
        assert each.method


def test_a_typed_figure_opens_its_own_line_only():
    lines = {each.id: each for each in plan("larch", TYPED).torque_sheet}
    assert lines["rod_bolts"].value == "0.14 mm stretch"
    assert lines["rod_bolts"].origin == "bolt maker sheet 7 (from the maker, typed by you)"
    assert lines["rod_bolts"].blocked == ""
    assert lines["head_fasteners"].blocked


def test_a_step_that_tightens_waits_for_the_figure():
    waits = plan("larch").schedule.waits_for["head_install"]
    assert any(each.startswith("figure: head fasteners") for each in waits)
    waits = plan("larch", TYPED).schedule.waits_for["short_block_build"]
    assert not any(each.startswith("figure:") for each in waits)


def test_a_figure_without_its_origin_is_not_taken():
    with pytest.raises(ProblemsFound, match="not whose figure it is"):
        plan("larch", 'torque_sheet.rod_bolts={value: "60 N·m"}')


def test_a_fastener_nobody_knows_gets_the_nearest():
    with pytest.raises(ProblemsFound, match="did you mean rod_bolts"):
        plan("larch", 'torque_sheet.rod_bolt={value: "60 N·m", from: "sheet"}')


def test_our_own_figure_is_told_for_the_row_chosen_alone():
    lines = {each.id: each for each in plan("larch").torque_sheet}
    assert lines["head_fasteners"].ours["head_fixing_preload"].count("kN") == 1


def test_first_start_is_told_from_oil_pressure_on():
    steps = plan("larch").run_in
    assert [each.phase for each in steps] == sorted(
        (each.phase for each in steps),
        key=["before_start", "first_start", "first_drive", "break_in"].index,
    )
    assert "oil pressure" in steps[0].text.lower()
    assert any("No oil pressure five seconds" in each.text for each in steps)


def test_ethanol_is_measured_only_where_there_is_some():
    def told(*changes):
        return any("Ethanol content" in each.text for each in plan("larch", *changes).run_in)

    assert not told()
    assert told("goals.fuel=e85", "goals.ethanol=always")
