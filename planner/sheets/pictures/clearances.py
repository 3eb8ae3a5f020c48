"""Clearances from the coldest start over the bench to full heat, each on a scale of its own."""

from collections.abc import Mapping
from dataclasses import dataclass

from planner.models.plan import DecisionDoc
from planner.sheets.letters import lines
from planner.sheets.pictures.ink import Theme
from planner.sheets.pictures.svg import Drawing

WIDTH, HEIGHT = 166.0, 112.0
_TOP, _BOTTOM = 34.0, 92.0
_COLUMNS = (30.0, 83.0, 136.0)
_BAR = 30.0
STATES = ("coldest start", "as built, 20 °C", "running hot")


@dataclass(frozen=True, slots=True)
class Clearance:
    """One clearance in its three states; a state nobody worked out is none.

    Attributes
    ----------
    low, high
        The band to build to; none where only an aim is known.
    """

    title: str
    cold: float | None
    built: float
    hot: float | None
    low: float | None = None
    high: float | None = None
    unit: str = "mm"

    @property
    def states(self) -> tuple[float | None, ...]:
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


def clearances_of(decisions: Mapping[str, DecisionDoc]) -> list[Clearance]:
    """Gather the clearances that the plan knows in more than one state."""
    found = []
    for title, built, cold, hot in _ROWS:
        base = decisions.get(built)
        if base is None or base.target is None:
            continue
        others = [_target(decisions, cold), _target(decisions, hot)]
        if any(each is not None for each in others):
            found.append(
                Clearance(
                    title, others[0], base.target, others[1], base.low, base.high, base.unit or ""
                )
            )
    gap, lost = decisions.get("top_ring_gap"), _target(decisions, "ring_gap_lost")
    if gap is not None and gap.target is not None and lost is not None:
        hot_gap = gap.target - lost
        found.append(
            Clearance("Top ring end gap", None, gap.target, hot_gap, gap.low, gap.high, "mm")
        )
    return found


def _target(decisions: Mapping[str, DecisionDoc], name: str) -> float | None:
    decision = decisions.get(name)
    return decision.target if decision else None


def printed(length: float, unit: str, system: str) -> str:
    """Say a clearance: thousandths of a millimetre, or ten thousandths of an inch.

    Examples
    --------
    >>> printed(0.0546, "mm", "metric"), printed(0.0508, "mm", "inch")
    ('0.055', '0.0020')
    """
    if system == "inch" and unit == "mm":
        return f"{length / 25.4:.4f}"
    return f"{length:.3f}"


def unit_word(unit: str, system: str) -> str:
    """Name the unit that `printed` prints in."""
    return "in" if system == "inch" and unit == "mm" else unit


def alt_text(each: Clearance, system: str) -> str:
    """Tell one clearance in words."""
    told = [
        f"{state} {printed(value, each.unit, system)}"
        for state, value in zip(STATES, each.states, strict=True)
        if value is not None
    ]
    return f"{each.title}, in {unit_word(each.unit, system)}: {'; '.join(told)}."


def clearance_picture(each: Clearance, theme: Theme, name: str, system: str) -> Drawing:
    """Draw one clearance as three columns, the band to build to beside the middle one."""
    drawing = Drawing(name, theme, (WIDTH, HEIGHT), alt_text(each, system))
    drawing.text((0, 10), each.title, 9, bold=1, room=WIDTH - 22)
    drawing.text((WIDTH, 10), unit_word(each.unit, system), 7, anchor="end")
    top = max(value for value in (*each.states, each.high) if value is not None)
    scale = (_BOTTOM - _TOP) / top if top > 0 else 0.0
    for place, value in enumerate(each.states):
        _column(drawing, place, value, scale, printed(value or 0.0, each.unit, system))
    if each.low is not None and each.high is not None:
        x = _COLUMNS[1] + _BAR / 2 + 3
        ends = [_BOTTOM - max(0.0, end) * scale for end in (each.low, each.high)]
        drawing.line((x, ends[0]), (x, ends[1]), stroke_width=2.4)
        for end in ends:
            drawing.line((x - 3, end), (x + 3, end), stroke_width=1)
        if ends[0] - ends[1] > 8:
            drawing.text((x + 5, ends[1] + 3), printed(each.high, each.unit, system), 6)
            drawing.text((x + 5, ends[0] + 3), printed(each.low, each.unit, system), 6)
    drawing.line((0, _BOTTOM), (WIDTH, _BOTTOM), stroke_width=1)
    return drawing


def _column(drawing: Drawing, place: int, value: float | None, scale: float, said: str) -> None:
    theme = drawing.theme
    middle = _COLUMNS[place]
    for row, line in enumerate(lines(STATES[place], 52, 6.5, most=2)):
        drawing.text((middle, _BOTTOM + 8 + 7.5 * row), line, 6.5, anchor="middle")
    if value is None:
        drawing.text((middle, _BOTTOM - 4), "not worked out", 6, anchor="middle", room=54)
        return
    high = max(1.0, max(0.0, value) * scale)
    fill = (theme.fills[0], theme.fills[1], theme.fills[3])[place]
    drawing.mark((middle - _BAR / 2, _BOTTOM - high), (_BAR, high), fill, (1, 0, 3)[place])
    drawing.plated((middle, _BOTTOM - high - 3), said, 8)
