"""Small operations for the tests of the route."""

from planner.errors import Place
from planner.rulebook.syntax import Operation

NOWHERE = Place("rules/operations.yaml", 1, 1)


def operation(name, *, after=(), needs=(), hold="", lane="block"):
    """An operation with plain reasons, so that a test can tell the edges apart."""
    return Operation(
        name=name,
        does=f"Do {name}",
        lane=lane,
        station="bench",
        hours=(3600.0, 7200.0, 10800.0),
        work_class="work",
        when=(),
        called_only=False,
        optional=False,
        needs=tuple(needs),
        after={earlier: f"{earlier} first" for earlier in after},
        implied={},
        inspect=(),
        hold=hold,
        why={},
        if_skipped="It goes wrong.",
        rework="",
        cautions=(),
        source="practice",
        place=NOWHERE,
    )


def catalogue(*operations):
    return {each.name: each for each in operations}
