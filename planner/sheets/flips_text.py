"""How far each input can move before an answer changes, as text; figures rounded to be kept."""

from collections.abc import Iterable

from planner.rulebook.flips import Flip
from planner.rulebook.printing import show_number, spoken
from planner.rulebook.results import Results
from planner.rulebook.syntax import Field
from planner.rulebook.values import OneOf
from planner.sheets.layout import Lines, wrapped

Moves = dict[tuple[str, str], list[Flip]]


def flips_text(results: Results, name: str, found: Iterable[Flip]) -> str:
    """Tell what could change a decision.

    Parameters
    ----------
    results
        The evaluated job.
    name
        The decision.
    found
        The flips of its inputs.

    Returns
    -------
    str
        A line for each input and item; those that make no difference come last, together.
    """
    moves: Moves = {}
    for flip in found:
        moves.setdefault((flip.input, flip.item), []).append(flip)
    lines = wrapped(
        f"How far each input can move while {name} and what stands behind it stay as they are. "
        "Each is moved alone; readings of one item move together.",
        "",
    )
    idle: list[str] = []
    for (name_of, item), some in moves.items():
        label = f"{spoken(name_of)} {item}".strip()
        if any(flip.changes for flip in some):
            lines += _told(label, results.rulebook.inputs[name_of], some)
        else:
            idle.append(label)
    if idle:
        lines += wrapped(", ".join(idle), "    ", "Make no difference, wherever they lie: ")
    if not moves:
        lines.append("It rests on no input of this job.")
    return "\n".join(lines)


def _told(label: str, field: Field, some: list[Flip]) -> Lines:
    parts = [_part(field, flip) for flip in some]
    return wrapped("; ".join(parts), "    ", f"{label}: ")


def _part(field: Field, flip: Flip) -> str:
    if isinstance(flip.at, OneOf):
        words = ", ".join(spoken(word) for word in flip.at.words)
        return f"nothing changes for {words}; it may for another word"
    if not isinstance(flip.at, float):
        return "nothing is promised"
    way = "up" if flip.upward else "down"
    if not flip.changes:
        return f"nothing changes {way}wards, to the end of its range"
    declared = field.type.as_number()
    towards = "down" if flip.upward else "up"
    if flip.together:
        moved = show_number(abs(flip.at), declared, towards="down")
        return f"nothing changes while all its readings move {way} by up to {moved}"
    return f"nothing changes {way} to {show_number(flip.at, declared, towards=towards)}"  # type: ignore[arg-type] # a word of the two
