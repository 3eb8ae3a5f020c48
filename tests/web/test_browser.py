"""The three people's tasks in a real browser, on a tablet and on a phone, in light and dark."""

import shutil
import socket
import threading
import time

import pytest

from tests.web.shop import folder_of_jobs, rulebook, workshop

sync_api = pytest.importorskip("playwright.sync_api")
uvicorn = pytest.importorskip("uvicorn")
CHROMIUM = shutil.which("chromium")
pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's chromium is not installed"),
]
FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
TABLET, PHONE = {"width": 1180, "height": 820}, {"width": 390, "height": 844}
PAGES = (
    "/",
    "/job/larch/goals?goals.noise=low",
    "/job/larch/readings?part=bores",
    "/job/larch/readings?part=guides",
    "/job/larch/board",
    "/job/larch/asbuilt",
    "/job/larch/history",
    "/job/larch/sheets",
    "/job/larch/why/bore_oversize",
    "/job/larch/compare?goals.boost=1.3+bar+gauge",
    "/job/none/goals",
)


@pytest.fixture(scope="module")
def server(tmp_path_factory):
    from planner.datafiles.user_cache import user_cache
    from planner.faces.web.app import application
    from planner.faces.web.config import Config
    from planner.rulebook.remembered import remembering

    rulebook()
    store = folder_of_jobs(tmp_path_factory.mktemp("jobs"))
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    config = Config(port=port, secret="of the tests", per_minute=100_000)
    made = uvicorn.Server(
        uvicorn.Config(
            application(store, workshop(), config), port=port, log_level="error", ws="none"
        )
    )

    def run():
        with remembering(user_cache()):
            made.run()

    thread = threading.Thread(target=run)
    thread.start()
    while not made.started:
        time.sleep(0.02)
    yield f"http://127.0.0.1:{port}", store
    made.should_exit = True
    thread.join(10)


@pytest.fixture(scope="module")
def browser():
    with sync_api.sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield opened
        opened.close()


@pytest.fixture
def visit(server, browser):
    """Open pages; nothing may leave the machine and nothing may break unseen."""
    base, _ = server
    strangers, broken, contexts = [], [], []

    def opened(size, **rest):
        context = browser.new_context(viewport=size, base_url=base, **rest)
        contexts.append(context)
        page = context.new_page()
        page.on(
            "request",
            lambda asked: (
                None if asked.url.startswith((base, "data:")) else strangers.append(asked.url)
            ),
        )
        page.on("pageerror", lambda error: broken.append(str(error)))
        page.on(
            "console",
            lambda said: (
                broken.append(said.text)
                if said.type == "error" and "404" not in said.text
                else None
            ),
        )
        return page

    yield opened
    for each in contexts:
        each.close()
    assert strangers == []
    assert broken == []


def _named(page, who):
    page.goto("/")
    page.fill("#who", who)
    page.click(".who button")


def test_the_salesperson_moves_boost_and_only_what_changes_moves(visit, server):
    page = visit(TABLET, has_touch=True)
    _named(page, "Sal at the counter")
    page.goto("/job/larch/goals")
    page.click("#line-piston_alloy summary")
    page.evaluate("document.getElementById('value-piston_alloy').dataset.mine = 'kept'")
    before = page.inner_text("#value-compression_ratio")
    page.locator("#g-boost").scroll_into_view_if_needed()
    page.focus("input.slide[data-for=g-boost]")
    with page.expect_response("**/cells?*"):
        page.keyboard.press("End")
    page.wait_for_function(
        "old => document.getElementById('value-compression_ratio').innerText !== old", arg=before
    )
    assert page.input_value("#g-boost") == "4 bar gauge"
    assert "goals.boost=4" in page.url
    assert page.locator("#line-piston_alloy").get_attribute("open") is not None
    assert page.evaluate("document.activeElement.dataset.for") == "g-boost"
    assert page.locator("#told").inner_text().startswith("Changed:")
    kept = page.evaluate("document.getElementById('value-piston_alloy').dataset.mine")
    assert kept == "kept"


def test_the_salesperson_saves_and_the_link_shows_the_same(visit, server):
    _, store = server
    page = visit(TABLET)
    _named(page, "Sal at the counter")
    page.goto("/job/sorrel/goals?goals.boost=1.7+bar+gauge")
    shown = page.inner_text("#value-compression_ratio")
    page.click("text=Save these goals")
    page.wait_for_url("**/job/sorrel/goals")
    assert page.inner_text("#value-compression_ratio") == shown
    assert store.revisions("sorrel")[-1].who == "Sal at the counter"


def test_without_script_the_goals_are_worked_out_by_a_button(visit):
    page = visit(TABLET, java_script_enabled=False)
    page.goto("/job/larch/goals")
    before = page.inner_text("#value-compression_ratio")
    page.fill("#g-boost", "0.7 bar gauge")
    page.click("text=Work it out")
    assert page.inner_text("#value-compression_ratio") != before
    page.click("#line-compression_ratio summary")
    page.click("#line-compression_ratio >> text=Whole chain")
    assert "0.70 bar" in page.inner_text("main")


def test_the_machinist_enters_a_bore_by_one_key_and_a_closed_tab_loses_nothing(visit, server):
    _, store = server
    page = visit(PHONE, has_touch=True)
    _named(page, "Mac at the gauge")
    page.goto("/job/larch/readings?part=bores")
    first = page.locator('[name="v|bores|1|15|thrust"]')
    first.fill("86.072")
    first.press("Enter")
    assert page.evaluate("document.activeElement.name") == "v|bores|1|15|crank"
    sync_api.expect(page.locator("#checked")).to_contain_text("1 new")
    again = page.context.new_page()
    page.close()
    again.goto("/job/larch/readings?part=bores")
    assert again.input_value('[name="v|bores|1|15|thrust"]') == "86.072"
    assert again.is_visible("#draft")
    again.click("text=Take these readings into the job")
    again.wait_for_selector("#saved")
    assert "[86.072," in store.job("larch").text
    assert store.revisions("larch")[-1].who == "Mac at the gauge"
    again.reload()
    assert not again.is_visible("#draft")


def test_entries_survive_a_dropped_connection(visit, server):
    page = visit(TABLET)
    _named(page, "Mac at the gauge")
    page.goto("/job/larch/readings?part=deck")
    box = page.locator('[name="v|deck_flatness|||"]')
    page.route("**/readings/check", lambda route: route.abort())
    box.fill("0.07")
    page.unroute("**/readings/check")
    page.goto("/job/larch/goals")
    page.goto("/job/larch/readings?part=deck")
    assert page.input_value('[name="v|deck_flatness|||"]') == "0.07"


def test_the_builder_signs_a_step_and_undoes_it_on_a_tablet(visit, server):
    _, store = server
    page = visit(TABLET, color_scheme="dark")
    _named(page, "Bo the builder")
    page.goto("/job/larch/board?show=can+start")
    card = page.locator(".card").first
    operation = card.get_attribute("id").removeprefix("s-")
    card.locator("summary").first.click()
    card.locator("button.strong").click()
    page.wait_for_url("**/board*")
    assert f"{operation}: {{done:" in store.job("larch").text
    page.goto("/job/larch/history")
    page.locator("button:has-text('Bring revision')").first.click()
    page.wait_for_url("**/history")
    assert f"{operation}: {{done:" not in store.job("larch").text


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [TABLET, PHONE], ids=["tablet", "phone"])
def test_no_page_has_a_barrier_and_every_target_is_large_enough(visit, size, scheme):
    axe = pytest.importorskip("axe_playwright_python.sync_playwright").Axe()
    page = visit(size, color_scheme=scheme)
    for path in PAGES:
        page.goto(path)
        page.evaluate("document.querySelectorAll('main details').forEach(d => d.open = true)")
        found = axe.run(page, options={"resultTypes": ["violations"]}).response["violations"]
        told = [(each["id"], [n["html"][:160] for n in each["nodes"]][:3]) for each in found]
        assert told == [], path
        assert page.evaluate("document.documentElement.scrollWidth") <= size["width"], path
        small = page.evaluate(
            """() => Array.from(document.querySelectorAll(
                'nav a, .button, button, input:not([type=hidden]), select, summary, .jobs li > a'))
              .filter(e => e.getClientRects().length && !e.closest('.skip'))
              .map(e => [e.outerHTML.slice(0, 120), e.getBoundingClientRect()])
              .filter(([, r]) => r.width < 48 || r.height < 48)
              .map(([html, r]) => [html, r.width, r.height])"""
        )
        assert small == [], path
