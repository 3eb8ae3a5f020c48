"""Templates of the page; everything a person typed is escaped by them."""

from functools import cache
from importlib.resources import files

from jinja2 import Environment, FunctionLoader, StrictUndefined, Template
from markupsafe import Markup

from planner.rulebook.printing import spoken
from planner.sheets.cost_text import money
from planner.sheets.letters import clean
from planner.sheets.view_common import mark_text, reason_text, value_text

TYPES = {
    "css": "text/css; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "woff2": "font/woff2",
    "txt": "text/plain; charset=utf-8",
}
STATIC = ("bench.css", "bench.js", "htmx.min.js", "htmx-LICENSE.txt")
FONTS = ("FiraSans-Regular.woff2", "FiraSans-Bold.woff2")


@cache
def environment() -> Environment:
    """Make the environment that all pages are drawn in."""
    made = Environment(
        autoescape=True,
        loader=FunctionLoader(_read),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters["spoken"] = spoken
    made.filters["money"] = money
    made.filters["clean"] = clean
    made.filters["value_text"] = value_text
    made.filters["mark_text"] = mark_text
    made.filters["reason_text"] = reason_text
    made.filters["drawing"] = _drawing
    made.filters["minus"] = lambda text: text.replace("-", "\u2212")
    return made


def template(name: str) -> Template:
    """Return a template by the name of its file."""
    return environment().get_template(f"{name}.html.j2")


@cache
def static_file(name: str) -> tuple[bytes, str] | None:
    """Return a file of ours and its type; nothing for any other name."""
    if name in STATIC:
        data = files("planner.faces.web.static").joinpath(name).read_bytes()
    elif name in FONTS:
        data = files("planner.sheets.fonts").joinpath(name).read_bytes()
    else:
        return None
    return data, TYPES[name.rpartition(".")[2]]


def _read(name: str) -> str:
    return files("planner.faces.web.templates").joinpath(name).read_text(encoding="utf-8")


def _drawing(svg: str) -> Markup:
    """Let our own drawing through as it is; its texts were escaped when it was drawn."""
    return Markup(svg)  # noqa: S704 - made by planner.sheets.pictures only
