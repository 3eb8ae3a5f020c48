"""What the readings of a job may be: the inputs with figures, by name, by path, by set."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from planner.datafiles import nodes
from planner.datafiles.nodes import Node
from planner.errors import nearest
from planner.rulebook.facts import Facts
from planner.rulebook.syntax import Field, Rulebook

SHEETS = ("teardown", "history", "parts_in_hand")


def plain_name(text: str) -> str:
    """Bring a name to one spelling: ``Exhaust valve`` and ``exhaust_valve`` are the same.

    Examples
    --------
    >>> plain_name(" Exhaust_Valve ")
    'exhaust valve'
    """
    return " ".join(text.replace("_", " ").casefold().split())


@dataclass(slots=True)
class Asked:
    """The inputs that a sheet of readings can fill, for one job.

    Parameters
    ----------
    rulebook
        Declares the inputs.
    facts
        The job as read: its items and what it holds.
    root
        The job file as nodes.
    """

    rulebook: Rulebook
    facts: Facts
    root: Node
    _names: dict[str, list[Field]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Index every input by its name, its path and the end of its path."""
        for each in self.inputs():
            names = {each.name, each.job, each.job.rpartition(".")[2]}
            for name in dict.fromkeys(plain_name(name) for name in names):
                self._names.setdefault(name, []).append(each)

    def inputs(self) -> list[Field]:
        """List the inputs with figures that are measured, in the rulebook's order."""
        return [
            each
            for each in self.rulebook.inputs.values()
            if each.type.form in ("number", "grid")
            and not each.finding
            and each.job.partition(".")[0] in SHEETS
        ]

    def named(self, text: str) -> Field | None:
        """Find an input by its name or path; an end of a path counts when it is the only one."""
        found = self._names.get(plain_name(text), [])
        exact = [each for each in found if plain_name(each.name) == plain_name(text)]
        if exact:
            return exact[0]
        return found[0] if len(found) == 1 else None

    def nearest_to(self, text: str) -> str:
        """Offer the nearest name of an input."""
        offer = nearest(plain_name(text), self._names)
        return f"did you mean {offer}? " if offer else ""

    def set_called(self, text: str) -> str:
        """Return the set that people call so, or nothing."""
        wanted = plain_name(text)
        return next(
            (
                name
                for name, each in self.rulebook.sets.items()
                if wanted in (plain_name(name), plain_name(each.called))
            ),
            "",
        )

    def called(self, name: str) -> str:
        """Say how people call one item of a set."""
        each = self.rulebook.sets.get(name)
        return each.called if each else name

    def items(self, each: Field) -> tuple[str, ...]:
        """List the items that an input has on this engine; one without name when it has none."""
        return self.facts.sets.get(each.type.per[0], ()) if each.type.per else ("",)

    def label(self, each: Field, item: str) -> str:
        """Name one item of an input: ``bores cylinder 3``."""
        return f"{each.name} {self.called(each.type.per[0])} {item}" if item else each.name

    def node(self, each: Field) -> Node | None:
        """Return what stands in the job for an input, whole."""
        return node_at(self.root, each.job)

    def values(self, each: Field) -> Node | None:
        """Return the node that holds an input's values, below its unit and notes."""
        found = self.node(each)
        if isinstance(found, nodes.Mapping) and found.get("readings") is not None:
            return found.get("readings")
        return found

    def unit_of(self, each: Field) -> str:
        """Return the unit that bare figures take where an input stands."""
        found, unit = self.root, ""
        for key in ("", *each.job.split(".")):
            inner = found if not key else child(found, key)
            if inner is None:
                break
            stated = child(inner, "unit")
            if isinstance(stated, nodes.Scalar) and stated.value is not None:
                unit = stated.text
            found = inner
        return unit

    def listed(self, each: Field, keys: tuple[str, ...]) -> tuple[str, ...]:
        """Return the depths, planes or axes that a block lists, as written."""
        block = self.node(each)
        for key in keys:
            found = child(block, key)
            if isinstance(found, nodes.Sequence):
                return tuple(one.text for one in found.items if isinstance(one, nodes.Scalar))
        return ()


def child(node: Node | None, key: str) -> Node | None:
    """Return what stands under a key, if the node is a block that has it."""
    return node.get(key) if isinstance(node, nodes.Mapping) else None


def node_at(root: Node, path: str) -> Node | None:
    """Return what stands at a dotted path."""
    found: Node | None = root
    for key in path.split("."):
        found = child(found, key)
    return found


Shape = Mapping[str, tuple[str, ...]]
ROWS = ("depths", "planes")
AXES = ("axes",)
