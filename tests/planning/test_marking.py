"""Work marked done in the job file, and what a later reading reopens."""

from datetime import date

import pytest

from planner.datafiles.reader import read_yaml
from planner.planning.assemble import plan_job
from planner.planning.job_reader import read_job
from planner.planning.marking import NotMarkedError, mark_done
from tests.planning.priced import ROOT, shipped

DAY = date(2027, 1, 12)
FIRST = ("goal_interview", "running_tests", "as_found_record", "tagged_teardown", "read_evidence")


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "job.yaml"
    path.write_bytes((ROOT / "shared" / "jobs" / "larch.yaml").read_bytes())
    return path


def mark(path, *operations, by="A. Builder"):
    for name in operations:
        marked = mark_done(path, name, DAY, by, shipped())
    return marked


def planned(path):
    return plan_job(read_job(path, shipped()), shipped())


def test_marking_adds_a_line_and_moves_nothing_else(job):
    before = job.read_text(encoding="utf-8")
    marked = mark(job, "goal_interview")
    after = job.read_text(encoding="utf-8")
    line = f"  goal_interview: {{done: 2027-01-12, by: A. Builder, spec: {marked.spec}}}\n"
    assert after == f"{before}progress:\n{line}"
    assert marked.can_start_now == ("running_tests",)


def test_windows_line_ends_stay(job):
    job.write_bytes(job.read_bytes().replace(b"\n", b"\r\n"))
    mark(job, "goal_interview")
    assert b"\n" not in job.read_bytes().replace(b"\r\n", b"")


def test_each_step_keeps_its_own_line(job):
    mark(job, *FIRST)
    lines = job.read_text(encoding="utf-8").splitlines()
    assert [line.split(":")[0].strip() for line in lines[-len(FIRST) :]] == list(FIRST)
    assert read_yaml(job).get("progress").keys() == FIRST


def test_what_is_done_is_shown_and_what_follows_can_start(job):
    mark(job, *FIRST)
    plan = planned(job)
    assert plan.schedule.done == FIRST
    assert plan.schedule.can_start_now == ("plugs_jets_out",)
    assert plan.operations[0].done == "2027-01-12 A. Builder"


def test_a_step_cannot_be_done_before_what_it_follows(job):
    before = job.read_bytes()
    with pytest.raises(NotMarkedError, match="tagged_teardown cannot be done yet: "):
        mark(job, "tagged_teardown")
    assert job.read_bytes() == before


def test_a_hold_point_needs_a_name(job):
    mark(job, *FIRST[:-1])
    with pytest.raises(NotMarkedError, match="read_evidence is a hold point"):
        mark(job, "read_evidence", by="")


def test_a_step_is_not_done_twice(job):
    mark(job, "goal_interview")
    with pytest.raises(NotMarkedError, match="already done: 2027-01-12"):
        mark(job, "goal_interview")


def test_a_slip_of_the_pen_gets_the_nearest_step(job):
    with pytest.raises(NotMarkedError, match="Did you mean running_tests"):
        mark(job, "runing_tests")


def test_a_step_nothing_calls_for_is_not_marked(job):
    with pytest.raises(NotMarkedError, match="Nothing on this job calls for it"):
        mark(job, "vapour_hone_castings")


def test_nothing_is_marked_tightened_without_the_maker_s_figure(job):
    route(job, "order_bottom_end_fasteners")
    with pytest.raises(NotMarkedError, match="main_fastener_upgrade tightens the main fasteners"):
        mark(job, "main_fastener_upgrade")


def route(path, last):
    """Mark everything up to and with a step, in working order."""
    names = [each.id for each in planned(path).operations]
    entries = "".join(
        f"  {name}: {{done: 2027-01-12, by: A, spec: {code(path, name)}}}\n"
        for name in names[: names.index(last) + 1]
    )
    path.write_text(f"{path.read_text(encoding='utf-8')}progress:\n{entries}", encoding="utf-8")
    return names


def code(path, name):
    from planner.planning.assemble import explainer
    from planner.planning.reopened import Specs

    key = str(path)
    if key not in _SPECS:
        asked = explainer(read_job(path, shipped()), shipped())
        _SPECS[key] = Specs(asked.results, asked.plan.parts)
    return _SPECS[key].code(name)


_SPECS = {}


def test_a_reading_changed_later_reopens_what_rested_on_it_and_all_after(job):
    names = route(job, "bore_oversize")
    assert planned(job).schedule.reopened == {}
    text = job.read_text(encoding="utf-8")
    # The worst bore turns out deeper scored: it asks for the next size.
    job.write_text(text.replace("score_depth: {3: 0.04}", "score_depth: {3: 0.14}"), "utf-8")
    plan = planned(job)
    reopened = plan.schedule.reopened
    assert plan.decisions["bore_oversize"].value == "87.00"
    assert "its targets, items or parts have changed since" in reopened["freeze_spec"]
    assert "freeze_spec before it is reopened" in reopened["order_bottom_end_fasteners"] or (
        "have changed since" in reopened["order_bottom_end_fasteners"]
    )
    assert "order_pistons" in reopened
    assert "bore_oversize" in reopened
    assert "crack_test_block" not in reopened
    assert "measure_crank" not in reopened
    assert plan.schedule.can_start_now[0] == "freeze_spec"
    assert set(reopened) <= set(names)


def test_a_reopened_step_can_be_marked_again(job):
    route(job, "freeze_spec")
    text = job.read_text(encoding="utf-8")
    job.write_text(text.replace("score_depth: {3: 0.04}", "score_depth: {3: 0.14}"), "utf-8")
    mark(job, "freeze_spec")
    assert planned(job).schedule.reopened == {}
