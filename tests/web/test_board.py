import re

import pytest

from tests.web.shop import Visitor, folder_of_jobs


@pytest.fixture
def bench(tmp_path):
    return Visitor(folder_of_jobs(tmp_path)).named()


def _card(text, operation):
    return re.search(rf'id="s-{operation}">(.*?)</li>\s*(<li class="card|</ol>)', text, re.DOTALL)[
        1
    ]


def _first_open(bench):
    shown = bench.get("/job/larch/board", params={"show": "can start"}).text
    return re.findall(r'id="s-(\w+)"', shown)


def test_the_board_shows_every_step_once_with_its_state(bench):
    from tests.web.shop import workshop

    plan = workshop().explained(bench.store.job("larch").text).plan
    cards = re.findall(r'class="card c-([\w-]+)" id="s-(\w+)"', bench.get("/job/larch/board").text)
    assert sorted(name for _, name in cards) == sorted(each.id for each in plan.operations)
    can_start = {name for state, name in cards if state == "can-start"}
    assert can_start == set(plan.schedule.can_start_now)


def test_a_step_that_is_signed_stands_in_the_job_with_name_and_day(bench):
    operation = _first_open(bench)[0]
    sent = bench.send("/job/larch/done", base="1", operation=operation, day="2027-02-03")
    assert sent.status_code == 303
    last = bench.store.revisions("larch")[-1]
    assert (last.who, last.why) == ("Ann at the bench", f"{operation} done")
    assert f"{operation}: {{done: 2027-02-03, by: Ann at the bench" in last.text
    assert 'c-done"' in bench.get("/job/larch/board").text


def test_a_step_that_waits_is_refused_with_what_it_waits_for(bench):
    sent = bench.send("/job/larch/done", base="1", operation="final_wash_parts")
    assert sent.status_code == 422
    assert "cannot be done yet" in sent.text
    assert bench.store.job("larch").number == 1


def test_a_step_that_failed_is_opened_again_and_its_signature_stays_in_the_history(bench):
    operation = _first_open(bench)[0]
    bench.send("/job/larch/done", base="1", operation=operation)
    sent = bench.send("/job/larch/reopen", base="2", operation=operation, reason="<b>cracked</b>")
    assert sent.status_code == 303
    assert operation in _first_open(bench)
    _, two, three = bench.store.revisions("larch")
    assert operation in two.text.partition("progress:")[2]
    assert operation not in three.text.partition("progress:")[2]
    told = bench.get("/job/larch/history").text
    assert "opened again: &lt;b&gt;cracked" in told


def test_what_is_not_done_cannot_be_opened_again(bench):
    sent = bench.send("/job/larch/reopen", base="1", operation="final_wash_parts")
    assert "is not done" in sent.text


def test_a_day_that_is_none_is_refused(bench):
    sent = bench.send("/job/larch/done", base="1", operation=_first_open(bench)[0], day="31/2")
    assert sent.status_code == 422
    assert "is no day" in sent.text


def test_an_old_state_is_brought_back_as_a_new_revision(bench):
    bench.send("/job/larch/goals", base="1", **{"goals.boost": "1.2 bar gauge"})
    sent = bench.send("/job/larch/bring-back", base="2", number="1")
    assert sent.status_code == 303
    one, two, three = bench.store.revisions("larch")
    assert three.text == one.text != two.text
    assert three.why == "brought back revision 1"
    assert bench.get("/job/larch/revision/2").text == two.text


@pytest.mark.parametrize("number", ["0", "7", "-1", "x"])
def test_a_revision_that_is_not_there_is_refused(bench, number):
    assert bench.send("/job/larch/bring-back", base="1", number=number).status_code == 422


def test_sheets_open_on_screen_without_a_script_and_with_their_own_policy(bench):
    listed = bench.get("/job/larch/sheets").text
    found = re.findall(r'href="(/job/larch/sheets/[\w-]+\.html)"', listed)
    assert len(found) >= 5
    answer = bench.get(found[0])
    assert "script-src" not in answer.headers["content-security-policy"]
    assert "default-src 'none'" in answer.headers["content-security-policy"]
    assert "<script" not in answer.text


def test_a_sheet_is_a_pdf_where_it_can_be_printed(bench):
    pytest.importorskip("typst")
    answer = bench.get("/job/larch/sheets/route.pdf")
    assert answer.content.startswith(b"%PDF")


def test_a_sheet_that_is_none_is_refused(bench):
    assert bench.get("/job/larch/sheets/app.py").status_code == 422
