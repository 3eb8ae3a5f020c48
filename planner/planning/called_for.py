"""What on this job called an operation: the conditions that held, and the readings behind them."""

from collections.abc import Iterator, Mapping

from planner.planning.names import Names
from planner.planning.readings_behind import ReadingsBehind, asked_cells
from planner.rulebook.judging import judge
from planner.rulebook.results import Called, Outcome, Results
from planner.rulebook.syntax import Condition, Operation, TableBody
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Entry, Key
from planner.rulebook.values import Names as CalledNames

MOST_VALUES = 4
"""Different values told one by one; past that, the lowest and the highest."""


class Grounds:
    """Tells why an operation is in the plan, and what was read on this job to put it there.

    Parameters
    ----------
    results
        What the rulebook said.
    names
        Prints values.
    readings
        Finds what stands behind an answer.
    """

    def __init__(self, results: Results, names: Names, readings: ReadingsBehind) -> None:
        self.results, self.names, self.readings = results, names, readings

    def because(self, called: Called) -> tuple[str, ...]:
        """Return the conditions that called an operation, in shop words."""
        held: dict[str, dict[Key, Entry]] = {}
        for name, key in self._conditions(called):
            entries = self.readings.entries(name)
            at = key if key in entries else ()
            if at in entries and not self._is_count(name):
                held.setdefault(name, {})[at] = entries[at]
        extra = [each for each in called.because if each.startswith("needed by ")]
        return (*self._told(held), *extra)

    def found(self, called: Called) -> tuple[str, ...]:
        """Return the readings and findings that called an operation, as `what: value`."""
        read: dict[str, dict[Key, Entry]] = {}
        for condition, key in self._conditions(called):
            for (name, at), entry in self.readings.of(condition, key).items():
                read.setdefault(name, {})[at] = entry
        return self._told(read)

    def _conditions(self, called: Called) -> list[tuple[str, Key]]:
        """List what held: names, each with the item for which it did."""
        operation = called.operation
        found = [
            pair
            for name in called.because
            if name in self.results.outcomes
            for pair in _from_table(operation.name, self.results.outcomes[name])
        ]
        if not operation.called_only:
            found += self._from_when(operation)
        return list(dict.fromkeys(found))

    def _from_when(self, operation: Operation) -> Iterator[tuple[str, Key]]:
        for group in operation.when:
            if judge(self.names.world, (group,)).holds is not False:
                for condition in group:
                    yield from self._where_it_holds(condition)
                return

    def _where_it_holds(self, condition: Condition) -> Iterator[tuple[str, Key]]:
        for key, entry in self.names.world.entries(condition.ref).items():
            if entry.value is not None and condition.cell.meets(entry.value):
                yield condition.ref.text, key

    def _is_count(self, name: str) -> bool:
        """Tell whether a name holds a bare number, as counts and yes-or-no figures do."""
        declared = self.names.type_of(name)
        return declared is None or (declared.form == "number" and declared.unit is None)

    def _told(self, held: Mapping[str, Mapping[Key, Entry]]) -> tuple[str, ...]:
        return tuple(
            f"{self.names.title(name)}: {self._values(entries, self.names.ref(name).type)}"
            for name, entries in held.items()
        )

    def _values(self, entries: Mapping[Key, Entry], declared: ValueType) -> str:
        """Print values with their items; many different numbers as lowest and highest."""
        told: dict[str, list[str]] = {}
        for key in sorted(entries, key=list(self.names.world.keys(declared.per)).index):
            value = self.names.one(entries[key], declared.over(()))
            told.setdefault(value, []).append(self.names.label(declared.per, key))
        if len(told) <= MOST_VALUES:
            return "; ".join(_with_items(value, labels) for value, labels in told.items())
        ranked = sorted(entries.values(), key=lambda entry: _size(entry.value))
        ends = [self.names.one(each, declared.over(())) for each in (ranked[0], ranked[-1])]
        return f"from {ends[0]} to {ends[1]}, {len(entries)} of them"


def _from_table(operation: str, outcome: Outcome) -> Iterator[tuple[str, Key]]:
    """Find the rows that name an operation, and the cells of those rows that ask something."""
    body = outcome.decision.body
    if not isinstance(body, TableBody):
        return
    for key, trace in outcome.traces.items():
        applied = {place for _, place in trace.rows}
        for at, row in enumerate(body.rows):
            calls = any(
                isinstance(value, CalledNames) and operation in value.called
                for value in row.results.values()
            )
            if calls and row.place in applied:
                yield from ((name, key) for name in asked_cells(body, at))


def _size(value: object) -> float:
    return value if isinstance(value, float) else 0.0


def _with_items(value: str, labels: list[str]) -> str:
    """Say which items share a value: `exhaust valve 5, 6: 2.1 mm`."""
    if not labels[0]:
        return value
    kind = labels[0].rpartition(" ")[0]
    numbers = [each.rpartition(" ")[2] for each in labels]
    return f"{kind} {', '.join(numbers)}: {value}"
