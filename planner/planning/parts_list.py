"""The list for the buyer: what to order, what each part must have, now or hold and why."""

from collections.abc import Iterable, Iterator

from planner.models.steps import Part
from planner.planning.decision_docs import source_mark
from planner.planning.names import Names
from planner.planning.part_docs import figures
from planner.planning.part_needs import PartNeed, stock_of
from planner.planning.shop_rows import plain
from planner.planning.triggers import Sure
from planner.rulebook.results import Answer, Outcome, Results
from planner.rulebook.syntax import STAGES
from planner.rulebook.values import Status

_CRACK_TEST_FIRST = (
    "crack test before money: nothing is ordered before the engine is apart, measured and sound"
)


class PartsList:
    """Turns needs into parts of the plan document.

    Parameters
    ----------
    results
        What the rulebook said.
    names
        Prints values.
    """

    def __init__(self, results: Results, names: Names) -> None:
        self.results, self.names = results, names

    def parts(self, needs: Iterable[PartNeed]) -> tuple[Part, ...]:
        """Return a part for each need."""
        return tuple(self._part(need) for need in needs)

    def _part(self, need: PartNeed) -> Part:
        line, outcome = need.line, need.outcome
        stock = None if outcome is None else stock_of(outcome, self.names)
        order, because = self._order(need)
        rows = tuple(row.id for row in need.rows)
        return Part(
            id=line.id,
            title=line.called,
            part_class=stock.name if stock else "bought in",
            grade=rows[0] if len(rows) == 1 else "",
            could_be=rows if len(rows) > 1 else (),
            must_have={**self._stated(line.must_have), **self._figures(need)},
            quantity=need.most,
            quantity_low=need.least if need.sure == Sure.YES else 0,
            price=None if need.price is None else (plain(need.price[0]), plain(need.price[1])),
            lead_days=need.lead_days,
            perhaps=need.sure != Sure.YES,
            ordered_at=need.ordered_at,
            needed_at=need.needed_at,
            says=line.says,
            order=order,
            because=because,
            source=self._mark(need),
        )

    def _stated(self, decisions: Iterable[str]) -> dict[str, str]:
        """Print the decisions that the order must state."""
        return {
            answer.name: self.names.text(answer.entries, answer.type)
            for name in decisions
            for answer in self._answers(name)
        }

    def _answers(self, name: str) -> Iterator[Answer]:
        decision, result = self.results.rulebook.results.get(name, (name, ""))
        outcome = self.results.outcomes[decision]
        if outcome.status != Status.NOT_APPLICABLE:
            for answer in outcome.answers.values():
                if not result or answer.name == result:
                    yield answer

    def _figures(self, need: PartNeed) -> dict[str, str]:
        if need.outcome is None or len(need.rows) != 1:
            return {}
        stock = stock_of(need.outcome, self.names)
        told = figures(stock, need.rows[0].id, self.names) if stock else {}
        return {name: told[name] for name in need.line.states or told if name in told}

    def _order(self, need: PartNeed) -> tuple[str, str]:
        """Say now or hold, and why."""
        if need.in_hand:
            return "in hand", "the job shows that it has come"
        held = self._held(need)
        if held:
            return "hold", held
        step = f"; goes out with {need.ordered_at}" if need.ordered_at else ""
        return "now", f"everything the order must state is settled{step}"

    def _held(self, need: PartNeed) -> str:
        """Say why an order cannot go out yet; nothing when it can."""
        if self.results.facts.stage == STAGES[0]:
            return _CRACK_TEST_FIRST
        if need.sure != Sure.YES:
            return "it is not yet known whether it is needed"
        told = [*self._unsettled(need), *self._not_firm(need.line.must_have)]
        if need.least != need.most:
            told.append(f"how many is not yet known: {need.least} to {need.most}")
        return "; ".join(dict.fromkeys(told))

    def _unsettled(self, need: PartNeed) -> list[str]:
        outcome = need.outcome
        if outcome is None or outcome.status == Status.FIRM:
            return []
        return [f"the choice is {outcome.status.word}{_rests_on(outcome)}"]

    def _not_firm(self, decisions: Iterable[str]) -> list[str]:
        """List the figures of the order that still rest on something."""
        told = []
        for name in decisions:
            owner = self.results.rulebook.results.get(name, (name, ""))[0]
            outcome = self.results.outcomes[owner]
            if outcome.status not in (Status.FIRM, Status.NOT_APPLICABLE):
                spoken = name.replace("_", " ")
                told.append(f"{spoken} is {outcome.status.word}{_rests_on(outcome)}")
        return told

    def _mark(self, need: PartNeed) -> str:
        name = need.rows[0].source if len(need.rows) == 1 else need.line.source
        return source_mark(name, self.results.rulebook.sources).status


def _rests_on(outcome: Outcome) -> str:
    entries = [each for answer in outcome.answers.values() for each in answer.entries.values()]
    rests = [name for entry in entries for name in (*entry.waiting_for, *entry.assumed)]
    rests += [entry.refused for entry in entries if entry.refused]
    shown = list(dict.fromkeys(name.replace("_", " ") for name in rests))
    return f": it rests on {', '.join(shown)}" if shown else ""
