"""Texts with names in braces: checked when rules load, filled when a plan is printed."""

import re

from planner.errors import Place, Problem
from planner.records import record
from planner.rulebook.ranges import Unreadable
from planner.rulebook.refs import Ref
from planner.rulebook.scope import AlreadyTold, Scope

_BRACES = re.compile(r"\{([^{}]*)\}")
_NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*(\.[A-Za-z_][A-Za-z0-9_]*)*")
REDUCED = ("largest", "smallest", "spread")


@record
class Slot:
    """One ``{name}`` of a text: the name, and how its items are brought to one figure."""

    text: str
    ref: Ref | None
    reduction: str | None = None


def slots_of(text: str, scope: Scope, place: Place) -> tuple[Slot, ...]:
    """Resolve every ``{name}`` of a text.

    Raises
    ------
    Unreadable
        When one does not resolve; braces hold names, no arithmetic.
    AlreadyTold
        When a name failed where it was declared.
    """
    return tuple(slot_of(inside, scope, place) for inside in _BRACES.findall(text))


def slot_of(inside: str, scope: Scope, place: Place) -> Slot:
    """Resolve what stands between one pair of braces."""
    if inside == "where":
        return Slot(inside, None)
    if not _NAME.fullmatch(inside):
        raise Unreadable(
            Problem(
                f"{{{inside}}} is not a name",
                "braces hold one name, with no arithmetic; "
                "make what you want to print a decision of its own",
                place,
            )
        )
    head, _, last = inside.rpartition(".")
    if last in REDUCED and head:
        return Slot(inside, scope.resolve(head, place), last)
    return Slot(inside, scope.resolve(inside, place))


def check_text(text: str, scope: Scope, place: Place, problems: list[Problem]) -> None:
    """Report braces that do not resolve."""
    stripped = _BRACES.sub("", text)
    if "{" in stripped or "}" in stripped:
        problems.append(
            Problem(
                f"a brace stands alone in: {text}", "write {name}, or leave the brace out", place
            )
        )
        return
    try:
        slots_of(text, scope, place)
    except Unreadable as error:
        problems.append(error.problem)
    except AlreadyTold:
        return


def fill(text: str, values: dict[str, str]) -> str:
    """Put the printed values in."""
    return _BRACES.sub(lambda match: values.get(match[1], match[0]), text)


def names_in(text: str) -> tuple[str, ...]:
    """List what stands between braces."""
    return tuple(_BRACES.findall(text))
