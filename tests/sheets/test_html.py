"""HTML sheets: one file each, no request, no script, nothing typed becomes markup."""

import re
from html.parser import HTMLParser
from itertools import pairwise

import pytest

from planner.sheets.letters import clean
from planner.sheets.packet import packet_of
from planner.sheets.pictures.ink import contrast
from planner.sheets.render_html import css_string, html_of
from tests.sheets.packets import DEMO, HOSTILE, LONG, named, packet

VOID = {"meta", "img", "br", "link", "input"}


class Page(HTMLParser):
    """Reads a page and checks that every element is closed in its turn."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.said: list[str] = []
        self.style: list[str] = []
        self.feed(text)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.open, f"</{tag}> closes nothing"
        assert self.open[-1] == tag
        self.open.pop()

    def handle_data(self, data):
        (self.style if "style" in self.open else self.said).append(data)


def pages():
    return [(each, html_of(each)) for job in DEMO for each in packet(job)]


def test_every_page_is_well_formed():
    for _, text in pages():
        assert Page(text).tags[0][0] == "html"


def test_no_page_asks_for_anything_from_elsewhere():
    for _, text in pages():
        page = Page(text)
        for tag, attributes in page.tags:
            assert tag not in {"script", "link", "iframe", "object", "form", "base"}
            for name, value in attributes.items():
                assert not name.startswith("on")
                if name in {"src", "href"}:
                    assert (value or "").startswith(("data:", "#"))
        assert "@import" not in "".join(page.style)
        assert re.findall(r"url\((?!data:|#)", "".join(page.style)) == []
        assert "default-src 'none'" in text


def test_headings_go_down_one_level_at_a_time():
    for _, text in pages():
        levels = [int(tag[1]) for tag, _ in Page(text).tags if re.fullmatch(r"h[1-6]", tag)]
        assert levels[0] == 1
        assert levels.count(1) == 1
        assert all(later - earlier <= 1 for earlier, later in pairwise(levels))


def test_no_two_elements_of_a_page_share_a_name():
    for _, text in pages():
        names = [at["id"] for _, at in Page(text).tags if at.get("id")]
        assert len(names) == len(set(names))


def test_every_link_leads_somewhere_on_the_page():
    for _, text in pages():
        page = Page(text)
        names = {at.get("id") for _, at in page.tags}
        assert all(at["href"][1:] in names for tag, at in page.tags if tag == "a")


def test_what_can_scroll_can_be_reached_by_keyboard_and_has_a_name():
    for _, text in pages():
        for _, attributes in Page(text).tags:
            if "scroll" in (attributes.get("class") or "").split():
                assert attributes["tabindex"] == "0"
                assert attributes["aria-label"]


@pytest.mark.parametrize("text", [HOSTILE, LONG], ids=["hostile", "long"])
def test_nothing_typed_becomes_markup(text):
    plain = sorted({tag for _, made in pages() for tag, _ in Page(made).tags})
    for each in packet_of(named(text)):
        page = Page(html_of(each))
        assert {tag for tag, _ in page.tags} <= set(plain)
        assert not any(name.startswith("on") for _, at in page.tags for name in at)
        assert clean(text).strip() in " ".join("".join(page.said).split())
        assert "alert" not in re.sub(r'content:\s*"[^"]*"', "", "".join(page.style))


def test_a_text_cannot_end_its_css_string():
    said = css_string('a"; } body { background: red } \\ \n </style> é')
    assert said[0] == said[-1] == '"'
    assert not re.search(r'["<>;{}\n]', said[1:-1])


def test_the_same_plan_gives_the_same_page():
    for each in packet("larch"):
        assert html_of(each) == html_of(each)


def test_letter_paper_is_asked_for_where_it_is_wanted():
    assert "size: letter" in html_of(packet("larch")[0], "letter")
    assert "size: A4" in html_of(packet("larch")[0])


def test_every_page_says_job_revision_rules_and_page_number():
    for each, text in pages():
        stamp = each.stamp
        for word in (stamp.revision, stamp.check_code, f"edition {stamp.edition}"):
            assert word in text
        assert "counter(page)" in text


def roles(scheme: str) -> dict[str, str]:
    """Return the colours of a scheme from the style sheet."""
    text = html_of(packet("larch")[0])
    found = re.findall(r":root\{([^}]*)\}", text)
    return dict(
        re.findall(r"--([a-z-]+):(#[0-9a-f]{3,6})", found[("light", "dark").index(scheme)])
    )


def six(colour: str) -> str:
    return colour if len(colour) == 7 else "#" + "".join(each * 2 for each in colour[1:])


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_text_colour_stands_out_on_its_ground(scheme):
    colour = {name: six(value) for name, value in roles(scheme).items()}
    for ink in ("ink", "soft", "link", "red"):
        assert contrast(colour[ink], colour["paper"]) >= 4.5
    assert contrast(colour["on-plate"], colour["plate"]) >= 7
    assert contrast(colour["line"], colour["paper"]) >= 3


def test_status_is_told_by_word_and_by_line_not_by_colour():
    text = html_of(next(each for each in packet("larch") if each.name == "specification"))
    for word in ("FIRM", "PROVISIONAL", "WAITING"):
        assert f">{word}" in text
    assert ".k-provisional{border-left-style:dashed}" in text
    assert ".k-waiting{border-left-style:dotted}" in text
