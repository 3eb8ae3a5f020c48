"""Which rule makes a difference between two evaluations of the same rulebook."""

from collections.abc import Iterator

from planner.errors import Place
from planner.planning.names import Names
from planner.rulebook.results import Fact, Facts, Outcome, Results

_DEEPEST = 16
Decided = tuple[str, str]
"""Where the rule stands, and the row, the need or the input in words."""


class DecidingRule:
    """Walks back from a value that changed to the row, need or input that changed it.

    Parameters
    ----------
    old, new
        Two evaluations.
    """

    def __init__(self, old: Results, new: Results) -> None:
        self.old, self.new = old, new
        self.old_names, self.new_names = Names(old), Names(new)
        self._found: dict[str, Decided | None] = {}

    def texts(self, name: str) -> Decided:
        """Return a decision's answer before and after, as printed."""
        return (
            _told(self.old.outcomes.get(name), self.old_names),
            _told(self.new.outcomes.get(name), self.new_names),
        )

    def changed(self, name: str) -> bool:
        """Tell whether a decision came out another way."""
        before, after = self.texts(name)
        return before != after

    def of(self, name: str) -> Decided:
        """Return where the deciding rule of a changed decision stands, and what decided.

        Parameters
        ----------
        name
            The decision.

        Returns
        -------
        tuple of str
            File and line, and words; both empty when nothing can be named.
        """
        return self._of(name, 0) or ("", "")

    def _of(self, name: str, depth: int) -> Decided | None:
        if name not in self._found:
            self._found[name] = None  # while walking, so that nothing is walked twice
            outcome = self.new.outcomes.get(name)
            if outcome is not None and depth <= _DEEPEST:
                self._found[name] = (
                    self._row(name, outcome)
                    or self._need(name, outcome)
                    or self._behind(outcome, depth)
                    or self._input(outcome)
                )
        return self._found[name]

    def _row(self, name: str, outcome: Outcome) -> Decided | None:
        """Return the table row that applies now and did not before."""
        before = set(_rows(self.old.outcomes.get(name)))
        fresh = (each for each in _rows(outcome) if each not in before)
        return next(((_at(place), text) for text, place in fresh), None)

    def _need(self, name: str, outcome: Outcome) -> Decided | None:
        """Return the need that a row of stock fails now and met before, or the other way."""
        if outcome.decision.form != "choose":
            return None
        before, after = _rejected(self.old.outcomes.get(name)), _rejected(outcome)
        chosen = _chosen(self.old.outcomes.get(name))
        for choice, told in sorted(after.items(), key=lambda each: each[0] not in chosen):
            if choice not in before:
                return _at(outcome.decision.place), f"{choice} fails {told}"
        for choice, told in before.items():
            if choice not in after:
                return _at(outcome.decision.place), f"{choice} no longer fails {told}"
        return None

    def _behind(self, outcome: Outcome, depth: int) -> Decided | None:
        """Follow the voice that governs, then everything else the decision reads."""
        for name in _read(outcome):
            owner = self.new.rulebook.results.get(name, (name, ""))[0]
            if owner in self.new.outcomes and self.changed(owner):
                found = self._of(owner, depth + 1)
                if found is not None:
                    return found
        return None

    def _input(self, outcome: Outcome) -> Decided | None:
        """Return the key of the job that was set anew, where a formula reads it itself."""
        for trace in outcome.traces.values():
            for name in trace.read:
                path = self._set_anew(name.partition(".")[0])
                if path:
                    return _at(outcome.decision.place), f"{path} set anew"
        return None

    def _set_anew(self, name: str) -> str:
        """Return where an input or a record stands in the job, if it is another now."""
        book, old, new = self.new.rulebook, self.old.facts, self.new.facts
        if name in book.records:
            record = book.records[name]
            other = old.records.get(name) != new.records.get(name)
            return (record.job or name) if other else ""
        field = book.inputs.get(name)
        facts = [None if fact is None else fact.entries for fact in _both(name, old, new)]
        return field.job if field is not None and facts[0] != facts[1] else ""


def _both(name: str, old: Facts, new: Facts) -> tuple[Fact | None, Fact | None]:
    return old.inputs.get(name), new.inputs.get(name)


def _told(outcome: Outcome | None, names: Names) -> str:
    if outcome is None:
        return "not decided"
    if outcome.not_applicable is not None:
        return "does not apply"
    return "; ".join(names.text(each.entries, each.type) for each in outcome.answers.values())


def _rows(outcome: Outcome | None) -> Iterator[tuple[str, Place]]:
    if outcome is not None:
        for trace in outcome.traces.values():
            yield from trace.rows


def _rejected(outcome: Outcome | None) -> dict[str, str]:
    if outcome is None:
        return {}
    return {
        each.choice: f"'{each.failed}' ({each.why})"
        for trace in outcome.traces.values()
        for each in trace.rejected
    }


def _chosen(outcome: Outcome | None) -> set[str]:
    """Return the rows of stock that were chosen."""
    if outcome is None:
        return set()
    entries = [each for answer in outcome.answers.values() for each in answer.entries.values()]
    return {entry.value for entry in entries if isinstance(entry.value, str)}


def _read(outcome: Outcome) -> list[str]:
    """List what an outcome rests on, the governing voice before the rest."""
    traces = outcome.traces.values()
    voices = getattr(outcome.decision.body, "says", {})
    governing = [each.name for trace in traces for each in trace.voices if each.governs]
    first = [voices[name].name for name in governing if name in voices]
    read = [name.partition(".")[0] for trace in traces for name in trace.read]
    return list(dict.fromkeys([*first, *read, *outcome.decision.reads]))


def _at(place: Place) -> str:
    return f"{place.file}:{place.line}"
