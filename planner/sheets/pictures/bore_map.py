"""Bore wear map: how far each reading stands over the unworn size, by depth and by axis."""

from collections.abc import Sequence
from dataclasses import dataclass

from planner.sheets.pictures.ink import Theme
from planner.sheets.pictures.svg import Drawing

WIDTH = 254.0
_TITLE, _ROW, _HEAD, _LEFT, _CELLS = 15.0, 22.0, 11.0, 40.0, 128.0
_WALL, _BORE, _LEAST_SEEN = 72.0, 46.0, 9.0
_ROUND = (20, 50, 100, 200, 300, 400, 500, 800, 1000, 2000, 5000)
_LOOKS: tuple[dict[str, str | float], ...] = ({"stroke_width": 1.4}, {"stroke_dasharray": "3 2"})
_MICRON, _TENTH = 1e-6, 2.54e-6
# Where wear is counted as grave: the shop's street limit of taper, 0.0005 of the bore.
_STEPS = (0.08, 0.3, 0.7, 1.4)
_GRAVE = 0.0005


@dataclass(frozen=True, slots=True)
class BoreReadings:
    """The readings of one bore.

    Attributes
    ----------
    rows
        One row for each depth, from the deck down; one diameter for each axis. [m]
    unworn
        The size wear is counted from: the least reading below ring travel. [m]
    score
        Depth of the deepest score; none when there is none. [m]
    """

    cylinder: str
    rows: tuple[tuple[float, ...], ...]
    depths: tuple[str, ...]
    axes: tuple[str, ...]
    unworn: float
    score: float = 0.0


def exaggeration(bores: Sequence[BoreReadings]) -> int:
    """Choose how much wider than true wear is drawn: a round number, the same for all bores."""
    worst = max((_worst(each) / each.unworn for each in bores), default=0.0)
    return next((each for each in _ROUND if worst / 2 * _BORE * each >= _LEAST_SEEN), _ROUND[-1])


def bore_map(
    bore: BoreReadings, theme: Theme, *, times: int, system: str, title: str = ""
) -> Drawing:
    """Draw one bore: a cell for each reading with its number, and the wall beside it.

    Parameters
    ----------
    bore
        Its readings.
    theme
        Colours.
    times
        How many times wider than true the wall is drawn.
    system
        Micrometres for metric and both, ten thousandths of an inch for inch.
    title
        What stands over it.

    Returns
    -------
    Drawing
        The picture.
    """
    count = len(bore.rows)
    size = (WIDTH, _TITLE + _HEAD + _ROW * count + 6)
    drawing = Drawing(f"bore-{bore.cylinder}", theme, size, alt_text(bore, system))
    drawing.text((0, 10), title or f"Cylinder {bore.cylinder}", 9, bold=1, room=WIDTH - 92)
    _tail(drawing, bore, system)
    wide = _CELLS / len(bore.axes)
    for place, axis in enumerate(bore.axes):
        middle = _LEFT + wide * (place + 0.5)
        drawing.text((middle, _TITLE + 8), axis, 7, anchor="middle", room=wide - 2)
    for row, readings in enumerate(bore.rows):
        top = _TITLE + _HEAD + _ROW * row
        drawing.text((_LEFT - 4, top + 14), bore.depths[row], 7, anchor="end", room=_LEFT - 4)
        for place, reading in enumerate(readings):
            worn = reading - bore.unworn
            step = _step(worn, bore.unworn)
            at = (_LEFT + wide * place, top)
            drawing.mark(at, (wide, _ROW), theme.fills[step], step)
            drawing.plated((at[0] + wide / 2, top + 14.5), in_small(worn, system), 9)
    _wall(drawing, bore, times)
    return drawing


def in_small(length: float, system: str) -> str:
    """Say a small length in whole micrometres or ten thousandths of an inch.

    Examples
    --------
    >>> in_small(0.000112, "metric"), in_small(0.0000254, "inch")
    ('112', '10')
    """
    return f"{length / (_TENTH if system == 'inch' else _MICRON):.0f}"


def small_unit(system: str) -> str:
    """Name the unit of `in_small`."""
    return "0.0001 in" if system == "inch" else "µm"


def alt_text(bore: BoreReadings, system: str) -> str:
    """Tell every reading of a bore in words."""
    told = "; ".join(
        f"{depth}: "
        + ", ".join(
            f"{axis} {in_small(each - bore.unworn, system)}"
            for axis, each in zip(bore.axes, row, strict=True)
        )
        for depth, row in zip(bore.depths, bore.rows, strict=True)
    )
    score = f" Deepest score {in_small(bore.score, system)}." if bore.score else ""
    return (
        f"Wear of cylinder {bore.cylinder} over its unworn size, in {small_unit(system)}, "
        f"from the deck down. {told}.{score}"
    )


def _tail(drawing: Drawing, bore: BoreReadings, system: str) -> None:
    said = f"worst {in_small(_worst(bore), system)} {small_unit(system)}"
    if bore.score:
        said += f", score {in_small(bore.score, system)}"
    drawing.text((WIDTH, 10), said, 7, anchor="end", room=100)


def _worst(bore: BoreReadings) -> float:
    return max(max(row) for row in bore.rows) - bore.unworn


def _step(worn: float, size: float) -> int:
    """Return how grave wear is, 0 to 4."""
    share = worn / (size * _GRAVE)
    return sum(share > each for each in _STEPS)


def _wall(drawing: Drawing, bore: BoreReadings, times: int) -> None:
    """Draw the walls down the bore, both sides, in the first two axes."""
    top, bottom = _TITLE + _HEAD, _TITLE + _HEAD + _ROW * len(bore.rows)
    middle = _LEFT + _CELLS + 14 + _WALL / 2
    for outward in (-1, 1):
        x = middle + outward * _BORE / 2
        drawing.line((x, top), (x, bottom), stroke=drawing.theme.faint, stroke_width=0.5)
        for axis, look in enumerate(_LOOKS[: len(bore.axes)]):
            points = [
                (
                    x + outward * (row[axis] / bore.unworn - 1) / 2 * _BORE * times,
                    top + _ROW * (place + 0.5),
                )
                for place, row in enumerate(bore.rows)
            ]
            drawing.line(*points, **look)
    drawing.text((middle, top - 3), f"wear × {times}", 7, anchor="middle")
    for place, look in enumerate(_LOOKS[: len(bore.axes)]):
        y = top + 12 + place * 20
        drawing.line((middle - 10, y), (middle + 10, y), **look)
        drawing.text((middle, y + 9), bore.axes[place], 6.5, anchor="middle", room=_BORE - 8)
