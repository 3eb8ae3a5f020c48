"""Photographs: taken from beside the job, from nowhere else, and said when they are not."""

import io
import struct
import zlib
from dataclasses import replace

import pypdf
import pytest

from planner.models.job import FindingEntry
from planner.sheets.packet import packet_of
from planner.sheets.photos import photos_of
from planner.sheets.render_html import html_of
from planner.sheets.render_pdf import pdfs_of
from planner.sheets.view import Photo, Words
from tests.sheets.packets import material


def png() -> bytes:
    """Return a picture of one grey point."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        told = kind + data
        return struct.pack(">I", len(data)) + told + struct.pack(">I", zlib.crc32(told))

    head = struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0)
    data = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0\x80")) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + data


def finding(photo: str) -> FindingEntry:
    return FindingEntry(
        id="cap_fretting",
        title="Fretting",
        where="main 3",
        degree="heavy",
        note="grey-brown <b>",
        photo=photo,
    )


def test_a_photograph_beside_the_job_is_taken_in(tmp_path):
    (tmp_path / "main3.png").write_bytes(png())
    (shown,) = photos_of([finding("main3.png")], tmp_path)
    assert isinstance(shown, Photo)
    assert shown.form == "png"
    assert shown.caption == "Fretting main 3"
    assert "grey-brown <b>" in shown.alt


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("../outside.png", "outside the job's folder"),
        ("/etc/hostname", "outside the job's folder"),
        ("missing.png", "cannot be read"),
        ("words.png", "neither a PNG nor a JPEG"),
        ("large.png", "larger than 3 MB"),
        ("nul\0.png", "cannot be read"),
    ],
)
def test_what_is_not_shown_is_said_with_the_reason(tmp_path, name, why):
    home = tmp_path / "job"
    home.mkdir()
    (tmp_path / "outside.png").write_bytes(png())
    (home / "words.png").write_text("no picture")
    (home / "large.png").write_bytes(png() + b"\0" * 3_000_001)
    (said,) = photos_of([finding(name)], home)
    assert isinstance(said, Words)
    assert why in said.text


def test_findings_without_a_photograph_show_none(tmp_path):
    assert photos_of([finding("")], tmp_path) == ()


def test_a_job_without_a_folder_shows_none():
    (said,) = photos_of([finding("main3.png")], None)
    assert "folder is not known" in said.text


def test_photographs_stand_on_the_customers_sheet_and_in_its_print(tmp_path):
    (tmp_path / "main3.png").write_bytes(png())
    shown = replace(material("larch"), findings=(finding("main3.png"),), folder=tmp_path)
    (customer,) = packet_of(shown, ["customer"])
    page = html_of(customer)
    assert 'src="data:image/png;base64,' in page
    assert "grey-brown &lt;b&gt;" in page
    (printed,) = pdfs_of([customer], shown.document)
    assert "Fretting main 3" in "".join(
        each.extract_text() for each in pypdf.PdfReader(io.BytesIO(printed)).pages
    )
