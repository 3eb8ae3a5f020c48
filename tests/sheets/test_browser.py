"""The pages in a real browser: no fault found by axe, no request, nothing wider than the screen.

Needs Debian's chromium, which ``.ci/run`` installs; without it these tests are skipped.
"""

import os
import shutil
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

import pytest

from planner.sheets.packet import packet_of
from planner.sheets.render_html import html_of
from tests.sheets.packets import LONG, material, named, packet, wide_engine

CHROMIUM = shutil.which("chromium")
AXE = "axe_playwright_python"
SCREENS = [("light", 1100), ("dark", 390)]

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(
        CHROMIUM is None and not os.environ.get("CI"), reason="chromium is not installed"
    ),
]


@pytest.fixture(scope="module")
def browser() -> Iterator[object]:
    """Start one browser for all tests."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        started = driver.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield started
        started.close()


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Write the pages to look at: Larch, long names, twelve cylinders."""
    place = tmp_path_factory.mktemp("pages")
    sets = {
        "larch": packet("larch"),
        "long": packet_of(named(LONG), ["customer", "torque"]),
        "wide": packet_of(wide_engine(), ["measuring"]),
    }
    for name, sheets in sets.items():
        for sheet in sheets:
            (place / f"{name}-{sheet.name}.html").write_text(html_of(sheet), encoding="utf-8")
    return place


def opened(browser, path, scheme, width):
    """Open a page; return it, what it asks for, and its context."""
    context = browser.new_context(
        viewport={"width": width, "height": 900}, color_scheme=scheme, bypass_csp=True
    )
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(path.as_uri())
    return page, asked, context


@pytest.mark.parametrize(("scheme", "width"), SCREENS, ids=["light", "dark and narrow"])
def test_axe_finds_no_fault_and_nothing_leaves_the_machine(browser, folder, scheme, width):
    axe = files(AXE).joinpath("axe.min.js").read_text(encoding="utf-8")
    for path in sorted(folder.glob("*.html")):
        page, asked, context = opened(browser, path, scheme, width)
        page.evaluate(axe)
        found = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
        told = [(each["id"], each["nodes"][0]["html"][:200]) for each in found["violations"]]
        assert told == [], path.name
        assert [url for url in asked if not url.startswith(("file:", "data:"))] == []
        context.close()


@pytest.mark.parametrize("width", [390, 820, 1280])
def test_no_page_is_wider_than_its_screen(browser, folder, width):
    for path in sorted(folder.glob("*.html")):
        page, _, context = opened(browser, path, "light", width)
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path.name
        context.close()


def test_a_phone_gets_the_list_and_a_wide_screen_the_picture(browser, folder):
    path = folder / "larch-route.html"
    for width, listed in ((390, True), (1100, False)):
        page, _, context = opened(browser, path, "light", width)
        assert page.locator(".listed").first.is_visible() is listed
        assert page.locator(".page .drawn").first.is_visible() is not listed
        context.close()


def test_only_the_drawing_of_the_scheme_is_shown(browser, folder):
    for scheme in ("light", "dark"):
        page, _, context = opened(browser, folder / "larch-customer.html", scheme, 1100)
        assert page.locator(f".drawn .{scheme}").first.is_visible()
        other = {"light": "dark", "dark": "light"}[scheme]
        assert not page.locator(f".drawn .{other}").first.is_visible()
        context.close()


def test_the_keyboard_reaches_every_link(browser, folder):
    page, _, context = opened(browser, folder / "larch-torque.html", "light", 1100)
    links = page.locator("a").count()
    reached = set()
    for _ in range(links * 3 + 40):
        page.keyboard.press("Tab")
        name = page.evaluate(
            "document.activeElement.tagName == 'A' ? document.activeElement.href : ''"
        )
        reached.add(name)
    assert len(reached - {""}) == links
    context.close()


def test_letters_are_set_in_our_font(browser, folder):
    page, _, context = opened(browser, folder / "larch-torque.html", "light", 1100)
    page.evaluate("document.fonts.ready")
    assert page.evaluate("[...document.fonts].every(face => face.status == 'loaded')")
    context.close()


def test_measured_widths_are_those_of_the_browser(browser, folder):
    from planner.sheets.letters import width

    page, _, context = opened(browser, folder / "larch-torque.html", "light", 1100)
    for text in ("Piston to wall 0.098 mm", "WAVE Ty. fi 1–2", "Größe µ ±"):
        seen = page.evaluate(
            "text => { const c = document.createElement('canvas').getContext('2d');"
            "c.font = '100px \"Fira Sans\"'; return c.measureText(text).width; }",
            text,
        )
        assert width(text, 100) == pytest.approx(seen, rel=0.03)
    context.close()


def test_printed_from_the_browser_it_has_pages_with_numbers(browser, folder):
    import io

    import pypdf

    page, _, context = opened(browser, folder / "larch-torque.html", "dark", 1100)
    printed = pypdf.PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True)))
    stamp = material("larch").stamp
    for number, each in enumerate(printed.pages, 1):
        said = " ".join(each.extract_text().split())
        assert f"page {number} of {len(printed.pages)}" in said
        assert stamp.check_code in said
    context.close()
