"""What a dotted name of the rulebook holds, and how its values are printed."""

import re
from collections.abc import Mapping
from functools import cached_property

from planner.errors import Place
from planner.rulebook.printing import System, show_items, show_value, spoken
from planner.rulebook.ranges import Unreadable
from planner.rulebook.refs import Ref
from planner.rulebook.results import Results
from planner.rulebook.scope import AlreadyTold, Scope
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Entry, Key, Value

_ASIDE = re.compile(r" \([^()]*zero[^()]*\)")
_NOWHERE = Place("", 0, 0)


class Names:
    """Prints values by name.

    Parameters
    ----------
    results
        What the rulebook said: its names, and the items of the engine.
    system
        metric, inch or both.
    """

    def __init__(self, results: Results, system: System = "metric") -> None:
        self.rulebook, self.system = results.rulebook, system
        self.world = results.world
        self._refs: dict[str, Ref | None] = {}
        self._read: dict[str, str] = {}

    def type_of(self, name: str) -> ValueType | None:
        """Return what a name such as ``engine.bore`` or ``ring_gap.low`` holds."""
        if name not in self._refs:
            try:
                self._refs[name] = self._scope.resolve(name, _NOWHERE)
            except (Unreadable, AlreadyTold):
                self._refs[name] = None
        ref = self._refs[name]
        return None if ref is None else ref.type

    def ref(self, name: str) -> Ref:
        """Resolve a name that the rulebook proved."""
        return self._refs.get(name) or self._scope.resolve(name, _NOWHERE)

    def text(self, entries: Mapping[Key, Entry], declared: ValueType) -> str:
        """Print values for each item, grouped where they are equal."""
        return show_items(self.world, entries, declared, self.system)

    def read_text(self, name: str) -> str:
        """Print what a name holds; readings are pointed to, not repeated."""
        if name not in self._read:
            self._read[name] = self._read_text(name)
        return self._read[name]

    def _read_text(self, name: str) -> str:
        field = self.rulebook.inputs.get(name)
        if field is not None and field.type.form == "grid":
            return f"as measured ({field.job})"
        declared = self.type_of(name)
        if declared is None:
            return ""
        if any(each in self.rulebook.stocks for each in declared.per):
            return f"by row of {', '.join(declared.per)}"
        return self.text(self.world.entries(self.ref(name)), declared)

    def one(self, entry: Entry, declared: ValueType) -> str:
        """Print one settled value."""
        return "" if entry.value is None else show_value(entry.value, declared, self.system)

    def plain(self, value: Value, declared: ValueType) -> str:
        """Print a value of a catalog."""
        return show_value(value, declared, self.system)

    def label(self, per: tuple[str, ...], key: Key) -> str:
        """Say which items a key means."""
        return self.world.label(per, key)

    def title(self, name: str) -> str:
        """Say in shop words what a name means, without what is added for who types it."""
        base = name.partition(".")[0]
        field, owner = self.rulebook.inputs.get(name), self.rulebook.results.get(base)
        decision = self.rulebook.decisions.get(owner[0] if owner else base)
        if field is not None:
            said = field.finding or field.ask
        else:
            said = decision.means if decision else spoken(name).replace(".", " ")
        return _ASIDE.sub("", said.partition(";")[0]).rstrip("?")

    @cached_property
    def _scope(self) -> Scope:
        return self.world.scope
