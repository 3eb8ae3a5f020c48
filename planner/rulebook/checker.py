"""What the pieces of one formula share while they are checked."""

from planner.errors import KindClash, Place, Problem
from planner.rulebook.pieces import Typed
from planner.rulebook.ranges import Unreadable
from planner.rulebook.refs import Ref
from planner.rulebook.scope import Scope
from planner.units.dimension import NONE
from planner.units.kinds import Operation, sum_kind


class Checker:
    """What the pieces of one formula share while they are checked."""

    def __init__(self, text: str, place: Place, scope: Scope) -> None:
        self.text, self.place, self.scope = text, place, scope
        self.reads: list[Ref] = []

    def bad(self, what: str, fix: str) -> Unreadable:
        """Word a problem in this formula."""
        return Unreadable(Problem(f"{what}, in: {self.text}", fix, self.place))

    def same(self, op: Operation, left: Typed, right: Typed) -> str | None:
        """Return the kind of a sum, or refuse dimensions and kinds that do not go together."""
        if left.dimension != right.dimension:
            raise self.bad(
                f"{_spoken(left)} and {_spoken(right)} cannot go together under {op}",
                "bring both to one unit",
            )
        try:
            return sum_kind(op, left.kind, right.kind)
        except KindClash as clash:
            raise self.bad(clash.problem.rstrip("."), clash.remedy) from clash


def _spoken(typed: Typed) -> str:
    return (
        f"a value in {typed.unit.name}"
        if typed.unit
        else ("a plain number" if typed.dimension == NONE else "a value of another unit")
    )
