"""Map of ratio by boost as a picture: a number in each tile, the limit a line, the job ringed."""

from planner.models.knock_map import KnockMap
from planner.sheets.letters import lines
from planner.sheets.pictures.ink import Theme
from planner.sheets.pictures.svg import Drawing, Point

WIDTH = 520.0
_LEFT, _TOP, _ROW, _EDGE = 46.0, 62.0, 26.0, 10.0
_LINE = 10.0
# Margin in degrees under which a tile counts as graver, from slight to grave.
_STEPS = (4.0, 2.0, 0.0, -4.0)
_KEYS = ("4° or more, or free of knock", "2° to 4°", "0° to 2°", "0° to -4°", "under -4°")
_PLACES = (6.0, 150.0, 230.0, 310.0, 395.0)
_ROOM = 0.8  # of the width: where our letters are not at hand, others may run wider
KNOCKS = "no"


def knock_picture(each: KnockMap, theme: Theme) -> Drawing:
    """Draw the map: boost to the right, ratio upward.

    Parameters
    ----------
    each
        The map; coarse enough for a number in each tile.
    theme
        Colours.

    Returns
    -------
    Drawing
        The picture.
    """
    told = [line for said in each.told for line in lines(said, WIDTH * _ROOM, 7.5, most=4)]
    bottom = _TOP + _ROW * len(each.ratios)
    size = (WIDTH, bottom + 82 + _LINE * len(told))
    drawing = Drawing("knock-map", theme, size, alt_text(each))
    room = WIDTH - 12
    drawing.text((6, 16), "How far each ratio stands from knock", 12, bold=1, room=room)
    drawing.text((6, 29), f"{each.job}: {each.fuel}", 8, room=room)
    drawing.text((6, 46), "Compression ratio, upward", 8)
    _tiles(drawing, each)
    _sides(drawing, each, bottom)
    _limit(drawing, each)
    _trust(drawing, each, bottom)
    _numbers(drawing, each)
    _chosen(drawing, each)
    _key(drawing, each, bottom + 38)
    for at, line in enumerate(told):
        drawing.text((6, bottom + 72 + _LINE * at), line, 7.5)
    return drawing


def alt_text(each: KnockMap) -> str:
    """Tell the map in words: the limit at each boost, and where the job stands."""
    told = []
    for column, boost in enumerate(each.boosts):
        limit = each.limit(column)
        said = "off the map" if limit is None else f"{limit:.1f}"
        told.append(f"{boost:.1f} bar {said}")
    where = "inside" if each.in_range else "outside"
    return (
        f"Map of compression ratio by boost for {each.job}, {each.fuel}. Ratio at which the "
        f"margin is used up: {'; '.join(told)}. The job stands at ratio {each.chosen_ratio:.1f} "
        f"and {each.chosen_boost:.2f} bar, {where} the model's range."
    )


def margin_text(margin: float | None) -> str:
    """Say a margin in degrees with its sign, or that it knocks at any timing.

    Examples
    --------
    >>> margin_text(2.6), margin_text(-0.72), margin_text(0.04), margin_text(None)
    ('+3', '-0.7', '+0.0', 'no')
    """
    if margin is None:
        return KNOCKS
    return f"{margin:+.1f}" if abs(margin) < 0.95 else f"{margin:+.0f}"


def gravity(margin: float | None, *, free: bool = False) -> int:
    """Return how grave a tile is, 0 to 4; where knock leaves it alone, not at all."""
    if free:
        return 0
    return len(_STEPS) if margin is None else sum(margin < each for each in _STEPS)


def _tile_width(each: KnockMap) -> float:
    return (WIDTH - _LEFT - _EDGE) / len(each.boosts)


def _at(each: KnockMap, boost: float, ratio: float) -> Point:
    """Place a boost and a ratio: tiles are centred on theirs."""
    wide = _tile_width(each)
    across = (boost - each.boosts[0]) / (each.boosts[1] - each.boosts[0])
    up = (each.ratios[-1] - ratio) / (each.ratios[1] - each.ratios[0])
    return _LEFT + wide * (across + 0.5), _TOP + _ROW * (up + 0.5)


def _tiles(drawing: Drawing, each: KnockMap) -> None:
    wide = _tile_width(each)
    for row, ratio in enumerate(each.ratios):
        for column, boost in enumerate(each.boosts):
            x, y = _at(each, boost, ratio)
            grave = gravity(each.margin[row][column], free=each.free[row][column])
            fill = drawing.theme.fills[grave]
            drawing.mark((x - wide / 2, y - _ROW / 2), (wide, _ROW), fill, grave)


def _numbers(drawing: Drawing, each: KnockMap) -> None:
    """Set the numbers over the lines, so that every one can be read."""
    for ratio, row in zip(each.ratios, each.margin, strict=True):
        for boost, margin in zip(each.boosts, row, strict=True):
            x, y = _at(each, boost, ratio)
            drawing.plated((x, y + 3.2), margin_text(margin), 9)


def _sides(drawing: Drawing, each: KnockMap, bottom: float) -> None:
    for ratio in each.ratios:
        y = _at(each, each.boosts[0], ratio)[1]
        drawing.text((_LEFT - 6, y + 3), f"{ratio:.1f}", 8, anchor="end")
    for boost in each.boosts:
        x = _at(each, boost, each.ratios[0])[0]
        drawing.text((x, bottom + 11), f"{boost:.1f}", 8, anchor="middle")
    drawing.text((WIDTH - _EDGE, bottom + 23), "Boost, bar above the air around", 8, anchor="end")


def _limit(drawing: Drawing, each: KnockMap) -> None:
    """Draw where the margin is used up, on a ground that shows it on any tile."""
    found = [
        _at(each, boost, limit)
        for column, boost in enumerate(each.boosts)
        if (limit := each.limit(column)) is not None
    ]
    if len(found) > 1:
        drawing.line(*found, stroke=drawing.theme.ground, stroke_width=4.5)
        drawing.line(*found, stroke=drawing.theme.ink, stroke_width=2)


def _trust(drawing: Drawing, each: KnockMap, bottom: float) -> None:
    """Mark the boost beyond which the model does not count."""
    if each.trusted_boost >= each.boosts[-1]:
        return
    x = _at(each, each.trusted_boost, each.ratios[0])[0]
    drawing.line((x, _TOP - 4), (x, bottom), stroke=drawing.theme.ground, stroke_width=4)
    drawing.line((x, _TOP - 4), (x, bottom), stroke_width=1.6, stroke_dasharray="5 3")
    said = f"outside its range beyond {each.trusted_boost:.1f} bar"
    anchor = "end" if x > WIDTH * 0.6 else "start"
    drawing.text((x, _TOP - 7), said, 8, anchor=anchor)


def _chosen(drawing: Drawing, each: KnockMap) -> None:
    x, y = _at(each, each.chosen_boost, each.chosen_ratio)
    for colour, thick in ((drawing.theme.ground, 5.5), (drawing.theme.strong, 2.8)):
        drawing.dot((x, y), 11, fill="none", stroke=colour, stroke_width=thick)


def _key(drawing: Drawing, each: KnockMap, top: float) -> None:
    """Say what fills, line and ring mean."""
    for grave, (x, said) in enumerate(zip(_PLACES, _KEYS, strict=True)):
        drawing.mark((x, top - 8), (14, 11), drawing.theme.fills[grave], grave)
        drawing.text((x + 18, top + 1), said, 7.5)
    job = f"this job: ratio {each.chosen_ratio:.1f} at {each.chosen_boost:.2f} bar"
    drawing.dot((13, top + 16), 5.5, fill="none", stroke=drawing.theme.strong, stroke_width=2)
    drawing.text((24, top + 19), job, 7.5)
    drawing.line((190, top + 16), (210, top + 16), stroke_width=2)
    drawing.text((216, top + 19), "margin used up", 7.5)
    drawing.text((310, top + 19), f"{KNOCKS}: knocks however late it burns", 7.5)
