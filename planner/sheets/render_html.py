"""Sheets as HTML: one file each, that opens anywhere without the network and without scripts."""

from base64 import b64encode
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from planner.sheets.letters import cut
from planner.sheets.view import Sheet, Stamped

if TYPE_CHECKING:
    from jinja2 import Environment, Template
    from markupsafe import Markup

PAPERS = {"a4": "A4", "letter": "letter"}
_NAME_ROOM, _FOOT_SIZE = 130.0, 7.5
_WEIGHTS = (("Regular", 400), ("Bold", 700))


def html_of(sheet: Sheet, paper: str = "a4") -> str:
    """Write a sheet as HTML.

    Parameters
    ----------
    sheet
        The sheet.
    paper
        a4 or letter, for when it is printed.

    Returns
    -------
    str
        A whole page that holds its style, fonts and pictures.
    """
    return _template().render(
        sheet=sheet,
        style=_style(),
        paper=PAPERS[paper],
        foot=foot_of(sheet.stamp),
    )


def foot_of(stamp: Stamped) -> str:
    """Say what stands at the foot of every page; a long name is shortened to leave one line."""
    job = cut(stamp.reference or stamp.job, _NAME_ROOM, _FOOT_SIZE)
    return (
        f"{job} · revision {stamp.revision} · rules edition {stamp.edition}, check code "
        f"{stamp.check_code} · borewright {stamp.version}"
    )


def css_string(text: str) -> str:
    r"""Write a text as a CSS string in which nothing can end the string or the style sheet.

    Examples
    --------
    >>> css_string('a"</b>')
    '"a\\22 \\3c \\2f b\\3e "'
    """
    told = "".join(
        letter if letter.isalnum() or letter in " ,.·:" else f"\\{ord(letter):x} "
        for letter in text
    )
    return f'"{told}"'


@cache
def _template() -> "Template":
    return _environment().get_template("sheet.html.j2")


def _environment() -> "Environment":
    from jinja2 import Environment, FunctionLoader, StrictUndefined

    made = Environment(
        autoescape=True,
        loader=FunctionLoader(_read),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters["drawing"] = _drawing
    made.filters["css_string"] = _css_markup
    return made


def _read(name: str) -> str:
    return files("planner.sheets.templates").joinpath(name).read_text(encoding="utf-8")


def _drawing(svg: str) -> "Markup":
    """Let our own drawing through as it is; its texts were escaped when it was drawn."""
    from markupsafe import Markup

    return Markup(svg)  # noqa: S704 - made by planner.sheets.pictures only


def _css_markup(text: str) -> "Markup":
    from markupsafe import Markup

    return Markup(css_string(text))  # noqa: S704 - every letter that could end it is a code


@cache
def _style() -> "Markup":
    from markupsafe import Markup

    faces = "".join(_face(name, weight) for name, weight in _WEIGHTS)
    return Markup(faces + _read("sheet.css"))  # noqa: S704 - a file of ours


def _face(name: str, weight: int) -> str:
    data = files("planner.sheets.fonts").joinpath(f"FiraSans-{name}.woff2").read_bytes()
    return (
        f'@font-face{{font-family:"Fira Sans";font-weight:{weight};font-display:block;'
        f"src:url(data:font/woff2;base64,{b64encode(data).decode()}) "
        'format("woff2")}\n'
    )
