"""SVG by plain attributes: elements with escaped texts, hatching, and letters that fit."""

from collections.abc import Iterable
from html import escape

from planner.sheets.letters import FAMILY, clean, cut, in_our_fonts, width
from planner.sheets.pictures.ink import Theme, ink_on

Point = tuple[float, float]


def number(value: float) -> str:
    """Write a coordinate with at most two decimals.

    Examples
    --------
    >>> number(3.0), number(2.345), number(-0.001)
    ('3', '2.35', '0')
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def element(name: str, inside: str = "", /, **attributes: str | float) -> str:
    """Write one element; ``stroke_width`` stands for ``stroke-width``."""
    said = "".join(
        f' {key.replace("_", "-")}="{_value(value)}"' for key, value in attributes.items()
    )
    return f"<{name}{said}>{inside}</{name}>" if inside else f"<{name}{said}/>"


def _value(value: str | float) -> str:
    return escape(value, quote=True) if isinstance(value, str) else number(value)


class Drawing:
    """One picture being drawn; sizes in points, as on paper.

    Parameters
    ----------
    name
        Names the picture's own hatchings; unlike any other picture's on the page.
    theme
        Colours.
    size
        Width and height.
    alt
        What the picture shows, for who cannot see it.
    """

    def __init__(self, name: str, theme: Theme, size: Point, alt: str) -> None:
        self.theme, self.size, self.alt = theme, size, clean(alt)
        self._name = f"{name}-{theme.name}"
        self._parts: list[str] = []
        self._hatches: dict[str, str] = {}

    def box(self, at: Point, size: Point, **look: str | float) -> None:
        """Draw a rectangle."""
        look.setdefault("fill", "none")
        self._parts.append(
            element("rect", x=at[0], y=at[1], width=size[0], height=size[1], **look)
        )

    def mark(self, at: Point, size: Point, fill: str, hatch: int = 0) -> None:
        """Draw a filled rectangle, hatched the denser the graver."""
        self.box(at, size, fill=fill, stroke=self.theme.ink, stroke_width=0.5)
        if hatch:
            self.box(at, size, fill=self._hatch(hatch, ink_on(fill)))

    def line(self, *points: Point, **look: str | float) -> None:
        """Draw a line through points."""
        look.setdefault("stroke", self.theme.ink)
        look.setdefault("stroke_width", 0.6)
        told = " ".join(f"{number(x)},{number(y)}" for x, y in points)
        self._parts.append(element("polyline", points=told, fill="none", **look))

    def shape(self, points: Iterable[Point], **look: str | float) -> None:
        """Draw a closed shape."""
        told = " ".join(f"{number(x)},{number(y)}" for x, y in points)
        self._parts.append(element("polygon", points=told, **look))

    def dot(self, at: Point, radius: float, **look: str | float) -> None:
        """Draw a round mark."""
        look.setdefault("fill", self.theme.ink)
        self._parts.append(element("circle", cx=at[0], cy=at[1], r=radius, **look))

    def text(self, at: Point, said: str, size: float = 7.0, **look: str | float) -> None:
        """Set letters in one line; `room` shortens them, `bold` and `anchor` as they say."""
        bold = bool(look.pop("bold", 0))
        room = look.pop("room", 0.0)
        weight = "bold" if bold else "regular"
        said = in_our_fonts(clean(said))
        if room and isinstance(room, int | float):
            said = cut(said, room, size, weight)
        look.setdefault("fill", self.theme.ink)
        anchor = look.pop("anchor", "start")
        self._parts.append(
            element(
                "text",
                escape(said, quote=False),
                x=at[0],
                y=at[1],
                font_family=FAMILY,
                font_size=size,
                font_weight="700" if bold else "400",
                text_anchor=anchor,
                **look,
            )
        )

    def plated(self, at: Point, said: str, size: float = 7.0) -> None:
        """Set letters in the middle of a plate of the ground's colour, to be read on hatching."""
        wide = width(said, size, "bold") + 3
        plate = (at[0] - wide / 2, at[1] - size * 0.86)
        self.box(plate, (wide, size * 1.16), fill=self.theme.ground)
        self.text(at, said, size, anchor="middle", bold=1)

    def _hatch(self, step: int, ink: str) -> str:
        """Return the fill of a hatching: steps 1 to 4, wide to close."""
        name = f"{self._name}-h{step}-{ink[1:]}"
        gap = (9.0, 6.0, 4.0, 2.6)[step - 1]
        stroke = element(
            "path",
            d=f"M0,{number(gap)} L{number(gap)},0",
            stroke=ink,
            stroke_width=0.5,
            stroke_opacity=0.55,
        )
        self._hatches[name] = element(
            "pattern",
            stroke,
            id=name,
            width=gap,
            height=gap,
            patternUnits="userSpaceOnUse",
        )
        return f"url(#{name})"

    def svg(self) -> str:
        """Return the finished picture."""
        wide, high = self.size
        hatches = element("defs", "".join(self._hatches.values())) if self._hatches else ""
        ground = element("rect", width=wide, height=high, fill=self.theme.ground)
        return element(
            "svg",
            hatches + ground + "".join(self._parts),
            xmlns="http://www.w3.org/2000/svg",
            viewBox=f"0 0 {number(wide)} {number(high)}",
            width=wide,
            height=high,
            role="img",
            aria_label=self.alt,
        )
