"""Two plans side by side: what changes, and the rule that makes each difference."""

from collections.abc import Iterable
from decimal import Decimal

from planner.models.comparison import Change, Comparison
from planner.models.cost import CostLine
from planner.models.groups import HEADLINES, SIX
from planner.models.plan import Plan
from planner.models.steps import Part, Step
from planner.planning.deciding_rule import DecidingRule
from planner.planning.explaining import Explainer
from planner.planning.names import Names
from planner.rulebook.results import Fact
from planner.rulebook.syntax import Field

ZERO = Decimal(0)
_ASKED_FOR = (
    *(name for _, names in SIX for name in names),
    "exhaust_valve",
    "intake_valve",
    "head_gasket",
    "rod_grade",
    "rod_bolt_grade",
)


def compare(old: Explainer, new: Explainer, titles: tuple[str, str]) -> Comparison:
    """Compare two jobs worked out by the same rules.

    Parameters
    ----------
    old, new
        The two jobs.
    titles
        How to call them.

    Returns
    -------
    Comparison
        Differences in the order a builder thinks in.
    """
    decider = DecidingRule(old.results, new.results)
    headlines = tuple(_specification(decider))
    changed = [name for name in new.results.outcomes if decider.changed(name)]
    return Comparison(
        before=titles[0],
        after=titles[1],
        inputs=tuple(_inputs(old, new)),
        specification=headlines,
        behind=len(changed) - len(headlines),
        same=tuple(
            (name, decider.texts(name)[1])
            for name in dict.fromkeys(_ASKED_FOR)
            if name in new.results.outcomes and not decider.changed(name)
        ),
        operations=tuple(_operations(old.plan, new.plan)),
        parts=tuple(_parts(old.plan, new.plan)),
        cost=tuple(_cost(old.plan, new.plan)),
        schedule=tuple(_schedule(old.plan, new.plan)),
        currency=new.plan.cost.currency if new.plan.cost else "",
    )


def _specification(decider: DecidingRule) -> Iterable[Change]:
    for name in HEADLINES:
        outcome = decider.new.outcomes.get(name)
        if outcome is None or not decider.changed(name):
            continue
        before, after = decider.texts(name)
        rule, decided = decider.of(name)
        yield Change(
            id=name,
            title=outcome.decision.means,
            before=before,
            after=after,
            rule=rule,
            decided_by=decided,
        )


def _inputs(old: Explainer, new: Explainer) -> Iterable[Change]:
    """List what the two jobs say differently; readings are named, not printed."""
    book = new.results.rulebook
    for name, field in book.inputs.items():
        facts = [each.results.facts.inputs.get(name) for each in (old, new)]
        entries = [None if fact is None else fact.entries for fact in facts]
        if entries[0] == entries[1]:
            continue
        told = [
            _said(fact, asked.steps.names, field)
            for fact, asked in zip(facts, (old, new), strict=True)
        ]
        yield Change(id=name, title=field.job, before=told[0], after=told[1])


def _said(fact: Fact | None, names: Names, field: Field) -> str:
    if fact is None:
        return "not said"
    if field.type.form == "grid":
        return "as measured"
    return names.text(fact.entries, field.type)


def _operations(old: Plan, new: Plan) -> Iterable[Change]:
    before, after = ({each.id: each for each in plan.operations} for plan in (old, new))
    for name in dict.fromkeys([*after, *before]):
        one, two = _step_words(before.get(name)), _step_words(after.get(name))
        if one != two:
            title = (after.get(name) or before[name]).title
            called = "; ".join(after[name].because) if name in after else ""
            yield Change(id=name, title=title, before=one, after=two, decided_by=called)


def _step_words(step: Step | None) -> str:
    if step is None:
        return "not in the plan"
    sure = "perhaps" if step.perhaps else "in the plan"
    return f"{sure}: {', '.join(step.where)}" if step.where else sure


def _parts(old: Plan, new: Plan) -> Iterable[Change]:
    before, after = ({each.id: each for each in plan.parts} for plan in (old, new))
    for name in dict.fromkeys([*after, *before]):
        one, two = _part_words(before.get(name)), _part_words(after.get(name))
        if one != two:
            title = (after.get(name) or before[name]).title
            yield Change(id=name, title=title, before=one, after=two)


def _part_words(part: Part | None) -> str:
    if part is None:
        return "not bought"
    grade = part.grade or " or ".join(part.could_be)
    return f"{part.quantity} x {grade}" if grade else str(part.quantity)


def _cost(old: Plan, new: Plan) -> Iterable[Change]:
    """Give the totals, then each line that comes or goes or is another, dearest first.

    A line that stays as it is still takes another share of the range; that is not told.
    """
    if old.cost is None or new.cost is None:
        return
    for name in ("low", "likely", "high"):
        before, after = getattr(old.cost, name), getattr(new.cost, name)
        yield Change(id=name, title=name, before=before, after=after)
    lines = [{each.id: each for each in cost.lines} for cost in (old.cost, new.cost)]
    moved = [
        (name, lines[0].get(name), lines[1].get(name))
        for name in dict.fromkeys([*lines[1], *lines[0]])
    ]
    told = [each for each in moved if _alone(each[1]) != _alone(each[2])]
    told.sort(key=lambda each: (-abs(_usual(each[2]) - _usual(each[1])), each[0]))
    for name, one, two in told:
        line = two or one
        title = line.what if line is not None else name
        yield Change(id=name, title=title, before=f"{_usual(one):f}", after=f"{_usual(two):f}")


def _alone(line: CostLine | None) -> tuple[str, ...]:
    return () if line is None else line.alone


def _usual(line: CostLine | None) -> Decimal:
    return ZERO if line is None else Decimal(line.alone[1])


def _schedule(old: Plan, new: Plan) -> Iterable[Change]:
    one, two = old.schedule, new.schedule
    pairs = (
        ("working days", _days(old), _days(new)),
        ("longest chain", str(one.longest_chain_days), str(two.longest_chain_days)),
        (
            "finish",
            one.finish.likely if one.finish else "",
            two.finish.likely if two.finish else "",
        ),
        ("reopened", ", ".join(one.reopened), ", ".join(two.reopened)),
    )
    for title, before, after in pairs:
        if before != after:
            yield Change(id=title.replace(" ", "_"), title=title, before=before, after=after)


def _days(plan: Plan) -> str:
    schedule = plan.schedule
    if schedule.working_days is None:
        return ""
    low, high = schedule.working_days
    return f"{low} to {high}, usually {schedule.working_days_likely}"
