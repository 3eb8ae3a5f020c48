"""Pieces that several sheets share: cautions, short reasons, marks, pictures in both themes."""

import re
from collections.abc import Callable, Iterable, Sequence

from planner.models.plan import DecisionDoc
from planner.models.steps import CautionDoc
from planner.sheets.layout import is_whole, shortened
from planner.sheets.letters import clean
from planner.sheets.pictures.ink import DARK, LIGHT, Theme
from planner.sheets.pictures.svg import Drawing
from planner.sheets.view import Caution, Picture

GRAVITY = ("danger", "warning", "caution", "notice")
_POINT = 0.3528
LEGEND = (
    "FIRM is settled by readings and rules. PROVISIONAL rests on something assumed, which is "
    "named. WAITING needs a reading, which is named. REFUSED has no answer; the reason and a way "
    "out stand beside it. The frame says the same: a full line, a broken line, dots, a double "
    "line."
)


def cautions(docs: Iterable[CautionDoc]) -> tuple[Caution, ...]:
    """Turn cautions into blocks, the gravest first, each once."""
    seen: dict[str, Caution] = {}
    for each in sorted(docs, key=lambda doc: GRAVITY.index(doc.severity)):
        text = clean(shortened(each.text))
        said = f"May apply: {text}" if each.may_apply else text
        seen.setdefault(text, Caution(severity=each.severity, text=said))
    return tuple(seen.values())


def value_text(decision: DecisionDoc) -> str:
    """Say what a decision came to."""
    if decision.not_applicable is not None:
        return f"Does not apply: {clean(decision.not_applicable)}"
    if decision.results:
        told = (
            f"{name.replace('_', ' ')} {shortened(each.text)}"
            for name, each in decision.results.items()
        )
        return clean("; ".join(told))
    return clean(shortened(decision.text).replace("_", " "))


def mark_text(decision: DecisionDoc) -> str:
    """Say where a figure comes from."""
    told = (
        f"{each.status}: {each.cite}" if each.cite else each.status for each in decision.sources
    )
    return clean("; ".join(dict.fromkeys(told)))


def reason_text(decision: DecisionDoc, audience: str) -> str:
    """Give the reason to one of the three people, without what turns on a missing reading."""
    text = decision.because.get(audience) or decision.because.get("builder", "")
    said = shortened(text)
    if decision.status in ("waiting", "refused"):
        said = " ".join(each for each in sentences(said) if is_whole(each))
    return clean(said)


def sentences(text: str) -> list[str]:
    """Split a text after full stops.

    Examples
    --------
    >>> sentences("Bore 86.5 mm. Hone it.")
    ['Bore 86.5 mm.', 'Hone it.']
    """
    return [each for each in re.split(r"(?<=[.!?]) (?=[A-Z0-9])", text.strip()) if each]


def first_words(text: str, most: int) -> str:
    """Return as many whole sentences from the start as fit, at least one."""
    told = sentences(text)
    kept = told[:1]
    for each in told[1:]:
        if len(" ".join([*kept, each])) > most:
            break
        kept.append(each)
    return " ".join(kept)


def picture(
    draw: Callable[[Theme], Drawing],
    caption: str,
    *,
    listed: Sequence[str] = (),
    page: bool = False,
) -> Picture:
    """Draw a picture in both themes."""
    light, dark = draw(LIGHT), draw(DARK)
    wide, high = light.size
    return Picture(
        light=light.svg(),
        dark=dark.svg(),
        alt=light.alt,
        caption=caption,
        width=wide * _POINT,
        height=high * _POINT,
        listed=tuple(listed),
        page=page,
    )
