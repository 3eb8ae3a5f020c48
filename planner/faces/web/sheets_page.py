"""Handlers of the sheets: the packet of a job on screen and as PDF."""

from pathlib import Path
from tempfile import TemporaryDirectory

from starlette.responses import HTMLResponse, Response

from planner.errors import BorewrightError
from planner.faces.web.bench import Ask, Bench
from planner.faces.web.guard import SHEET_POLICY
from planner.planning.history import code_of
from planner.sheets.packet import SHEETS, packet_of
from planner.sheets.render_html import html_of
from planner.sheets.render_pdf import is_installed, pdfs_of
from planner.sheets.view import Sheet
from planner.sheets.view_material import Material, gather


class NoSuchSheetError(BorewrightError):
    """A sheet that the packet of this job does not hold."""


def sheets_page(bench: Bench, ask: Ask) -> Response:
    """List the sheets of a job."""
    job = bench.store.job(ask.name)
    _, sheets = _packet(bench, job.text)
    return bench.job_page(
        ask, "sheets", job, title="Sheets", here="sheets", sheets=sheets, pdf=is_installed()
    )


def sheet_file(bench: Bench, ask: Ask) -> Response:
    """Hand one sheet out, as HTML or as PDF."""
    job = bench.store.job(ask.name)
    material, sheets = _packet(bench, job.text)
    name, _, form = ask.path["sheet"].partition(".")
    found = next((each for each in sheets if each.name == name), None)
    if found is None or form not in ("html", "pdf") or (form == "pdf" and not is_installed()):
        raise NoSuchSheetError(
            problem=f"There is no sheet {ask.path['sheet'][:60]!r}.",
            reason="A job has the sheets " + ", ".join(each for each in SHEETS) + ".",
            remedy="Open one from the list of sheets.",
        )
    if form == "html":
        headers = {"content-security-policy": SHEET_POLICY}
        return HTMLResponse(html_of(found), headers=headers)
    made = bench.workshop.once(
        ("pdf", code_of(job.text), name), lambda: pdfs_of([found], material.document)[0]
    )
    return Response(made, media_type="application/pdf")


def _packet(bench: Bench, text: str) -> tuple[Material, tuple[Sheet, ...]]:
    return bench.workshop.once(("packet", code_of(text)), lambda: _made(bench, text))


def _made(bench: Bench, text: str) -> tuple[Material, tuple[Sheet, ...]]:
    """Gather a packet; readings are looked up in the job's own file, so it gets one."""
    workshop = bench.workshop
    asked, reading = workshop.explained(text), workshop.reading(text)
    with TemporaryDirectory(prefix="borewright-") as folder:
        path = Path(folder) / "job.yaml"
        path.write_bytes(text.encode("utf-8"))
        material = gather(asked, reading, path)
        return material, packet_of(material)
