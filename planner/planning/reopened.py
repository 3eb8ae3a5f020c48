"""What a changed measurement reopens: steps done to what is no longer the plan."""

from collections.abc import Iterable, Mapping
from hashlib import sha256

from planner.models.job import Done
from planner.models.steps import Part
from planner.planning.names import Names
from planner.route.edges import Edges
from planner.route.order import in_order
from planner.rulebook.advising import printed_text
from planner.rulebook.results import Called, Results

CODE = 8


class Specs:
    """Check codes of what the plan asks of each step.

    A code covers the targets of the step, the items it is done on, and what is ordered with it.
    It does not hang on the units a sheet is printed in.

    Parameters
    ----------
    results
        What the rulebook said.
    parts
        Parts of the plan.
    """

    def __init__(self, results: Results, parts: Iterable[Part]) -> None:
        self.names = Names(results)
        self.called = {each.operation.name: each for each in results.called}
        self.parts = tuple(parts)

    def code(self, name: str) -> str:
        """Return the check code of a step; nothing when the plan does not hold it."""
        called = self.called.get(name)
        if called is None:
            return ""
        text = "\n".join((*called.where, *self._targets(called), *self._ordered(name)))
        return sha256(text.encode()).hexdigest()[:CODE]

    def _targets(self, called: Called) -> list[str]:
        world, told = self.names.world, []
        for each in called.operation.inspect:
            told.append(printed_text(world, each.text, called.where))
            if each.target is not None:
                ref = self.names.ref(each.target)
                told.append(self.names.text(world.entries(ref), ref.type))
        return told

    def _ordered(self, name: str) -> list[str]:
        return [
            f"{part.id} {part.grade} {part.quantity}"
            for part in self.parts
            if part.ordered_at == name
        ]


def reopened(specs: Specs, progress: Mapping[str, Done], edges: Edges) -> dict[str, str]:
    """Find the finished steps that must be looked at again.

    Parameters
    ----------
    specs
        What the plan asks now.
    progress
        What was done, with the check code of what was asked then.
    edges
        What stands before each step.

    Returns
    -------
    dict of str to str
        Steps with the reason: their own targets moved, or a step before them is reopened.
    """
    found: dict[str, str] = {}
    for name in in_order(edges):
        done = progress.get(name)
        if done is None:
            continue
        before = next((each for each in edges[name] if each in found), None)
        if done.spec and specs.code(name) != done.spec:
            found[name] = f"done {done.day}; its targets, items or parts have changed since"
        elif before is not None:
            found[name] = f"done {done.day}; {before} before it is reopened"
    return found
