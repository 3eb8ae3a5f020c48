"""Shell choice: for each journal the pair of shells, and the clearance it gives."""

from collections.abc import Mapping
from dataclasses import dataclass

from planner.models.plan import DecisionDoc
from planner.sheets.letters import lines
from planner.sheets.pictures.clearances import Band, band_of
from planner.sheets.pictures.ink import Theme
from planner.sheets.pictures.svg import Drawing

WIDTH, ROW_HIGH = 500.0, 74.0
_WIDE, _BAND = 80.0, 26.0


@dataclass(frozen=True, slots=True)
class Shell:
    """One journal: the pair chosen, its clearance, and the band it must lie in."""

    journal: str
    pair: str
    clearance: float | None


@dataclass(frozen=True, slots=True)
class ShellChoice:
    """The journals of one line."""

    title: str
    shells: tuple[Shell, ...]
    band: Band


CLEARANCE_WITH = {"main_shells": "main_clearance_with", "rod_shells": "rod_clearance_with"}
"""For each shell decision, the rule that says what each pair would leave."""

_LINES = (
    ("Main shells", "main_shells", "main_bearing_clearance"),
    ("Rod shells", "rod_shells", "rod_bearing_clearance"),
)
_MM = 1e-3


def shell_choices(
    decisions: Mapping[str, DecisionDoc],
    clearances: Mapping[str, Mapping[tuple[str, ...], float]],
) -> list[ShellChoice]:
    """Gather the lines whose shells are chosen, journal by journal.

    Parameters
    ----------
    decisions
        Of the plan.
    clearances
        By rule, journal and pair. [m]

    Returns
    -------
    list of ShellChoice
        Clearances in millimetres; the band as the plan prints it.
    """
    found = []
    for title, chosen, band in _LINES:
        pairs, limits = decisions.get(chosen), band_of(decisions.get(band))
        if pairs is None or limits is None:
            continue
        left = clearances.get(CLEARANCE_WITH[chosen], {})
        shells = tuple(
            Shell(f"{set_name} {item}", each.text, _in_mm(left.get((item, each.value))))
            for set_name, items in pairs.per.items()
            for item, each in items.items()
            if each.value
        )
        if shells:
            found.append(ShellChoice(title, shells, limits))
    return found


def _in_mm(clearance: float | None) -> float | None:
    return None if clearance is None else clearance / _MM


def alt_text(choice: ShellChoice) -> str:
    """Tell the choice in words."""
    told = "; ".join(
        f"{each.journal}: {each.pair}"
        + (
            f", clearance {choice.band.said(each.clearance)[1]}"
            if each.clearance is not None
            else ""
        )
        for each in choice.shells
    )
    band = f"{choice.band.low[1]} to {choice.band.high[1]}"
    return f"{choice.title}, in {choice.band.unit}; allowed {band}. {told}."


def shells_picture(choice: ShellChoice, theme: Theme, name: str) -> Drawing:
    """Draw a card for each journal: the pair in words, the clearance on the allowed band."""
    in_row = int(WIDTH // _WIDE)
    rows = -(-len(choice.shells) // in_row)
    drawing = Drawing(name, theme, (WIDTH, 16 + ROW_HIGH * rows), alt_text(choice))
    drawing.text((0, 10), choice.title, 9, bold=1)
    band = f"{choice.band.low[1]} to {choice.band.high[1]}"
    told = f"clearance allowed {band} {choice.band.unit}"
    drawing.text((WIDTH, 10), told, 7, anchor="end")
    for place, shell in enumerate(choice.shells):
        at = (_WIDE * (place % in_row), 16 + ROW_HIGH * (place // in_row))
        _card(drawing, at, shell, choice)
    return drawing


def _card(drawing: Drawing, at: tuple[float, float], shell: Shell, choice: ShellChoice) -> None:
    x, y = at
    drawing.box((x, y), (_WIDE - 6, ROW_HIGH - 6), stroke=drawing.theme.ink, stroke_width=0.6)
    drawing.text((x + 5, y + 12), shell.journal, 9, bold=1)
    for row, line in enumerate(lines(shell.pair, _WIDE - 16, 6.5, most=3)):
        drawing.text((x + 5, y + 21 + 7.5 * row), line, 6.5)
    if shell.clearance is None:
        return
    left, wide, base = x + 5, _WIDE - 16, y + 56
    drawing.mark((left, base), (wide, 6), drawing.theme.fills[1], 1)
    low, high = choice.band.low[0], choice.band.high[0]
    share = (shell.clearance - low) / (high - low)
    spot = left + wide * min(1.0, max(0.0, share))
    drawing.line((spot, base - 3), (spot, base + 9), stroke_width=2.2)
    said = choice.band.said(shell.clearance)[1]
    middle = min(left + wide - 12, max(left + 12, spot))
    drawing.plated((middle, base - 4), said, 7.5)
