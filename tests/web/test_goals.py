import re

import pytest

from tests.web.shop import Visitor, folder_of_jobs


@pytest.fixture
def bench(tmp_path):
    return Visitor(folder_of_jobs(tmp_path)).named()


def _swapped(answer):
    return set(re.findall(r'id="([\w-]+)" hx-swap-oob', answer.text))


def test_the_list_shows_jobs_with_stage_and_finds_them(bench):
    listed = bench.get("/").text
    assert "Larch street turbo" in listed
    assert "inspected" in listed
    found = bench.get("/", params={"q": "sorrel"}).text
    assert "/job/sorrel/goals" in found
    assert "/job/larch/goals" not in found


def test_a_link_shows_the_same_view_without_script(bench):
    saved = bench.get("/job/larch/goals").text
    view = bench.get("/job/larch/goals", params={"goals.boost": "1.3 bar gauge"}).text
    assert 'value="1.3 bar gauge"' in view
    assert "saved: 1.1 bar gauge" in view
    ratio = re.compile(r'id="value-compression_ratio">(.*?)</span>', re.DOTALL)
    assert ratio.search(saved)[1] != ratio.search(view)[1]


def test_only_cells_that_changed_are_swapped(bench):
    moved = bench.get("/job/larch/cells", params={"goals.boost": "1.3 bar gauge", "shown": ""})
    swapped = _swapped(moved)
    assert "value-compression_ratio" in swapped
    assert "value-bore_oversize" not in swapped
    assert moved.headers["hx-replace-url"].startswith("/job/larch/goals?goals.boost=1.3")
    again = bench.get(
        "/job/larch/cells",
        params={"goals.boost": "1.3 bar gauge", "shown": "goals.boost=1.3 bar gauge"},
    )
    assert not [each for each in _swapped(again) if each.startswith("value-")]
    assert "No answer changed" in again.text


def test_a_cell_swapped_holds_what_the_whole_page_would(bench):
    query = {"goals.boost": "0.8 bar gauge"}
    moved = bench.get("/job/larch/cells", params={**query, "shown": ""}).text
    whole = bench.get("/job/larch/goals", params=query).text
    cell = re.search(r'id="value-compression_ratio" hx[^>]*><span[^>]*>(.*?)</span></div>', moved)
    assert cell[1].removesuffix("</span>") in whole


def test_a_goal_out_of_range_is_told_at_its_field_and_the_plan_stays(bench):
    moved = bench.get("/job/larch/cells", params={"goals.boost": "9 bar", "shown": ""})
    assert not [each for each in _swapped(moved) if each.startswith("value-")]
    at = re.search(r'id="p-boost"[^>]*>(.*?)</div>', moved.text)[1]
    assert "outside the range" in at
    assert "9 bar" in at


def test_why_goes_down_to_the_readings_and_says_what_would_change_it(bench):
    told = bench.get("/job/larch/why/bore_oversize").text
    assert "86.432" in told
    assert "nothing changes" in told.lower()


def test_the_comparison_names_the_rule_that_decides(bench):
    told = bench.get("/job/larch/compare", params={"goals.boost": "1.3 bar gauge"}).text
    assert "saved version" in told
    assert "1.1" in told
    assert re.search(r"rules/\w+\.yaml:\d+", told)


def test_saved_goals_are_a_revision_with_name_and_nothing_else_moves(bench, tmp_path):
    before = (tmp_path / "larch.yaml").read_text(encoding="utf-8")
    sent = bench.send("/job/larch/goals", base="1", **{"goals.boost": "1.2 bar gauge"})
    assert sent.status_code == 303
    after = (tmp_path / "larch.yaml").read_text(encoding="utf-8")
    assert after == before.replace("boost: 1.1 bar gauge", "boost: 1.2 bar gauge")
    last = bench.store.revisions("larch")[-1]
    assert (last.who, last.why) == ("Ann at the bench", "goals")


def test_who_saves_on_an_old_version_sees_both_and_overwrites_nothing(bench):
    bench.send("/job/larch/goals", base="1", **{"goals.boost": "1.2 bar gauge"})
    sent = bench.send("/job/larch/goals", base="1", **{"goals.boost": "1.3 bar gauge"})
    assert sent.status_code == 409
    assert "1.2 bar gauge" in sent.text
    assert "1.3 bar gauge" in sent.text
    assert "1.2 bar gauge" in bench.store.job("larch").text


def test_an_entry_without_a_name_is_refused_in_three_parts(tmp_path):
    nobody = Visitor(folder_of_jobs(tmp_path))
    sent = nobody.send("/job/larch/goals", base="1", **{"goals.boost": "1.2 bar gauge"})
    assert sent.status_code == 422
    assert "Nobody&#39;s name" in sent.text
    assert "1.1 bar gauge" in nobody.store.job("larch").text


def test_a_job_is_begun_from_the_starter_of_its_engine(bench):
    sent = bench.send("/jobs", name="oak-1", engine="larch-2.0")
    assert sent.status_code == 303
    assert bench.store.job("oak-1").number == 1
    assert bench.get("/job/oak-1/goals").status_code == 200
    assert bench.send("/jobs", name="../oak", engine="larch-2.0").status_code == 404


def test_a_conflict_leads_back_to_the_goals_that_make_it(bench):
    shown = bench.get("/job/larch/goals", params={"goals.noise": "low"}).text
    assert "Does not go together" in shown
    assert 'href="#g-noise"' in shown
    assert 'id="g-noise"' in shown
