import html
import re

import pytest

from tests.web.shop import Visitor, folder_of_jobs, workshop


@pytest.fixture
def bench(tmp_path):
    return Visitor(folder_of_jobs(tmp_path)).named()


def boxes(bench, part):
    text = bench.get("/job/larch/readings", params={"part": part}).text
    found = re.findall(r'name="(v\|[^"]+)" value="([^"]*)"', text)
    return {html.unescape(key): html.unescape(value) for key, value in found}


def test_the_grid_holds_what_the_job_holds(bench):
    found = boxes(bench, "bores")
    assert found["v|bores|3|15|thrust"] == "86.138"
    assert len([key for key in found if key.startswith("v|bores|")]) == 4 * 3 * 3
    assert found["v|score_depth|3||"] == "0.04"


def test_every_component_has_its_grids(bench):
    text = bench.get("/job/larch/readings").text
    parts = re.findall(r"readings\?part=(\w+)", text)
    assert {"bores", "main_journals", "head", "guides", "parts_in_hand"} <= set(parts)
    for part in parts:
        assert bench.get("/job/larch/readings", params={"part": part}).status_code == 200


def test_a_reading_goes_into_the_job_and_every_other_character_stays(bench):
    before = bench.store.job("larch").text
    sent = bench.send(
        "/job/larch/readings",
        base="1",
        part="bores",
        **{**boxes(bench, "bores"), "v|bores|3|15|thrust": "86.139"},
    )
    assert sent.status_code == 303
    assert bench.store.job("larch").text == before.replace("[86.138,", "[86.139,")
    last = bench.store.revisions("larch")[-1]
    assert (last.who, last.why) == ("Ann at the bench", "readings: bores")


def test_an_unlikely_reading_is_asked_about_before_it_is_sent(bench):
    fields = {**boxes(bench, "bores"), "v|bores|2|115|thrust": "86.124"}
    told = bench.send("/job/larch/readings/check", part="bores", **fields).text
    assert "Is that right?" in told
    assert "worn more at the bottom (86.124 mm)" in told
    assert bench.store.job("larch").number == 1


def test_the_bore_is_drawn_as_the_readings_go_in(bench):
    fields = {**boxes(bench, "bores"), "v|bores|2|15|thrust": "86.500"}
    before = bench.get("/job/larch/readings", params={"part": "bores"}).text
    told = bench.send("/job/larch/readings/check", part="bores", **fields).text
    assert told.count("<svg") == 8
    assert 'id="pictures" hx-swap-oob' in told
    assert re.findall(r"<svg.*?</svg>", told, re.DOTALL) != re.findall(
        r"<svg.*?</svg>", before, re.DOTALL
    )


@pytest.mark.parametrize("figure", ["8613", "86,x", "-1", "=1+1", "<script>"])
def test_a_figure_that_cannot_be_is_told_at_its_box_and_not_taken(bench, figure):
    fields = {**boxes(bench, "bores"), "v|bores|2|15|thrust": figure}
    told = bench.send("/job/larch/readings/check", part="bores", **fields).text
    assert 'data-box="v|bores|2|15|thrust"' in told
    sent = bench.send("/job/larch/readings", base="1", part="bores", **fields)
    assert sent.status_code == 422
    assert html.escape(figure) in sent.text
    assert "<script>" not in sent.text.replace("<script src", "")
    assert bench.store.job("larch").number == 1


def test_a_bore_that_lacks_a_point_waits_and_the_others_are_taken(bench):
    fields = {
        **boxes(bench, "bores"),
        "v|bores|2|15|thrust": "",
        "v|bores|3|15|thrust": "86.139",
    }
    sent = bench.send("/job/larch/readings", base="1", part="bores", **fields)
    assert "Not whole yet" in sent.text
    assert "bores, cylinder 2" in sent.text
    text = bench.store.job("larch").text
    assert "[86.139," in text
    assert "[86.078," in text


def test_a_comma_is_a_decimal_sign(bench):
    fields = {**boxes(bench, "bores"), "v|bores|3|15|thrust": "86,139"}
    bench.send("/job/larch/readings", base="1", part="bores", **fields)
    assert "[86.139," in bench.store.job("larch").text


def test_a_pasted_table_and_a_sent_file_do_the_same(bench, tmp_path):
    table = "cylinder,depth,thrust [mm]\n3,15,86.139\n"
    bench.send("/job/larch/readings/table", base="1", reading="bores", table=table)
    pasted = bench.store.job("larch").text
    assert "[86.139," in pasted
    bench.send("/job/larch/bring-back", base="2", number="1")
    file = {"file": ("gauge.csv", table.encode(), "text/csv")}
    bench.send("/job/larch/readings/table", base="3", reading="bores", files=file)
    assert bench.store.job("larch").text == pasted


def test_a_table_that_does_not_read_is_told_by_row_and_writes_nothing(bench):
    table = "cylinder,depth,thrust [mm]\n9,15,86.139\n"
    sent = bench.send("/job/larch/readings/table", base="1", reading="bores", table=table)
    assert sent.status_code == 422
    assert "cylinder 1 to 4" in sent.text
    assert bench.store.job("larch").number == 1


def test_entries_on_an_old_version_are_shown_beside_it(bench):
    bench.send("/job/larch/goals", base="1", **{"goals.boost": "1.2 bar gauge"})
    fields = {**boxes(bench, "bores"), "v|bores|3|15|thrust": "86.139"}
    sent = bench.send("/job/larch/readings", base="1", part="bores", **fields)
    assert sent.status_code == 409
    assert "86.139" in sent.text
    assert "86.139" not in bench.store.job("larch").text


def test_what_a_fresh_job_lacks_can_be_typed_in(bench):
    bench.send("/jobs", name="fresh", engine="larch-2.0")
    text = bench.get("/job/fresh/readings", params={"part": "bores"}).text
    keys = [html.unescape(key) for key in re.findall(r'name="(v\|bores\|1\|[^"]+)"', text)]
    assert len(keys) >= 4
    number = re.search(r'name="base" value="(\d+)"', text)[1]
    sent = bench.send(
        "/job/fresh/readings", base=number, part="bores", **dict.fromkeys(keys, "86.02")
    )
    assert sent.status_code == 303, sent.text
    facts = workshop().reading(bench.store.job("fresh").text).facts
    assert facts.inputs["bores"].entries[("1",)].value[0][0] == pytest.approx(0.08602)
