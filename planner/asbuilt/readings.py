"""As-built readings as they stand in the job: values, gauge, who and when."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from planner.asbuilt.fits import ACCEPTED, WHOLE, Fit
from planner.asbuilt.measured import Acceptance, Measured, Readings
from planner.datafiles.nodes import Mapping as Block
from planner.datafiles.nodes import Node, Scalar, Sequence
from planner.errors import Place, Problem, nearest
from planner.rulebook.literals import read_grid, read_number, unit_or_problem
from planner.rulebook.ranges import Unreadable
from planner.rulebook.value_type import ValueType
from planner.rulebook.world import World
from planner.units import Unit

KEYS = (
    "unit",
    "readings",
    "value",
    "gauge",
    "instrument",
    "uncertainty",
    "by",
    "on",
    "confirmed",
    "temperature",
    "depths",
    "planes",
    "axes",
    "note",
    "photo",
)
SAMPLE = (
    "write {unit: mm, gauge: gauge_comparator, by: NAME, on: 2027-02-03, readings: {1: 0.052}}"
)


class AsBuiltReader:
    """Reads the as_built block of a job, collecting every problem.

    Parameters
    ----------
    world
        Items of the engine, and the types and values of names.
    fits
        What may be measured.
    """

    def __init__(self, world: World, fits: Mapping[str, Fit]) -> None:
        self.world, self.fits = world, fits
        self.problems: list[Problem] = []
        self.accepted: list[Acceptance] = []

    def read(self, node: Node | None) -> dict[str, Readings]:
        """Read every fit that the job holds readings of."""
        found: dict[str, Readings] = {}
        if node is None or (isinstance(node, Scalar) and node.value is None):
            return found
        if not isinstance(node, Block):
            self._problem("as_built is not a block of readings", SAMPLE, node.place)
            return found
        for key, inner in node.entries:
            if key.text == ACCEPTED:
                self._accept(inner)
            elif key.text in self.fits:
                found[key.text] = self._fit(self.fits[key.text], inner)
            else:
                self._unknown(key)
        return found

    def _fit(self, fit: Fit, node: Node) -> Readings:
        label = f"as_built.{fit.id}"
        common = Measured(grid=())
        unit, values = None, node
        if isinstance(node, Block) and (node.get("readings") or node.get("value")):
            self._check_keys(label, node)
            unit, common = self._taken(label, node, fit, common)
            values = node.get("readings") or node.get("value") or node
        if fit.set == WHOLE:
            one = self._item(label, values, unit, fit, common)
            return {"": one} if one else {}
        return dict(self._items(label, values, unit, fit, common))

    def _items(
        self, label: str, node: Node, unit: Unit | None, fit: Fit, common: Measured
    ) -> Iterator[tuple[str, Measured]]:
        items = self.world.items(fit.set)
        spoken = self.world.rulebook.sets[fit.set].called
        if not isinstance(node, Block):
            fix = f"write readings: {{{items[0]}: ...}}, one for each {spoken}"
            self._problem(f"{label} is not written {spoken} by {spoken}", fix, node.place)
            return
        for key, inner in node.entries:
            if key.text not in items:
                fix = f"this engine has {spoken} {items[0]} to {items[-1]}"
                self._problem(f"{label} has no {spoken} {key.text}", fix, key.place)
                continue
            one = self._item(f"{label} {spoken} {key.text}", inner, unit, fit, common)
            if one is not None:
                yield key.text, one

    def _item(
        self, label: str, node: Node, unit: Unit | None, fit: Fit, common: Measured
    ) -> Measured | None:
        """Read one item; a block of its own says how that item was read."""
        if isinstance(node, Block):
            self._check_keys(label, node)
            own, common = self._taken(label, node, fit, common)
            unit, inner = own or unit, node.get("value") or node.get("readings")
            if inner is None:
                self._problem(f"{label} holds no value", "write value:", node.place)
                return None
            node = inner
        if isinstance(node, Scalar) and (node.value is None or node.text.strip() == "unknown"):
            return None
        declared = self._type(fit)
        if unit is None and declared.unit is not None and _bare(node):
            fix = f"add unit: {declared.unit.name} to the block, if that is what was measured"
            self._problem(f"{label} has no unit", fix, node.place)
            return None
        try:
            grid = read_grid(node, declared, label, unit)
        except Unreadable as error:
            self.problems.append(error.problem)
            return None
        return replace(common, grid=grid, place=node.place)

    def _taken(
        self, label: str, node: Block, fit: Fit, common: Measured
    ) -> tuple[Unit | None, Measured]:
        """Read how the readings of a block were taken."""
        unit, told = (
            None,
            {name: _text(node.get(name)) for name in ("gauge", "instrument", "by", "note")},
        )
        try:
            if node.get("unit") is not None:
                unit = unit_or_problem(_text(node.get("unit")), node.key_place("unit"))
            stated = self._uncertainty(label, node, unit, fit)
        except Unreadable as error:
            self.problems.append(error.problem)
            stated = None
        on = self._day(f"{label}.on", node.get("on"))
        said: dict[str, Any] = {name: text for name, text in told.items() if text}
        if on:
            said["on"] = on
        said |= self._confirmed(label, node)
        if stated is not None:
            return unit, replace(common, **said, uncertainty=stated)
        return unit, replace(common, **said)

    def _confirmed(self, label: str, node: Block) -> dict[str, str]:
        """Read who let a reading stand after work that might have touched it, when and why."""
        inner = node.get("confirmed")
        if inner is None:
            return {}
        told = {
            name: _text(inner.get(name)) if isinstance(inner, Block) else ""
            for name in ("by", "because")
        }
        on = self._day(f"{label}.confirmed", inner.get("on") if isinstance(inner, Block) else None)
        if not on or not all(told.values()):
            what = f"{label}.confirmed lacks a day, a name or a reason"
            self._problem(what, CONFIRM_SAMPLE, inner.place)
            return {}
        return {"confirmed": on, "confirmed_by": f"{told['by']} {on}: {told['because']}"}

    def _uncertainty(self, label: str, node: Block, unit: Unit | None, fit: Fit) -> float | None:
        """Return the uncertainty stated, or that of the gauge where it is one of the rules'."""
        stated = node.get("uncertainty")
        declared = replace(self._type(fit), kind=None)
        if stated is not None:
            return read_number(stated, declared, f"{label}.uncertainty", unit)
        gauge = _text(node.get("gauge"))
        answer = self.world.answers.get(gauge)
        value = answer.value() if answer is not None else None
        if value is None or answer is None or answer.type.dimension != declared.dimension:
            return None
        return value if isinstance(value, int | float) else None

    def _type(self, fit: Fit) -> ValueType:
        declared = self.world.scope.resolve(fit.limits, fit.place).type
        return replace(declared, form="number", per=(), low=None, high=None)

    def _accept(self, node: Node) -> None:
        """Read the signatures for what is not proved."""
        if not isinstance(node, Sequence):
            self._problem("as_built.accepted is not a list", ACCEPT_SAMPLE, node.place)
            return
        for each in node.items:
            entry = each if isinstance(each, Block) else None
            fit = _text(entry.get("fit")) if entry else ""
            told = {name: _text(entry.get(name)) if entry else "" for name in ("by", "because")}
            if fit not in self.fits or not all(told.values()):
                what = "a line of as_built.accepted lacks a known fit, a name or a reason"
                self._problem(what, ACCEPT_SAMPLE, each.place)
                continue
            item = _text(entry.get("where")).rpartition(" ")[2] if entry else ""
            on = self._day("as_built.accepted on", entry.get("on") if entry else None)
            self.accepted.append(Acceptance(fit, item, told["by"], on, told["because"]))

    def _day(self, label: str, node: Node | None) -> str:
        text = _text(node)
        if not text:
            return ""
        try:
            return date.fromisoformat(text).isoformat()
        except ValueError:
            place = node.place if node is not None else None
            self._problem(f"{label} is {text!r}, which is no date", "write 2027-02-03", place)
            return ""

    def _check_keys(self, label: str, node: Block) -> None:
        for key, _ in node.entries:
            if key.text not in KEYS:
                offer = nearest(key.text, KEYS)
                hint = f"did you mean {offer}? " if offer else ""
                fix = f"{hint}allowed: {', '.join(KEYS)}"
                self._problem(f"{label} has no key {key.text!r}", fix, key.place)

    def _unknown(self, key: Scalar) -> None:
        offer = nearest(key.text, self.fits)
        hint = f"did you mean {offer}? " if offer else ""
        what = f"as_built has nothing to measure named {key.text!r}"
        self._problem(what, f"{hint}see catalogs/fits.yaml", key.place)

    def _problem(self, what: str, fix: str, place: Place | None) -> None:
        self.problems.append(Problem(what, fix, place))


CONFIRM_SAMPLE = "write confirmed: {on: 2027-02-03, by: NAME, because: only the pockets were cut}"
ACCEPT_SAMPLE = (
    "write - {fit: rod_bearing_clearance, where: rod 2, by: NAME, on: 2027-02-03, because: ...}"
)


def _bare(node: Node) -> bool:
    """Tell whether some reading is a number that says no unit."""
    if isinstance(node, Sequence):
        return any(_bare(each) for each in node.items)
    return isinstance(node, Scalar) and isinstance(node.value, int | float)


def _text(node: Node | None) -> str:
    return node.text.strip() if isinstance(node, Scalar) and node.value is not None else ""
