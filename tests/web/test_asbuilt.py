import html
import re

import pytest

from tests.web.shop import Visitor, folder_of_jobs


@pytest.fixture
def bench(tmp_path):
    return Visitor(folder_of_jobs(tmp_path)).named()


def _row(text, key):
    found = re.search(rf'name="{re.escape(key)}".*?class="state v-([\w-]+)"', text, re.DOTALL)
    return found[1]


def _key(text, fit):
    return html.unescape(re.search(rf'name="(b\|{fit}\|[^"]*)"', text)[1])


def test_every_fit_is_asked_and_missing_at_first(bench):
    text = bench.get("/job/larch/asbuilt").text
    assert _row(text, _key(text, "top_ring_gap")) == "missing"


def test_a_reading_is_judged_and_carries_who_and_when(bench):
    key = _key(bench.get("/job/larch/asbuilt").text, "top_ring_gap")
    bench.send("/job/larch/asbuilt", base="1", on="2027-02-03", **{key: "0,20"})
    text = bench.get("/job/larch/asbuilt").text
    assert _row(text, key) == "fail"
    assert "Ann at the bench, 2027-02-03" in text
    assert "What would put it right" in text
    bench.send("/job/larch/asbuilt", base="2", on="2027-02-04", **{key: "0.48"})
    assert _row(bench.get("/job/larch/asbuilt").text, key) == "pass"
    assert len(bench.store.revisions("larch")) == 3


def test_what_is_no_figure_is_told_and_nothing_is_written(bench):
    key = _key(bench.get("/job/larch/asbuilt").text, "top_ring_gap")
    sent = bench.send("/job/larch/asbuilt", base="1", on="2027-02-03", **{key: "<b>x"})
    assert sent.status_code == 422
    assert "is no figure" in sent.text
    assert "<b>x" not in sent.text
    assert bench.store.job("larch").number == 1
