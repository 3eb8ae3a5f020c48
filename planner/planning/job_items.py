"""Items of the sets of a job: cylinder 3, main 2, exhaust valve 5."""

from collections.abc import Mapping as AnyMapping
from collections.abc import Sequence as AnySequence
from dataclasses import dataclass

from planner.errors import Place, Problem, nearest
from planner.rulebook.syntax import Rulebook
from planner.rulebook.values import Value

Items = AnyMapping[str, tuple[str, ...]]


def items_of_sets(
    rulebook: Rulebook, records: AnyMapping[str, AnyMapping[str, Value]]
) -> dict[str, tuple[str, ...]]:
    """List the items of every numbered set that the job's records allow.

    Parameters
    ----------
    rulebook
        Declares the sets and which field counts each.
    records
        Fields of the chosen records.

    Returns
    -------
    dict
        Set name to items; a set whose count is not known has none.
    """
    found = {}
    for each in rulebook.sets.values():
        record, field = each.count
        count = records.get(record, {}).get(field)
        known = int(count) if isinstance(count, float) and count == int(count) else 0
        found[each.name] = tuple(str(number) for number in range(1, known + 1))
    return found


def called(rulebook: Rulebook, name: str) -> str:
    """Say how people call an item of a set: `exhaust valve` for set `exhaust`."""
    each = rulebook.sets.get(name)
    return each.called if each else name.replace("_", " ").removesuffix("s")


def span_of(items: AnySequence[str]) -> str:
    """Say which items there are: `1 to 4`."""
    return f"{items[0]} to {items[-1]}" if len(items) > 1 else ", ".join(items)


@dataclass(frozen=True, slots=True)
class Where:
    """Items named in words: `main 3`, `main 2, main 3`, `exhaust valve 5, 6`."""

    set_name: str
    items: tuple[str, ...]


def read_where(
    text: str, place: Place, rulebook: Rulebook, sets: Items, wanted: str
) -> Where | Problem:
    """Read where something was found.

    Parameters
    ----------
    text
        As written in the job.
    place
        Where it stands.
    rulebook
        Knows how the sets are called.
    sets
        Items of this engine.
    wanted
        The set that the finding is about.

    Returns
    -------
    Where or Problem
        The items, or what is wrong with the text.
    """
    spoken = called(rulebook, wanted)
    known = sets.get(wanted, ())
    if not known:
        return Where(wanted, ())  # how many there are is not known, and that is told already
    items = []
    for piece in text.split(","):
        name, item = _split(piece.strip(), spoken)
        if name not in (wanted, spoken):
            return _other_set(text, name, place, rulebook, spoken)
        if item not in known:
            fix = f"this engine has {spoken} {span_of(known)}"
            return Problem(f"there is no {spoken} {item or '?'}", fix, place)
        items.append(item)
    return Where(wanted, tuple(items))


def _split(piece: str, spoken: str) -> tuple[str, str]:
    """Split `exhaust valve 5`; a bare number goes on with the same set."""
    if piece.isdigit():
        return spoken, piece
    name, _, item = piece.rpartition(" ")
    return (name.strip(), item.strip()) if name else (piece, "")


def _other_set(text: str, name: str, place: Place, rulebook: Rulebook, spoken: str) -> Problem:
    all_called = {*(each.called for each in rulebook.sets.values()), *rulebook.sets}
    offer = nearest(name, all_called)
    sample = f"write {spoken} and its number, for example {spoken} 3"
    hint = f"did you mean {offer}? " if offer and offer != name else ""
    return Problem(f"{text!r} is not a {spoken} of this engine", f"{hint}{sample}", place)
