"""Colours of the pictures: one theme argument, and black or white ink by computed contrast."""

from dataclasses import dataclass

LEAST_CONTRAST = 4.5
_BLACK, _WHITE = "#111111", "#ffffff"


@dataclass(frozen=True, slots=True)
class Theme:
    """The colours that a picture is drawn in, each as #rrggbb.

    Attributes
    ----------
    ground, ink, faint
        Paper, letters, and lines that are only there to guide the eye.
    fills
        Fills of marks from slight to grave; hatching says the same without colour.
    lanes
        Fills of lanes, in the order of the lanes.
    strong
        What must stand out: the longest chain, holds.
    """

    name: str
    ground: str
    ink: str
    faint: str
    strong: str
    fills: tuple[str, ...]
    lanes: tuple[str, ...]


LIGHT = Theme(
    name="light",
    ground="#ffffff",
    ink="#16191c",
    faint="#8b939a",
    strong="#9c2f14",
    fills=("#eef1f3", "#f6dfae", "#eeb072", "#d9754a", "#a93a24"),
    lanes=(
        "#e4ebf0",
        "#dfeedd",
        "#f6e8cd",
        "#ece2f2",
        "#d9efef",
        "#f5dfda",
        "#e8e8dc",
        "#f3f3f3",
        "#dcdfef",
    ),
)
DARK = Theme(
    name="dark",
    ground="#14181b",
    ink="#e9edef",
    faint="#7f8a92",
    strong="#ffa37f",
    fills=("#262d32", "#5a4a1f", "#7c4f1d", "#a14a26", "#d2583a"),
    lanes=(
        "#263440",
        "#23382a",
        "#423823",
        "#382c42",
        "#1f3b3d",
        "#432b28",
        "#363629",
        "#2b2b2b",
        "#2c3050",
    ),
)
THEMES = (LIGHT, DARK)


def luminance(colour: str) -> float:
    """Return the relative luminance of a colour, 0 to 1, as WCAG 2 defines it.

    Examples
    --------
    >>> luminance("#ffffff")
    1.0
    """
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [
        each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in parts
    ]
    return sum(share * each for share, each in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours, 1 to 21, as WCAG 2 defines it.

    Examples
    --------
    >>> contrast("#000000", "#ffffff")
    21.0
    """
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def ink_on(fill: str) -> str:
    """Choose black or white ink for letters on a fill, whichever stands out more.

    Examples
    --------
    >>> ink_on("#eeb072")
    '#111111'
    """
    return max((_BLACK, _WHITE), key=lambda ink: contrast(ink, fill))
