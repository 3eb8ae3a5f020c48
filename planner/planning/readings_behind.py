"""The readings and findings of a job that an answer rests on."""

from collections.abc import Iterable, Mapping

from planner.planning.names import Names
from planner.rulebook.results import Outcome, Results, Trace
from planner.rulebook.syntax import Decision, TableBody
from planner.rulebook.values import Entry, Key

Read = dict[tuple[str, Key], Entry]
"""What was read: name, item and value."""
_HARMLESS = frozenset({"accept"})


class ReadingsBehind:
    """Follows an answer down to what was typed or measured on this job.

    In a table only the cells of the row that applied are followed, and of those only the ones
    that ask something. A figure worked out of a block of readings stands for the block.

    Parameters
    ----------
    results
        What the rulebook said.
    names
        Resolves names.
    """

    def __init__(self, results: Results, names: Names) -> None:
        self.results, self.names = results, names
        self._followed: dict[tuple[str, Key], Read] = {}
        self._held: dict[str, dict[Key, Entry]] = {}

    def of(self, name: str, key: Key) -> Read:
        """Return what stands behind a name for one item; nothing behind plain data."""
        if (name, key) not in self._followed:
            self._followed[name, key] = {}
            self._followed[name, key] = self._follow(name, key)
        return self._followed[name, key]

    def entries(self, name: str) -> dict[Key, Entry]:
        """Return what a name holds for each of its items."""
        if name not in self._held:
            self._held[name] = self.names.world.entries(self.names.ref(name))
        return self._held[name]

    def _follow(self, name: str, key: Key) -> Read:
        base = name.partition(".")[0]
        decided = self._decision(base)
        if decided is None:
            return self._typed(name, key)
        found: Read = {}
        for at, trace in _matching(self.results.outcomes[decided.name], key):
            if self._reads_a_grid(trace):
                found |= self._held_for(base, at)
                continue
            for read in _told_by(decided, trace):
                if (entry := trace.read.get(read)) is None or entry.value not in _HARMLESS:
                    found |= self.of(*self._item_of(read, at))
        return found

    def _item_of(self, read: str, key: Key) -> tuple[str, Key]:
        """Split `bore_verdict of cylinder 3`, as a sum or count over items reads it."""
        name, _, label = read.partition(" of ")
        declared = self.names.type_of(name)
        if not label or declared is None:
            return name, key
        keys = self.names.world.keys(declared.per)
        return name, next((at for at in keys if self.names.label(declared.per, at) == label), key)

    def _typed(self, name: str, key: Key) -> Read:
        """Return a reading or finding; goals and what was looked at and not found are none."""
        field = self.results.rulebook.inputs.get(name)
        if field is None or field.type.form == "grid" or field.stage == "enquiry":
            return {}
        harmless = field.type.words[-1] if field.type.words else None
        found = self._held_for(name, key)
        return {at: entry for at, entry in found.items() if entry.value != harmless}

    def _held_for(self, name: str, key: Key) -> Read:
        return {
            (name, at): entry
            for at, entry in self.entries(name).items()
            if entry.value is not None and (at == key or not key or not at)
        }

    def _reads_a_grid(self, trace: Trace) -> bool:
        declared = (self.names.type_of(name.partition(" of ")[0]) for name in trace.read)
        return any(each is not None and each.form == "grid" for each in declared)

    def _decision(self, name: str) -> Decision | None:
        book = self.results.rulebook
        owner = book.results.get(name)
        return book.decisions.get(owner[0] if owner else name)


def asked_cells(body: TableBody, at: int) -> list[str]:
    """Name the columns in which a row asks something."""
    cells = body.table.rows[at].cells
    return [name for name, cell in zip(body.columns, cells, strict=True) if cell.text != "any"]


def _told_by(decision: Decision, trace: Trace) -> Iterable[str]:
    """Name what an answer rests on."""
    body = decision.body
    if not isinstance(body, TableBody):
        return trace.read
    applied = {place for _, place in trace.rows}
    rows = [at for at, row in enumerate(body.rows) if row.place in applied]
    return dict.fromkeys(name for at in rows for name in asked_cells(body, at))


def _matching(outcome: Outcome, key: Key) -> Iterable[tuple[Key, Trace]]:
    """Pick the items of a decision that an item of its reader looks at."""
    traces: Mapping[Key, Trace] = outcome.traces
    return [(key, traces[key])] if key in traces else traces.items()
