"""Parts to buy, price and timetable, added to a plan by what the shop says of itself."""

from collections.abc import Mapping
from dataclasses import replace

from planner.models.cost import BudgetVerdict, Cost
from planner.models.job import Job
from planner.models.plan import Conflict, Plan
from planner.models.steps import Schedule
from planner.models.work import TorqueLine
from planner.planning.cost import Pricing
from planner.planning.deadline import Deadline
from planner.planning.job_reader import JobReading
from planner.planning.part_needs import PartNeed, PartNeeds
from planner.planning.parts_list import PartsList
from planner.planning.reopened import Specs, reopened
from planner.planning.schedule_docs import ScheduleDocs
from planner.planning.shop_data import Shop, read_shop
from planner.planning.step_docs import StepDocs
from planner.planning.timing import Timekeeper
from planner.planning.torque_sheet import run_in_steps, torque_lines
from planner.planning.triggers import Triggers, check_shop
from planner.route.progress import startable
from planner.rulebook.results import Called, Results

_HAND = "parts_in_hand."


def with_work(plan: Plan, reading: JobReading, results: Results, steps: StepDocs) -> Plan:
    """Add what the work needs to a plan.

    Parameters
    ----------
    plan
        Decisions, operations and progress.
    reading
        The job.
    results
        What the rulebook said.
    steps
        Operations in order with their edges.

    Returns
    -------
    Plan
        With parts, cost, schedule, torque sheet and first start; the same plan when the
        rulebook knows no shop.
    """
    shop = read_shop(results.rulebook)
    if shop is None:
        return plan
    check_shop(results.rulebook)
    return _Work(shop, reading, results, steps).added_to(plan)


class _Work:
    def __init__(self, shop: Shop, reading: JobReading, results: Results, steps: StepDocs) -> None:
        self.shop, self.results, self.steps = shop, results, steps
        self.names = steps.names
        self.job = reading.job
        self.called: Mapping[str, Called] = {name: steps.called[name] for name in steps.order}
        self.needs = self._part_needs(frozenset(self.job.progress))

    def added_to(self, plan: Plan) -> Plan:
        parts = PartsList(self.results, self.names).parts(self.needs)
        again = reopened(Specs(self.results, parts), self.job.progress, self.steps.edges)
        job = replace(
            self.job,
            progress={name: done for name, done in self.job.progress.items() if name not in again},
        )
        cost = Pricing(self.shop, self.names, self.called).cost(self.job, self.needs)
        sheet = torque_lines(self.results, self.names, job)
        schedule, late = self._schedule(replace(plan.schedule, reopened=again), job, sheet)
        conflicts = [each for each in (late, _short(cost)) if each is not None]
        return replace(
            plan,
            parts=parts,
            cost=cost,
            schedule=schedule,
            conflicts=(*plan.conflicts, *conflicts),
            torque_sheet=sheet,
            run_in=run_in_steps(self.results, Triggers(self.names, self.called)),
        )

    def _part_needs(self, done: frozenset[str]) -> tuple[PartNeed, ...]:
        facts = self.results.facts.inputs
        paths = [self.results.rulebook.inputs[name].job for name in facts]
        hand = {path.split(".")[1] for path in paths if path.startswith(_HAND)}
        needs = PartNeeds(self.shop, self.names, self.called, in_hand=frozenset(hand), done=done)
        return needs.all(self.results.outcomes)

    def _schedule(
        self, base: Schedule, job: Job, sheet: tuple[TorqueLine, ...]
    ) -> tuple[Schedule, Conflict | None]:
        keeper = Timekeeper(self.shop, self.called, self.steps.edges, job)
        docs = ScheduleDocs(self.shop, keeper, keeper.timing(self.needs), self._weeks())
        doubtful = [name for name, each in self.called.items() if each.perhaps]
        start_now = startable(self.steps.edges, self.steps.order, job.progress, doubtful)
        schedule = docs.schedule(replace(base, can_start_now=start_now), self.needs, sheet)
        return schedule, Deadline(docs, self.job).conflict(schedule)

    def _weeks(self) -> float | None:
        fact = self.results.facts.inputs.get("weeks_available")
        value = fact.entries[()].value if fact is not None and () in fact.entries else None
        return value if isinstance(value, int | float) else None


def _short(cost: Cost) -> Conflict | None:
    """Turn a price above the budget into a conflict with its ways out."""
    verdict: BudgetVerdict | None = cost.budget
    if verdict is None or verdict.state != "over":
        return None
    ways = [
        f"leave out {cut.what} ({cut.says}): saves {cut.saves} {cost.currency}"
        for cut in verdict.cut_first
    ]
    never = ", ".join(verdict.never)
    return Conflict(
        between=("goals.budget", "cost"),
        text=verdict.text,
        ways_out=(*ways, "raise the budget, or lower the goals", f"never cut: {never}"),
    )
