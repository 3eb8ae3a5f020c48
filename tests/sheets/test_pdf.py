"""PDF sheets, read back by an independent reader: tags, texts, fonts, the plan attached."""

import io
import json
import re
from functools import cache

import pypdf
import pytest

from planner.sheets import render_pdf
from planner.sheets.packet import packet_of
from planner.sheets.render_pdf import CannotPrintError, pdfs_of
from tests.sheets.packets import HOSTILE, LONG, material, named, packet, sheet, tasks, wide_engine

LETTER, A4 = (612, 792), (595.28, 841.89)


@cache
def made(job: str = "larch", paper: str = "a4") -> tuple[bytes, ...]:
    """Set the packet of a demo job once."""
    return tuple(pdfs_of(packet(job), material(job).document, paper))


@cache
def read(place: int, job: str = "larch") -> pypdf.PdfReader:
    """Open one of its sheets."""
    return pypdf.PdfReader(io.BytesIO(made(job)[place]))


def readers() -> list[pypdf.PdfReader]:
    return [read(place) for place in range(len(packet("larch")))]


def tree(node: object, depth: int = 0) -> list[tuple[str, dict]]:
    """Return the kinds of the structure tree with their attributes."""
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        return [each for child in node for each in tree(child, depth)]
    if not isinstance(node, dict) or depth > 60:
        return []
    kind = [(str(node["/S"]), node)] if "/S" in node and "/P" in node else []
    return kind + (tree(node["/K"], depth + 1) if "/K" in node else [])


def kinds(reader: pypdf.PdfReader) -> list[tuple[str, dict]]:
    return tree(reader.trailer["/Root"]["/StructTreeRoot"]["/K"])


def test_every_sheet_says_that_it_meets_both_standards():
    for reader in readers():
        said = reader.trailer["/Root"]["/Metadata"].get_object().get_data().decode()
        assert re.search(r"<pdfuaid:part>1</pdfuaid:part>", said)
        assert re.search(r"<pdfaid:part>3</pdfaid:part>", said)
        assert re.search(r"<pdfaid:conformance>A</pdfaid:conformance>", said)


def test_every_sheet_is_tagged_titled_and_has_a_language():
    for place, reader in enumerate(readers()):
        root = reader.trailer["/Root"]
        assert root["/MarkInfo"]["/Marked"]
        assert root["/Lang"].startswith("en")
        assert root["/ViewerPreferences"]["/DisplayDocTitle"]
        title = packet("larch")[place].title
        assert reader.metadata.title.startswith(title)


def test_headings_are_tagged_in_their_order():
    for place, reader in enumerate(readers()):
        found = [kind for kind, _ in kinds(reader) if re.fullmatch(r"/H\d", kind)]
        assert found[0] == "/H1"
        assert found.count("/H1") == 1
        sections = len(packet("larch")[place].sections) + bool(packet("larch")[place].words)
        assert found.count("/H2") == sections


def test_every_picture_is_tagged_and_says_what_it_shows():
    for reader in readers():
        for kind, node in kinds(reader):
            if kind == "/Figure":
                assert len(node["/Alt"]) > 30


def test_tables_are_tagged_with_heads():
    found = [kind for kind, _ in kinds(read(3))]
    assert "/Table" in found
    assert "/TH" in found
    assert "/TD" in found


def test_only_our_fonts_are_in_the_file_and_whole_letters_of_them():
    for reader in readers():
        for page in reader.pages:
            for font in page["/Resources"].get("/Font", {}).values():
                name = font.get_object()["/BaseFont"]
                assert re.fullmatch(r"/[A-Z]{6}\+FiraSans-(Regular|Bold)", name)


def test_the_plan_is_attached_word_for_word():
    for reader in readers():
        attached = reader.attachments
        assert list(attached) == ["plan.json"]
        assert json.loads(attached["plan.json"][0]) == json.loads(material("larch").document)


def test_every_page_says_job_revision_rules_and_which_page_it_is():
    stamp = material("larch").stamp
    for reader in readers():
        for number, page in enumerate(reader.pages, 1):
            said = page.extract_text()
            assert f"page {number} of {len(reader.pages)}" in said
            for word in (stamp.reference, stamp.revision, stamp.check_code):
                assert word in said


def test_every_step_stands_in_the_printed_route_sheet():
    said = " ".join(" ".join(page.extract_text() for page in read(2).pages).split())
    for task in tasks(sheet("route")):
        assert task.title in said
        assert task.hold in said


def test_two_runs_give_the_same_bytes():
    for job in ("larch", "sorrel"):
        again = pdfs_of(packet(job), material(job).document)
        assert list(made(job)) == again


@pytest.mark.parametrize(("paper", "size"), [("a4", A4), ("letter", LETTER)])
def test_paper_is_as_asked(paper, size):
    for each in made("larch", paper):
        for page in pypdf.PdfReader(io.BytesIO(each)).pages:
            assert tuple(map(float, page.mediabox[2:])) == pytest.approx(size, abs=0.1)


@pytest.mark.parametrize("text", [HOSTILE, LONG], ids=["hostile", "long"])
def test_nothing_typed_becomes_markup_in_print(text):
    hostile = named(text)
    sheets = packet_of(hostile)
    for each in pdfs_of(sheets, hostile.document):
        reader = pypdf.PdfReader(io.BytesIO(each))
        said = "".join("".join(page.extract_text().split()) for page in reader.pages)
        said = said.replace("\u200b", "")
        assert "".join(text[:40].split()) in said
        for page in reader.pages:
            assert "/Annots" not in page


def test_a_word_longer_than_a_line_is_broken():
    long = named(LONG)
    (printed,) = pdfs_of(packet_of(long, ["torque"]), long.document)
    words = pypdf.PdfReader(io.BytesIO(printed)).pages[0].extract_text().split()
    assert LONG not in words
    assert max(map(len, words)) < len(LONG)


def test_a_letter_that_our_fonts_have_not_is_told_by_its_code():
    hostile = named("job 車")
    text = (
        pypdf.PdfReader(io.BytesIO(pdfs_of(packet_of(hostile, ["torque"]), "{}")[0]))
        .pages[0]
        .extract_text()
    )
    assert "[8ECA]" in text


def test_twelve_cylinders_fit():
    wide = wide_engine()
    for each in pdfs_of(packet_of(wide), wide.document):
        assert each.startswith(b"%PDF")


def test_without_the_print_engine_the_message_says_what_to_install(monkeypatch):
    monkeypatch.setattr(render_pdf, "is_installed", lambda: False)
    with pytest.raises(CannotPrintError) as caught:
        pdfs_of([], "{}")
    assert "borewright[print]" in caught.value.remedy


def test_a_sheet_that_cannot_be_set_says_so(monkeypatch):
    monkeypatch.setattr(render_pdf, "PAPERS", {"a4": "no such paper"})
    with pytest.raises(CannotPrintError) as caught:
        pdfs_of([sheet("torque")], "{}")
    assert "torque" in caught.value.problem
