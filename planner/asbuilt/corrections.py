"""Ways to put a failed reading right, in order of least metal, and what each opens again."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from planner.asbuilt.fits import Correction
from planner.errors import Place
from planner.models.asbuilt import UNPROVED, Cure, FitDoc, ItemVerdict
from planner.rulebook.ranges import Unreadable
from planner.rulebook.scope import AlreadyTold
from planner.rulebook.syntax import Operation
from planner.rulebook.world import World

Edges = Mapping[str, Mapping[str, str]]
"""For each operation of the plan, the operations before it."""

AGAIN = "measure_again"
_NOWHERE = Place("", 0, 0)


@dataclass(frozen=True, slots=True)
class Route:
    """The plan's operations as a verification needs them.

    Attributes
    ----------
    edges
        What stands before each operation of the plan.
    order
        Working order.
    done
        When each finished operation was done, year-month-day.
    """

    edges: Edges
    order: Sequence[str]
    done: Mapping[str, str]

    def after(self, name: str) -> tuple[str, ...]:
        """Return an operation and all that follows from it, in working order."""
        reached = {name}
        for each in self.order:
            if any(before in reached for before in self.edges[each]):
                reached.add(each)
        return tuple(each for each in self.order if each in reached)

    def before(self, name: str) -> tuple[str, ...]:
        """Return everything that has to stand before an operation, in working order."""
        reached: set[str] = set()
        waiting = list(self.edges.get(name, ()))
        while waiting:
            each = waiting.pop()
            if each not in reached:
                reached.add(each)
                waiting.extend(self.edges[each])
        return tuple(each for each in self.order if each in reached)


class Corrections:
    """Finds the cures of what did not pass.

    Parameters
    ----------
    rows
        Every way known, least metal first.
    world
        To tell whether a way fits this job.
    operations
        Operations of the rulebook, for their own rework texts.
    route
        Operations of the plan.
    """

    def __init__(
        self,
        rows: Sequence[Correction],
        world: World,
        operations: Mapping[str, Operation],
        route: Route,
    ) -> None:
        self.rows, self.world = rows, world
        self.operations, self.route = operations, route

    def cures(self, fits: Iterable[FitDoc]) -> tuple[Cure, ...]:
        """List the cures of every reading that failed, is not proved or is out of date."""
        found: dict[tuple[str, str], Cure] = {}
        for fit in fits:
            for each in fit.items:
                if each.state not in ("fail", "out of date", *UNPROVED):
                    continue
                for cure in self._of(fit, each):
                    key = (cure.id if cure.id != AGAIN else fit.id, each.where)
                    found.setdefault(key, cure)
        return tuple(found.values())

    def _of(self, fit: FitDoc, verdict: ItemVerdict) -> list[Cure]:
        if verdict.state == "out of date":
            says = f"Measure it again: {verdict.because}."
            return [self._cure(fit, verdict, (AGAIN, "none", says), (fit.at,))]
        # What is inside its limits and not proved asks for a better reading, not for metal.
        sides = {verdict.side, "either"}
        if verdict.state in UNPROVED:
            sides = {"unsure"} if verdict.inside_limit else {*sides, "unsure"}
        return [
            self._cure(fit, verdict, (row.id, row.metal, row.says), row.repeat_from)
            for row in self.rows
            if fit.id in row.fits and row.side in sides and self._applies(row)
        ]

    def _cure(
        self,
        fit: FitDoc,
        verdict: ItemVerdict,
        way: tuple[str, str, str],
        repeat_from: Sequence[str],
    ) -> Cure:
        start = next((each for each in repeat_from if each in self.route.edges), "")
        # Only a better reading: nothing was cut, so nothing but the measuring is open again.
        again = way[1] == "none" and start == fit.at
        opened = (start,) if again else self.route.after(start) if start else ()
        return Cure(
            fit=fit.id,
            where=verdict.where,
            id=way[0],
            metal=way[1],
            says=way[2],
            amount=amount(fit, verdict),
            repeat_from=start,
            reopens=opened,
            reopens_done=tuple(each for each in opened if each in self.route.done),
            rework=self.operations[fit.at].rework if fit.at in self.operations else "",
        )

    def _applies(self, row: Correction) -> bool:
        """Tell whether a way fits this job: all of its NAME=word hold, or are not known."""
        for each in row.only_with:
            name, _, word = each.partition("=")
            try:
                entries = self.world.entries(self.world.scope.resolve(name.strip(), _NOWHERE))
            except (Unreadable, AlreadyTold):
                return False
            values = {entry.value for entry in entries.values() if isinstance(entry.value, str)}
            if values and word.strip() not in values:
                return False
        return True


def amount(fit: FitDoc, verdict: ItemVerdict) -> str:
    """Say how far a reading is from its limit, and from the aim where there is one.

    Examples
    --------
    >>> from planner.models.asbuilt import FitDoc, ItemVerdict
    >>> tight = ItemVerdict(
    ...     where="main 3",
    ...     state="fail",
    ...     side="under",
    ...     low=0.041,
    ...     high=0.041,
    ...     limit_low=0.046,
    ...     limit_high=0.065,
    ...     target=0.054,
    ... )
    >>> fit = FitDoc(id="x", title="x", clearance=True, unit="mm", at="", limits_from="", items=())
    >>> amount(fit, tight)
    '0.005 mm under the low limit, 0.013 mm under the aim'
    """
    if verdict.side == "under" and verdict.low is not None and verdict.limit_low is not None:
        value, gap, edge = verdict.low, verdict.limit_low - verdict.low, "low"
    elif verdict.side == "over" and verdict.high is not None and verdict.limit_high is not None:
        value, gap, edge = verdict.high, verdict.high - verdict.limit_high, "high"
    else:
        return ""
    unit = f" {fit.unit}" if fit.unit else ""
    text = f"{round(gap, FINE):g}{unit} {verdict.side} the {edge} limit"
    if verdict.target is None:
        return text
    return f"{text}, {round(abs(value - verdict.target), FINE):g}{unit} {verdict.side} the aim"


FINE = 4
"""Decimals of an amount to correct by."""
