"""What a change of the rules does to one job: what moves, and which edited rule moves it."""

from collections.abc import Iterable, Iterator

from planner.models.comparison import Change
from planner.models.impact import Cause, Moved
from planner.planning.assemble import explainer
from planner.planning.compare import compare
from planner.planning.deciding_rule import DecidingRule
from planner.planning.decision_docs import rule_place
from planner.planning.job_reader import JobReading
from planner.rulebook.definitions import Edited
from planner.rulebook.results import Outcome, Results
from planner.rulebook.syntax import ComputeBody, Decision, Rulebook, ValueBody


def impact_on(old: JobReading, new: JobReading, edited: Edited) -> tuple[Moved, ...]:
    """Compare a job under two rulebooks.

    Parameters
    ----------
    old, new
        The job as read for each rulebook.
    edited
        What the two say differently.

    Returns
    -------
    tuple of Moved
        Decisions in the rulebook's order, then operations, parts and price.
    """
    if edited.nothing:
        return ()
    before, after = explainer(old, edited.old), explainer(new, edited.new)
    causes = _Causes(before.results, after.results, edited)
    told = compare(before, after, ("before", "after"))
    moved = list(causes.moved())
    moved += [_operation(each, causes) for each in told.operations]
    moved += [Moved("part", each.id, each.title, each.before, each.after) for each in told.parts]
    moved += [
        Moved("cost", each.id, each.title, each.before, each.after)
        for each in told.cost
        if each.before != each.after
    ]
    return tuple(moved)


def _operation(change: Change, causes: "_Causes") -> Moved:
    own = causes.of_operation(change.id)
    behind = () if own or not change.decided_by else (Cause(change.decided_by),)
    return Moved("operation", change.id, change.title, change.before, change.after, own or behind)


class _Causes:
    """Walks from what moved to the edited rules behind it."""

    def __init__(self, old: Results, new: Results, edited: Edited) -> None:
        self.old, self.new, self.edited = old, new, edited
        self.decider = DecidingRule(old, new)
        self._found: dict[str, tuple[str, ...]] = {}
        names = dict.fromkeys([*new.outcomes, *old.outcomes])
        self.changed = {name: texts for name in names if (texts := self._texts(name))}

    def moved(self) -> Iterator[Moved]:
        """List the decisions that come out another way."""
        for name, (before, after) in self.changed.items():
            outcome = self.new.outcomes.get(name) or self.old.outcomes[name]
            causes = tuple(self._cause(each) for each in self._behind(name))
            yield Moved("decision", name, outcome.decision.means, before, after, causes)

    def of_operation(self, name: str) -> tuple[Cause, ...]:
        """Return an operation itself as the cause, where its own block was edited."""
        if name not in self.edited.operations:
            return ()
        at, was = (_place(book.operations.get(name)) for book in self._books())
        return (Cause(name, at, was_at=was),)

    def _books(self) -> tuple[Rulebook, Rulebook]:
        return self.edited.new, self.edited.old

    def _texts(self, name: str) -> tuple[str, str] | None:
        """Return a decision before and after, if the two differ in print or in standing."""
        one, other = self.old.outcomes.get(name), self.new.outcomes.get(name)
        if one is not None and other is not None and _entries(one) == _entries(other):
            return None
        before, after = self.decider.texts(name)
        words = [each.status.word if each is not None else "" for each in (one, other)]
        if before != after:
            return before, after
        if words[0] == words[1]:
            return None
        return f"{before} ({words[0]})", f"{after} ({words[1]})"

    def _behind(self, name: str) -> tuple[str, ...]:
        """Name the edited rules that a changed decision rests on, itself first."""
        if name not in self._found:
            self._found[name] = ()
            own = [name] if name in self.edited.written else []
            own += [each for book in self._decided(name) for each in self.edited.behind(book)]
            read = (each for decided in self._decided(name) for each in decided.reads)
            upstream = (one for each in read if each in self.changed for one in self._behind(each))
            self._found[name] = tuple(dict.fromkeys([*own, *upstream]))
        return self._found[name]

    def _decided(self, name: str) -> Iterable[Decision]:
        both = (self.edited.new.decisions.get(name), self.edited.old.decisions.get(name))
        return tuple(each for each in both if each is not None)

    def _cause(self, name: str) -> Cause:
        new, old = self.new.outcomes.get(name), self.old.outcomes.get(name)
        if new is None and old is None:
            return Cause(name, *_found(self.edited.new, name), *_found(self.edited.old, name))
        return Cause(name, *_applied(new), *_applied(old))


def _entries(outcome: Outcome) -> list[object]:
    """Give what an outcome answers, to compare: values and how settled they are."""
    return [
        (name, key, entry.value, entry.status, entry.refused)
        for name, answer in outcome.answers.items()
        for key, entry in answer.entries.items()
    ]


def _applied(outcome: Outcome | None) -> tuple[str, str]:
    """Give the row or formula that answered: where it stands, and its words."""
    if outcome is None:
        return "", ""
    rows = [row for trace in outcome.traces.values() for row in trace.rows]
    if rows:
        text, place = rows[0]
        return rule_place(place), text
    decision = outcome.decision
    return rule_place(decision.place), _body(decision)


def _body(decision: Decision) -> str:
    body = decision.body
    if isinstance(body, ComputeBody):
        return "; ".join(each.text for each in body.formulas.values())
    if isinstance(body, ValueBody):
        return "value"
    return decision.form


def _found(book: Rulebook, name: str) -> tuple[str, str]:
    """Say where an input or a catalog row stands."""
    catalog, _, row = name.partition(" ")
    known = book.inputs.get(name) or book.stock_rows.get(catalog, {}).get(row)
    return _place(known), ""


def _place(rule: object) -> str:
    place = getattr(rule, "place", None)
    return "" if place is None else _short(str(place.file), place.line)


def _short(file: str, line: int) -> str:
    for folder in ("rules/", "catalogs/"):
        _, found, rest = file.rpartition(folder)
        if found:
            return f"{folder}{rest}:{line}"
    return f"{file}:{line}"
