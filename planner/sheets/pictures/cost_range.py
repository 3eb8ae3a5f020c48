"""What the job may cost: the whole range, and which lots of work and parts make it up."""

from collections import defaultdict
from dataclasses import dataclass

from planner.models.cost import Cost
from planner.sheets.letters import width
from planner.sheets.pictures.ink import Theme
from planner.sheets.pictures.svg import Drawing

WIDTH = 500.0
_LEFT, _ROW, _TOP = 118.0, 17.0, 74.0
KINDS = {"part": "Parts", "risk": "What may come up", "tax": "Tax", "outside": "Outside services"}


@dataclass(frozen=True, slots=True)
class Lot:
    """Lines of the quote taken together."""

    title: str
    low: float
    likely: float
    high: float


def lots_of(cost: Cost) -> list[Lot]:
    """Add the lines up: work by component, parts, what may come up, tax."""
    sums: defaultdict[str, list[float]] = defaultdict(lambda: [0.0, 0.0, 0.0])
    for line in cost.lines:
        title = KINDS.get(line.kind) or f"Work: {line.group}"
        for place, each in enumerate((line.low, line.likely, line.high)):
            sums[title][place] += float(each)
    return [Lot(title, *parts) for title, parts in sums.items()]


def money(amount: float | str) -> str:
    """Say a sum of money in whole units.

    Examples
    --------
    >>> money("15111.98")
    '15,112'
    """
    return f"{float(amount):,.0f}"


def alt_text(cost: Cost) -> str:
    """Tell the range in words."""
    told = "; ".join(f"{each.title} {money(each.likely)}" for each in lots_of(cost))
    return (
        f"Price in {cost.currency}: low {money(cost.low)}, likely {money(cost.likely)}, "
        f"high {money(cost.high)}. Likely shares: {told}."
    )


def cost_picture(cost: Cost, theme: Theme) -> Drawing:
    """Draw the range as a bar, the budget as a hatched field, and the lots under it."""
    lots = lots_of(cost)
    height = _TOP + _ROW * len(lots) + 8
    drawing = Drawing("cost", theme, (WIDTH, height), alt_text(cost))
    low, likely, high = float(cost.low), float(cost.likely), float(cost.high)
    budget = _budget(cost)
    most = max(high, *budget, 1.0) * 1.04
    scale = (WIDTH - _LEFT) / most
    _range(drawing, (low, likely, high), scale, budget)
    longest = max((lot.high for lot in lots), default=1.0) or 1.0
    told = [f"{money(lot.low)} · {money(lot.likely)} · {money(lot.high)}" for lot in lots]
    small = (WIDTH - _LEFT - 8 - max((width(each, 7) for each in told), default=0.0)) / longest
    for place, lot in enumerate(lots):
        y = _TOP + _ROW * place
        drawing.text((_LEFT - 6, y + 9.5), lot.title, 8, anchor="end", room=_LEFT - 6)
        drawing.mark((_LEFT, y + 1.5), (max(0.5, lot.likely * small), 11), theme.fills[2], 2)
        end = _LEFT + lot.high * small
        drawing.line((_LEFT + lot.low * small, y + 7), (end, y + 7), stroke_width=1.6)
        drawing.text((max(end, _LEFT + lot.likely * small) + 5, y + 9.5), told[place], 7)
    return drawing


def _budget(cost: Cost) -> tuple[float, ...]:
    verdict = cost.budget
    if verdict is None or not verdict.high:
        return ()
    return (float(verdict.low or 0), float(verdict.high))


def _range(
    drawing: Drawing, ends: tuple[float, float, float], scale: float, budget: tuple[float, ...]
) -> None:
    theme = drawing.theme
    low, likely, high = (_LEFT + each * scale for each in ends)
    drawing.text((_LEFT - 6, 37), "Whole job", 9, bold=1, anchor="end")
    if budget:
        left = _LEFT + budget[0] * scale
        wide = max(2.0, (budget[1] - budget[0]) * scale)
        drawing.mark((left, 48), (wide, 9), theme.fills[1], 1)
        drawing.text((_LEFT - 6, 56), "Your budget", 8, anchor="end")
        _beside(drawing, (left, left + wide), f"{money(budget[0])} to {money(budget[1])}")
    drawing.mark((low, 26), (max(2.0, high - low), 16), theme.fills[2], 2)
    drawing.line((likely, 22), (likely, 46), stroke_width=2.4)
    _named(drawing, (low, likely, high), ends)


def _beside(drawing: Drawing, ends: tuple[float, float], said: str) -> None:
    """Set the budget's sums beside its field, on whichever side has room, else on it."""
    long = width(said, 7) + 5
    if ends[1] + long <= WIDTH:
        drawing.text((ends[1] + 4, 56), said, 7)
    elif ends[0] - long >= _LEFT:
        drawing.text((ends[0] - 4, 56), said, 7, anchor="end")
    else:
        drawing.plated((sum(ends) / 2, 55), said, 7)


def _named(
    drawing: Drawing, at: tuple[float, float, float], ends: tuple[float, float, float]
) -> None:
    """Set the three sums over the bar, pushed apart so that none lies on another."""
    wide = 62.0
    places = [at[0], at[1], at[2]]
    places[2] = min(WIDTH - wide / 2, max(places[2], places[1] + wide))
    places[1] = min(places[1], places[2] - wide)
    places[0] = min(places[0], places[1] - wide)
    for place, word, end in zip(places, ("low", "likely", "high"), ends, strict=True):
        drawing.text((place, 9), word, 7, anchor="middle")
        drawing.text((place, 19), money(end), 10, bold=1, anchor="middle")
