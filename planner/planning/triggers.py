"""Whether something of the shop's catalogs counts for a job: surely, perhaps or not."""

from collections.abc import Iterable, Mapping
from enum import IntEnum

from planner.errors import Place, Problem, ProblemsFound, nearest
from planner.planning.names import Names
from planner.planning.shop_rows import rows_of
from planner.rulebook.results import Called
from planner.rulebook.syntax import Rulebook
from planner.rulebook.values import Entry, OneOf, Status

_FIELDS = {
    "part_lines": ("with", "ordered_at", "needed_at"),
    "contingencies": ("with", "unless"),
    "priced_options": ("operations",),
    "fastener_lines": ("tightened_at",),
    "run_in_steps": ("only_with",),
}


class Sure(IntEnum):
    """How sure it is that something counts."""

    NO = 0
    PERHAPS = 1
    YES = 2


class Triggers:
    """Answers whether triggers hold: an operation in the plan, or `name=word`.

    Parameters
    ----------
    names
        Knows every name of the rulebook and its value.
    called
        Operations of the plan.
    """

    def __init__(self, names: Names, called: Mapping[str, Called]) -> None:
        self.names, self.called = names, called

    def any_of(self, triggers: Iterable[str]) -> Sure:
        """Return the surest of some triggers; without any, it counts."""
        found = [self.one(each) for each in triggers]
        return max(found, default=Sure.YES)

    def one(self, trigger: str) -> Sure:
        """Return whether one trigger holds."""
        name, equals, word = trigger.partition("=")
        if not equals:
            called = self.called.get(name)
            if called is None:
                return Sure.NO
            return Sure.PERHAPS if called.perhaps else Sure.YES
        entries = self.names.world.entries(self.names.ref(name)).values()
        return max((_holds(each, word) for each in entries), default=Sure.PERHAPS)


def _holds(entry: Entry, word: str) -> Sure:
    if isinstance(entry.value, OneOf):
        return Sure.PERHAPS if word in entry.value.words else Sure.NO
    if isinstance(entry.value, str):
        return Sure.YES if entry.value == word else Sure.NO
    return Sure.NO if entry.status == Status.NOT_APPLICABLE else Sure.PERHAPS


def check_shop(rulebook: Rulebook) -> None:
    """Check every name in the shop's catalogs against the rulebook.

    Parameters
    ----------
    rulebook
        Rules and catalogs.

    Raises
    ------
    ProblemsFound
        With each name that is no operation, decision or word of one, at its row.
    """
    problems = []
    for stock, fields in _FIELDS.items():
        for row in rows_of(rulebook, stock).values():
            for trigger in (each for field in fields for each in row.names(field)):
                problems += _check(rulebook, trigger, f"{stock}: {row.id}", row.place)
    for stock, field in (("part_lines", "must_have"), ("fastener_lines", "grade")):
        for row in rows_of(rulebook, stock).values():
            problems += [
                _unknown(f"{stock}: {row.id}", each, rulebook.results, row.place)
                for each in row.names(field)
                if each not in rulebook.results and each not in rulebook.decisions
            ]
    for stock in ("turn_rounds",):
        problems += [
            _unknown(stock, row.id, rulebook.operations, row.place)
            for row in rows_of(rulebook, stock).values()
            if row.id not in rulebook.operations
        ]
    if problems:
        raise ProblemsFound(problems)


def _check(rulebook: Rulebook, trigger: str, where: str, place: Place) -> list[Problem]:
    name, equals, word = trigger.partition("=")
    if not equals:
        known = rulebook.operations
        return [] if name in known else [_unknown(where, name, known, place)]
    words = _words(rulebook, name)
    if words is None:
        return [_unknown(where, name, {**rulebook.results, **rulebook.inputs}, place)]
    return [] if word in words else [_unknown(where, word, words, place)]


def _words(rulebook: Rulebook, name: str) -> tuple[str, ...] | None:
    """Return the words a choice can take; nothing when the name is no choice."""
    if name in rulebook.inputs:
        return rulebook.inputs[name].type.words
    if name in rulebook.results:
        decision, result = rulebook.results[name]
        return rulebook.decisions[decision].gives[result].type.words
    return None


def _unknown(where: str, name: str, known: Iterable[str], place: Place) -> Problem:
    offer = nearest(name, known)
    hint = f"did you mean {offer}?" if offer else "see borewright rules names"
    return Problem(f"{where} names {name!r}, which the rules do not know", hint, place)
