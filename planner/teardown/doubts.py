"""Readings to ask about before anything hangs on them: repeats, warm parts, wear in odd places.

Nothing is corrected here. What a warm reading comes to at 20 degC, the reference temperature of
ISO 1 (title from memory, not opened), is told, and the builder decides.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from planner.datafiles import nodes
from planner.datafiles.nodes import Node, Scalar
from planner.errors import BorewrightError, Place, Problem
from planner.rulebook.facts import Fact
from planner.rulebook.literals import read_grid
from planner.rulebook.ranges import Unreadable
from planner.rulebook.syntax import Field, Rulebook, ValueBody
from planner.rulebook.values import Grid, Key, Value
from planner.teardown.asked import AXES, ROWS, child
from planner.units import LENGTH, TEMPERATURE, Unit, parse_quantity, show

REFERENCE = 293.15
"""The temperature that sizes are stated at, 20 degC. [K]"""
OVAL = "bores"
_PARTS = {
    "bores": "block_material",
    "main_housings": "block_material",
    "deck": "block_material",
    "head": "head_material",
    "guides": "head_material",
}


@dataclass(frozen=True, slots=True)
class Block:
    """One reading as it stands in the job: its input, its node, and the unit around it."""

    input: Field
    node: Node
    unit: Unit | None


@dataclass(frozen=True, slots=True)
class TeardownDoubts:
    """Questions about the readings of one job.

    Attributes
    ----------
    rulebook
        States the allowances, and how the sets are called.
    engine
        Fields of the engine.
    facts
        The inputs as read.
    """

    rulebook: Rulebook
    engine: Mapping[str, Value]
    facts: Mapping[str, Fact]

    def questions(self, blocks: Iterable[Block]) -> Iterator[Problem]:
        """Ask about every block that needs asking, in the order of the job."""
        warned: set[tuple[int, int]] = set()
        for block in blocks:
            fact = self.facts.get(block.input.name)
            if fact is None or not isinstance(block.node, nodes.Mapping):
                continue
            yield from self._repeats(block, fact)
            yield from self._warm(block, fact, warned)
            if block.input.name == OVAL:
                yield from self._oval_low_down(block, fact)

    # ------------------------------------------------------------------ repeats
    def _repeats(self, block: Block, fact: Fact) -> Iterator[Problem]:
        """Hold second readings against the first ones, point by point."""
        again = child(block.node, "repeats")
        if not isinstance(again, nodes.Mapping):
            return
        for item, node in again.entries:
            first = fact.entries.get((item.text,))
            if first is None or not isinstance(first.value, tuple):
                fix = "write repeats under the same items as readings"
                what = f"{block.input.job} repeats {item.text}, which has no reading"
                yield Problem(what, fix, item.place, "question")
                continue
            try:
                second = read_grid(
                    node, block.input.type, f"{block.input.job} repeats", block.unit
                )
            except Unreadable as error:
                yield error.problem
                continue
            yield from self._apart(block, (item.text,), first.value, second, node.place)

    def _apart(
        self, block: Block, key: Key, first: Grid, second: Grid, place: Place
    ) -> Iterator[Problem]:
        where = self._where(block.input, key)
        if [len(row) for row in first] != [len(row) for row in second]:
            fix = "repeat every point, in the same order"
            yield Problem(f"{where} is repeated at other points", fix, place, "question")
            return
        allowed = self._figure("entry_repeats_apart")
        unit = block.input.type.unit or ""
        for r, (row, again) in enumerate(zip(first, second, strict=True)):
            for c, (one, two) in enumerate(zip(row, again, strict=True)):
                if round(abs(one - two), 9) > allowed:
                    what = (
                        f"{where}, {self._point(block, r, c)}: read as {_shown(one, unit)} and "
                        f"{_shown(two, unit)}, more than {_shown(allowed, unit)} apart"
                    )
                    fix = "bring part and gauge to 20 degC, set the gauge afresh, read it again"
                    yield Problem(what, fix, place, "question")

    def _point(self, block: Block, row: int, column: int) -> str:
        names = (_names(block.node, ROWS, row), _names(block.node, AXES, column))
        return " ".join(names)

    # ------------------------------------------------------------------ warm parts
    def _warm(self, block: Block, fact: Fact, warned: set[tuple[int, int]]) -> Iterator[Problem]:
        """Ask about a part that was not at 20 degC, with what a reading comes to there."""
        stated = child(block.node, "temperature")
        if not isinstance(stated, Scalar) or stated.value is None or stated.span in warned:
            return
        warned.add(stated.span)
        try:
            quantity = parse_quantity(stated.text)
        except BorewrightError as error:
            yield Problem(error.problem, error.remedy, stated.place)
            return
        if quantity.unit.dimension != TEMPERATURE or quantity.kind == "rise":
            what = f"{block.input.job}: the part's temperature is {stated.text}"
            yield Problem(what, "write it with its unit: 23 degC", stated.place)
            return
        rise = quantity.si - REFERENCE
        if abs(rise) <= self._figure("entry_warm"):
            return
        metal = self._metal(block.input)
        reading = _first(fact) if block.input.type.kind == "diameter" else None
        grown = self._figure(f"entry_expansion_{metal}") * rise
        unit = block.input.type.unit or ""
        example = f"sizes of {metal} move by {grown * 1e6:.0f} parts in a million"
        if reading is not None:
            here = _shown(reading / (1.0 + grown), unit)
            example = f"{_shown(reading, unit)} there is about {here} at 20 degC"
        what = f"{block.input.job} was measured at {stated.text}: {example} ({metal})"
        fix = "let part and gauge stand at 20 degC and measure again; nothing was corrected"
        yield Problem(what, fix, stated.place, "question")

    def _metal(self, each: Field) -> str:
        part = each.job.split(".")[1] if "." in each.job else ""
        found = self.engine.get(_PARTS.get(part, ""))
        return "aluminium" if found == "aluminium" else "iron"

    # ------------------------------------------------------------------ odd wear
    def _oval_low_down(self, block: Block, fact: Fact) -> Iterator[Problem]:
        """Ask when a bore is more oval below the rings' travel than just above it."""
        allowed, unit = self._figure("entry_oval_low_down"), block.input.type.unit or ""
        for key, entry in fact.entries.items():
            grid = entry.value
            if not isinstance(grid, tuple) or len(grid) < 3:
                continue
            low, above = (max(row) - min(row) for row in (grid[-1], grid[-2]))
            if round(low - above, 9) > allowed:
                what = (
                    f"{self._where(block.input, key)}: {_shown(low, unit)} out of round at the "
                    f"bottom and {_shown(above, unit)} above it, where wear is the other way"
                )
                fix = "check the axes were not swapped; look for a bent rod or a liner that moved"
                yield Problem(what, fix, fact.places.get(key), "question")

    def _where(self, each: Field, key: Key) -> str:
        names = (
            f"{self.rulebook.sets[name].called if name in self.rulebook.sets else name} {item}"
            for name, item in zip(each.type.per, key, strict=True)
        )
        return " ".join([each.job, *names])

    def _figure(self, name: str) -> float:
        """Return a figure that a rule states; without the rule nothing is allowed."""
        decision = self.rulebook.decisions.get(name)
        body = decision.body if decision is not None else None
        value = body.value if isinstance(body, ValueBody) else None
        return value if isinstance(value, float) else 0.0


def _shown(si: float, unit: Unit | str) -> str:
    """Print a length to the micron, whatever its size; anything else as it comes."""
    length = isinstance(unit, Unit) and unit.dimension == LENGTH
    return show(si, unit, step=1e-6) if length else show(si, unit)


def _names(block: Node, keys: tuple[str, ...], at: int) -> str:
    for key in keys:
        listed = child(block, key)
        if isinstance(listed, nodes.Sequence) and at < len(listed.items):
            one = listed.items[at]
            return one.text if isinstance(one, Scalar) else str(at + 1)
    return str(at + 1)


def _first(fact: Fact) -> float | None:
    for entry in fact.entries.values():
        if isinstance(entry.value, float):
            return entry.value
        if isinstance(entry.value, tuple):
            return entry.value[0][0]
    return None
