import re

import pytest

from planner.faces.web.config import Config, OpenToAllError
from planner.faces.web.guard import Rate
from planner.faces.web.people import hashed
from planner.faces.web.serving import WeakPassphraseError, config_of
from planner.store.backup import restore
from planner.store.files import FileStore
from tests.web.shop import Visitor, folder_of_jobs

NASTY = "<script>alert(1)</script>\"'><img src=x onerror=y>"


@pytest.fixture
def bench(tmp_path):
    return Visitor(folder_of_jobs(tmp_path)).named()


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1.evil.example", "", "[::2]"])
def test_a_foreign_host_is_refused(bench, host):
    assert bench.get("/", headers={"host": host}).status_code == 421


def test_own_names_with_a_port_are_answered(bench):
    for host in ("localhost:8171", "127.0.0.1:8171", "[::1]:8171"):
        assert bench.get("/", headers={"host": host}).status_code == 200


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://evil.example"},
        {"origin": "null"},
        {"origin": "http://localhost:9"},
        {"sec-fetch-site": "cross-site"},
    ],
)
def test_a_form_from_another_page_is_refused(bench, headers):
    sent = bench.send("/job/larch/goals", base="1", headers=headers)
    assert sent.status_code == 403


@pytest.mark.parametrize("token", ["", "made up", "a.b.c"])
def test_a_form_without_our_token_is_refused(bench, token):
    sent = bench.ask("POST", "/job/larch/goals", data={"token": token, "base": "1"})
    assert sent.status_code == 403
    assert "not ours" in sent.text


def test_a_token_of_another_session_is_refused(bench, tmp_path):
    other = Visitor(bench.store, bench.config)
    sent = bench.ask("POST", "/who", data={"token": other.token(), "who": "x"})
    assert sent.status_code == 403


def test_a_body_over_the_limit_is_refused_by_its_word_and_by_its_size(tmp_path):
    bench = Visitor(folder_of_jobs(tmp_path), Config(secret="x", most_bytes=1000))

    async def pieces():
        for _ in range(40):
            yield b"x" * 100

    assert bench.ask("POST", "/who", content=b"x" * 4000).status_code == 413
    form = {"content-type": "application/x-www-form-urlencoded"}
    assert bench.ask("POST", "/who", content=pieces(), headers=form).status_code == 413


@pytest.mark.parametrize(
    ("content", "kind"),
    [
        (b"\xff\xfe\x00", "application/x-www-form-urlencoded"),
        (b"--x\r\nnot a part", "multipart/form-data; boundary=x"),
        (b"{}", "application/json"),
    ],
)
def test_a_malformed_body_is_refused_and_writes_nothing(bench, content, kind):
    sent = bench.ask("POST", "/job/larch/goals", content=content, headers={"content-type": kind})
    assert sent.status_code in (400, 403)
    assert bench.store.job("larch").number == 1


def test_every_answer_carries_the_headers(bench):
    for path in ("/", "/job/larch/goals", "/static/bench.css", "/nowhere", "/job/none/goals"):
        headers = bench.get(path).headers
        assert "script-src 'self'" in headers["content-security-policy"]
        assert "unsafe" not in headers["content-security-policy"]
        assert headers["x-content-type-options"] == "nosniff"


def test_no_page_holds_script_or_style_in_its_words(bench):
    for path in ("/", "/job/larch/goals", "/job/larch/why/bore_oversize"):
        text = bench.get(path).text
        assert not re.search(r"<script(?![^>]* src=)|<style|\son\w+=|javascript:", text)
        assert not re.search(r"\sstyle=", text)


@pytest.mark.parametrize("path", ["goals.boost", "goals.fuel", "goals.weeks"])
def test_script_in_a_goal_is_printed_as_text(bench, path):
    for page in ("goals", "cells"):
        text = bench.get(f"/job/larch/{page}", params={path: NASTY}).text
        assert "<script>alert" not in text
        assert "<img src=x" not in text


def test_script_in_names_is_printed_as_text(bench):
    bench.send("/who", who=NASTY, back="/")
    bench.send("/job/larch/goals", base="1", **{"goals.boost": "1.2 bar gauge"})
    for path in ("/", f"/?q={NASTY}", "/job/larch/goals"):
        assert "<script>alert" not in bench.get(path).text


def test_a_name_with_a_path_in_it_reaches_no_file(bench):
    for name in ("..%2f..%2fetc%2fpasswd", "%2e%2e", "larch.yaml", ".larch", "a%00b"):
        assert bench.get(f"/job/{name}/goals").status_code == 404
    assert bench.get("/static/..%2fapp.py").status_code == 404


def test_a_form_sends_nobody_to_another_site(bench):
    for back in ("//evil.example", "https://evil.example", "/\\evil.example"):
        assert bench.send("/who", who="x", back=back).headers["location"] == "/"


def test_requests_over_the_rate_wait(tmp_path):
    bench = Visitor(folder_of_jobs(tmp_path), Config(secret="x", per_minute=3))
    statuses = [bench.get("/static/bench.css").status_code for _ in range(5)]
    assert statuses == [200, 200, 200, 429, 429]


def test_a_share_fills_up_again_over_a_minute():
    rate = Rate(6)
    assert [rate.allows("a", 0.0) for _ in range(7)] == [True] * 6 + [False]
    assert rate.allows("b", 0.0)
    assert rate.allows("a", 10.0)
    assert not rate.allows("a", 10.0)


def test_beyond_this_machine_a_passphrase_is_needed():
    with pytest.raises(OpenToAllError, match=r"0\.0\.0\.0 can be reached"):
        Config(host="0.0.0.0")


@pytest.mark.parametrize("proxied", [{"names": ("bench.shop",)}, {"behind_tls": True}])
def test_behind_a_proxy_a_passphrase_is_needed_too(proxied):
    with pytest.raises(OpenToAllError, match="can be reached from other machines"):
        Config(**proxied)


def test_behind_a_proxy_its_name_is_answered_and_cookies_keep_to_tls(tmp_path):
    config = Config(
        names=("bench.shop",), behind_tls=True, secret="x", passphrase_hash=hashed("four words of")
    )
    bench = Visitor(folder_of_jobs(tmp_path), config)
    answer = bench.get("/door", headers={"host": "bench.shop"})
    assert answer.status_code == 200
    assert "Secure" in answer.headers["set-cookie"]


def test_a_short_passphrase_is_refused(tmp_path):
    file = tmp_path / "word"
    file.write_text("short", encoding="utf-8")
    with pytest.raises(WeakPassphraseError, match="has 5 letters"):
        config_of("0.0.0.0", 1, (), file, tls=False)


def test_who_does_not_know_the_passphrase_sees_no_job(tmp_path):
    config = Config(host="0.0.0.0", secret="x", passphrase_hash=hashed("four words of steel"))
    bench = Visitor(folder_of_jobs(tmp_path), config)
    for path in ("/", "/job/larch/goals", "/backup"):
        assert bench.get(path).headers["location"] == "/door"
    token = re.search(r'name="token" value="([^"]+)"', bench.get("/door").text)[1]
    shut = bench.ask("POST", "/jobs", data={"token": token, "name": "x"})
    assert shut.status_code == 403
    wrong = bench.ask("POST", "/door", data={"token": token, "passphrase": "guess"})
    assert wrong.status_code == 403
    right = {"token": token, "passphrase": "four words of steel"}
    assert bench.ask("POST", "/door", data=right).status_code == 303
    assert "Larch street turbo" in bench.get("/").text


def test_tries_at_the_passphrase_are_slowed_down(tmp_path):
    config = Config(
        host="0.0.0.0",
        secret="x",
        passphrase_hash=hashed("four words of steel"),
        tries_per_minute=2,
    )
    bench = Visitor(folder_of_jobs(tmp_path), config)
    token = re.search(r'name="token" value="([^"]+)"', bench.get("/door").text)[1]
    guess = {"token": token, "passphrase": "guess"}
    assert [bench.ask("POST", "/door", data=guess).status_code for _ in range(3)] == [
        403,
        403,
        429,
    ]


def test_the_backup_of_the_page_restores(bench, tmp_path):
    raw = bench.get("/backup").content
    other = tmp_path / "other"
    other.mkdir()
    assert restore(FileStore(other), raw) == ("larch", "sorrel")


def test_the_vendored_script_is_the_published_one():
    from hashlib import sha256

    from planner.faces.web.pages import static_file

    data, _ = static_file("htmx.min.js")
    # htmx.org 2.0.11 from the npm registry, dist/htmx.min.js
    wanted = "d6fdc75f204e6bdefa99b69bf1e6d4ac69b8a364f77929f45c13476b4000f717"
    assert sha256(data).hexdigest() == wanted
    assert b"Zero-Clause BSD" in static_file("htmx-LICENSE.txt")[0]
