"""Clearances from the coldest start over the bench to full heat, each on a scale of its own."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from planner.models.plan import DecisionDoc
from planner.sheets.letters import lines
from planner.sheets.pictures.ink import Theme
from planner.sheets.pictures.svg import Drawing

WIDTH, HEIGHT = 166.0, 112.0
_TOP, _BOTTOM = 34.0, 92.0
_COLUMNS = (30.0, 83.0, 136.0)
_BAR, _LEAST_APART = 30.0, 7.0
Length = tuple[float, str]
STATES = ("coldest start", "as built, 20 °C", "running hot")


@dataclass(frozen=True, slots=True)
class Clearance:
    """One clearance in its three states; a state nobody worked out is none.

    Attributes
    ----------
    cold, built, hot
        The number, and how it is printed.
    low, high
        The band to build to; none where only an aim is known.
    """

    title: str
    cold: Length | None
    built: Length
    hot: Length | None
    low: Length | None = None
    high: Length | None = None
    unit: str = "mm"

    @property
    def states(self) -> tuple[Length | None, ...]:
        """The three states from cold to hot."""
        return (self.cold, self.built, self.hot)


# Title, what it is built to, what is left cold, what is left hot; the names are the rulebook's.
_ROWS = (
    ("Main bearing", "main_bearing_clearance", "main_cold_clearance", "main_hot_clearance"),
    ("Rod bearing", "rod_bearing_clearance", "", "rod_hot_clearance"),
    ("Pin in piston boss", "pin_clearance_boss", "boss_clearance_coldest", "boss_clearance_hot"),
    ("Pin in rod bush", "pin_clearance_bush", "", "bush_clearance_hot"),
    ("Exhaust valve stem", "guide_clearance", "", "guide_hot_check"),
)
_TOLD = re.compile(r"([\d.]+) to ([\d.]+) (\S+), aim ([\d.]+)")
_UNITS = {"mm": 1.0, "thou": 0.0254, "in": 25.4}


@dataclass(frozen=True, slots=True)
class Band:
    """What to build to, as numbers and as the plan prints them, in the plan's unit."""

    low: Length
    aim: Length
    high: Length
    unit: str

    def said(self, length: float) -> Length:
        """Return another length of it, in millimetres, printed as finely as the aim."""
        places = len(self.aim[1].partition(".")[2])
        return (length, f"{length / _UNITS[self.unit]:.{places}f}")


def band_of(decision: DecisionDoc | None) -> Band | None:
    """Return the band of a decision, where it has one in a unit of length.

    The plan rounds a limit inward, and a picture says the same figure as the text beside it.
    """
    if decision is None or decision.unit != "mm" or decision.target is None:
        return None
    told = _TOLD.search(decision.text)
    if told is None or decision.low is None or decision.high is None or told[3] not in _UNITS:
        return None
    return Band(
        (decision.low, told[1]), (decision.target, told[4]), (decision.high, told[2]), told[3]
    )


def clearances_of(decisions: Mapping[str, DecisionDoc]) -> list[Clearance]:
    """Gather the clearances that the plan knows in more than one state."""
    found = []
    for title, built, cold, hot in _ROWS:
        band = band_of(decisions.get(built))
        others = [_target(decisions, cold), _target(decisions, hot)]
        if band is not None and any(each is not None for each in others):
            found.append(_clearance(title, band, others[0], others[1]))
    gap, lost = band_of(decisions.get("top_ring_gap")), _target(decisions, "ring_gap_lost")
    if gap is not None and lost is not None:
        found.append(_clearance("Top ring end gap", gap, None, gap.aim[0] - lost))
    return found


def _clearance(title: str, band: Band, cold: float | None, hot: float | None) -> Clearance:
    states = [None if each is None else band.said(each) for each in (cold, hot)]
    return Clearance(title, states[0], band.aim, states[1], band.low, band.high, band.unit)


def _target(decisions: Mapping[str, DecisionDoc], name: str) -> float | None:
    decision = decisions.get(name)
    return decision.target if decision else None


def alt_text(each: Clearance) -> str:
    """Tell one clearance in words."""
    told = [
        f"{state} {value[1]}"
        for state, value in zip(STATES, each.states, strict=True)
        if value is not None
    ]
    return f"{each.title}, in {each.unit}: {'; '.join(told)}."


def clearance_picture(each: Clearance, theme: Theme, name: str) -> Drawing:
    """Draw one clearance as three columns, the band to build to beside the middle one."""
    drawing = Drawing(name, theme, (WIDTH, HEIGHT), alt_text(each))
    drawing.text((0, 10), each.title, 9, bold=1, room=WIDTH - 22)
    drawing.text((WIDTH, 10), each.unit, 7, anchor="end")
    top = max(value[0] for value in (*each.states, each.high) if value is not None)
    scale = (_BOTTOM - _TOP) / top if top > 0 else 0.0
    for place, value in enumerate(each.states):
        _column(drawing, place, value, scale)
    if each.low is not None and each.high is not None:
        _build_band(drawing, (each.low, each.high), scale)
    drawing.line((0, _BOTTOM), (WIDTH, _BOTTOM), stroke_width=1)
    return drawing


def _build_band(drawing: Drawing, band: tuple[Length, Length], scale: float) -> None:
    x = _COLUMNS[1] + _BAR / 2 + 3
    low, high = (_BOTTOM - max(0.0, end[0]) * scale for end in band)
    drawing.line((x, low), (x, high), stroke_width=2.4)
    for end in (low, high):
        drawing.line((x - 3, end), (x + 3, end), stroke_width=1)
    if low - high < _LEAST_APART:
        low, high = (low + high) / 2 + _LEAST_APART / 2, (low + high) / 2 - _LEAST_APART / 2
    drawing.text((x + 5, high + 2), band[1][1], 6)
    drawing.text((x + 5, low + 2), band[0][1], 6)


def _column(drawing: Drawing, place: int, value: Length | None, scale: float) -> None:
    theme = drawing.theme
    middle = _COLUMNS[place]
    for row, line in enumerate(lines(STATES[place], 52, 6.5, most=2)):
        drawing.text((middle, _BOTTOM + 8 + 7.5 * row), line, 6.5, anchor="middle")
    if value is None:
        drawing.text((middle, _BOTTOM - 4), "not worked out", 6, anchor="middle", room=54)
        return
    high = max(1.0, max(0.0, value[0]) * scale)
    fill = (theme.fills[0], theme.fills[1], theme.fills[3])[place]
    drawing.mark((middle - _BAR / 2, _BOTTOM - high), (_BAR, high), fill, (1, 0, 3)[place])
    drawing.plated((middle, _BOTTOM - high - 3), value[1], 8)
