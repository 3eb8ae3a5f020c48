"""Whether conditions hold on a job: yes, no, or not yet known; and for which items."""

from planner.records import record
from planner.rulebook.syntax import Condition, When
from planner.rulebook.values import Interval, OneOf, Status
from planner.rulebook.world import Bound, World


@record
class Judged:
    """The outcome of a condition: true, false, or none while not settled; items that matched."""

    holds: bool | None
    where: tuple[str, ...] = ()
    because: tuple[str, ...] = ()


YES, NO = Judged(holds=True), Judged(holds=False)


def judge(world: World, when: When, bound: dict[str, str] | None = None) -> Judged:
    """Judge a ``when``: any of its groups, in a group every condition.

    Parameters
    ----------
    world
        The job with its answers.
    when
        The condition; empty holds always.
    bound
        Items already bound, for per-item decisions.

    Returns
    -------
    Judged
        ``holds`` is none where what is not yet known could decide either way.
    """
    if not when:
        return YES
    found: list[Judged] = [_group(world, group, bound or {}) for group in when]
    for each in found:
        if each.holds:
            return each
    unsure = [each for each in found if each.holds is None]
    return unsure[0] if unsure else NO


def _group(world: World, group: tuple[Condition, ...], bound: dict[str, str]) -> Judged:
    where: tuple[str, ...] = ()
    because: list[str] = []
    unsure = False
    for condition in group:
        each = _condition(world, condition, bound)
        if each.holds is False:
            return NO
        unsure = unsure or each.holds is None
        where = where or each.where
        because.extend(each.because)
    return Judged(None if unsure else True, where, tuple(because))


def _condition(world: World, condition: Condition, bound: dict[str, str]) -> Judged:
    ref = condition.ref
    told = (f"{ref.text} {condition.text}",)
    if condition.every == "one":
        return Judged(_meets(world, condition, bound), (), told)
    results = {
        key: _meets(world, condition, {**bound, **dict(zip(ref.type.per, key, strict=True))})
        for key in Bound(world, bound).keys(ref.type.per)
    }
    matched = tuple(world.label(ref.type.per, key) for key, met in results.items() if met)
    values = list(results.values())
    if condition.every == "some":
        holds = True if any(values) else (None if None in values else False)
    else:
        holds = False if False in values else (None if None in values else True)
    return Judged(holds, matched, told)


def _meets(world: World, condition: Condition, bound: dict[str, str]) -> bool | None:
    entry = world.entry(condition.ref, bound)
    if entry.value is None:
        return False if entry.status is Status.NOT_APPLICABLE else None
    if not isinstance(entry.value, (Interval, OneOf)):
        met = bool(condition.cell.contains(entry.value))
        return None if met and entry.may_refuse else met
    if condition.cell.holds_all(entry.value):
        return None if entry.may_refuse else True
    return None if condition.cell.meets(entry.value) else False
