"""Sheets as PDF by typst: tagged for readers of the screen, archival, the plan attached."""

import json
from base64 import b64decode
from collections.abc import Sequence
from contextlib import ExitStack
from importlib.resources import as_file, files
from pathlib import Path
from typing import Literal

from planner.errors import BorewrightError
from planner.sheets.letters import breakable, cut, in_our_fonts
from planner.sheets.render_html import foot_of
from planner.sheets.view import Sheet, as_data

PAPERS = {"a4": "a4", "letter": "us-letter"}
STANDARDS: list[Literal["ua-1", "a-3a"]] = ["ua-1", "a-3a"]
# No clock: the same plan gives the same bytes. A day is needed, and this one says so itself.
TIMESTAMP = 946_684_800
_AS_IT_IS = ("light", "kind")
_TOP_ROOM, _TOP_SIZE = 380.0, 8.0


class CannotPrintError(BorewrightError):
    """The print engine is not installed, or could not set a sheet."""


def is_installed() -> bool:
    """Tell whether the print engine is there."""
    from importlib.util import find_spec

    return find_spec("typst") is not None


def pdfs_of(sheets: Sequence[Sheet], document: str, paper: str = "a4") -> list[bytes]:
    """Set sheets in print.

    Parameters
    ----------
    sheets
        The sheets.
    document
        The plan as JSON, attached to each.
    paper
        a4 or letter.

    Returns
    -------
    list of bytes
        A PDF for each sheet: PDF/UA-1 and PDF/A-3a, the same bytes for the same plan.

    Raises
    ------
    CannotPrintError
        When typst is not installed or refuses a sheet.
    """
    if not is_installed():
        raise CannotPrintError(
            problem="The print engine typst is not installed.",
            reason="PDF files are set with it; HTML needs nothing more.",
            remedy="Install it with: pip install 'borewright[print]'",
        )
    from concurrent.futures import ThreadPoolExecutor

    with ExitStack() as stack:
        templates = stack.enter_context(as_file(files("planner.sheets.templates")))
        fonts = stack.enter_context(as_file(files("planner.sheets.fonts")))
        setter = _Setter(templates, fonts, document, paper)
        # The engine leaves the interpreter free while it works: two sheets at a time.
        with ThreadPoolExecutor(2) as pool:
            return list(pool.map(setter.set, sheets))


class _Setter:
    """Sets one sheet after the other, each with an engine of its own."""

    def __init__(self, templates: Path, fonts: Path, document: str, paper: str) -> None:
        self.templates, self.fonts = templates, fonts
        self.document, self.paper = document, paper

    def set(self, sheet: Sheet) -> bytes:
        """Set one sheet."""
        import typst

        compiler = typst.Compiler(
            str(self.templates / "sheet.typ"),
            root=str(self.templates),
            font_paths=[str(self.fonts)],
            ignore_system_fonts=True,
        )
        try:
            made = compiler.compile(
                format="pdf",
                sys_inputs=self._inputs(sheet),
                pdf_standards=[*STANDARDS],
                timestamp=TIMESTAMP,
            )
        except typst.TypstError as error:
            raise CannotPrintError(
                problem=f"The {sheet.name} sheet could not be set in print: {error}",
                reason="The print engine refuses what not every reader could read.",
                remedy="Use the HTML file of the same name, and report this with the job.",
            ) from error
        return made if isinstance(made, bytes) else b""

    def _inputs(self, sheet: Sheet) -> dict[str, str]:
        return {
            "sheet": json.dumps(_for_print(as_data(sheet)), ensure_ascii=False),
            "foot": in_our_fonts(foot_of(sheet.stamp)),
            "top": cut(in_our_fonts(sheet.stamp.job), _TOP_ROOM, _TOP_SIZE),
            "paper": PAPERS[self.paper],
            "plan": self.document,
        }


def _for_print(data: object) -> object:
    """Leave out what print does not show, and spell letters that our fonts have not."""
    if isinstance(data, dict):
        if data.get("kind") == "photo":
            return {**data, "data": list(b64decode(data["data"]))}
        return {
            key: value if key in _AS_IT_IS else _for_print(value)
            for key, value in data.items()
            if key != "dark"
        }
    if isinstance(data, list):
        return [_for_print(each) for each in data]
    return breakable(in_our_fonts(data)) if isinstance(data, str) else data
