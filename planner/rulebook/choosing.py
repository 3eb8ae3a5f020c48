"""Choosing one row of stock: needs tried in order, margins kept, preferences, then none."""

import operator
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from planner.errors import BorewrightError
from planner.rulebook.deciding import Answers, Item, refuse
from planner.rulebook.formulas import Comparison, Typed
from planner.rulebook.printing import apart, spoken
from planner.rulebook.results import Rejected, Trace
from planner.rulebook.syntax import ChooseBody
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Entry, Status, Value
from planner.rulebook.world import Bound, combine, with_value

SIGNS: dict[str, Callable[[Any, Any], Any]] = {
    ">=": operator.ge,
    "<=": operator.le,
    ">": operator.gt,
    "<": operator.lt,
    "==": operator.eq,
    "!=": operator.ne,
}
OPPOSITES = {">=": "<", "<=": ">", ">": "<=", "<": ">=", "==": "is not", "!=": "is"}


@dataclass(slots=True)
class Tried:
    """What came of one row: its failure, what it lacks, or its margins."""

    row: str
    env: Bound
    base: Entry
    failed: Rejected | None = None
    refused: str | None = None
    waiting: Entry | None = None
    margins: tuple[str, ...] = ()


def decide_choose(item: Item, body: ChooseBody) -> tuple[Answers, Trace]:
    """Choose the preferred row of those that pass every need."""
    name = next(iter(item.decision.gives))
    rows = item.world.items(body.stock)
    if not rows:
        told = Entry(status=Status.WAITING, waiting_for=(body.stock,))
        return {name: told}, Trace(source=item.decision.source)
    tried = [_try(item, body, row) for row in rows]
    rejected = tuple(each.failed for each in tried if each.failed) + tuple(
        Rejected(each.row, "can be worked out", each.refused or "")
        for each in tried
        if each.refused
    )
    read = {label: entry for each in tried[:1] for label, entry in _read(each.env, body).items()}
    upstream = _upstream(tried)
    trace = Trace(rejected=rejected, read=read, source=item.decision.source)
    if upstream is not None:
        return refuse(item, upstream), Trace(read=read, source=item.decision.source)
    passing = [each for each in tried if not (each.failed or each.refused)]
    waiting = [each.waiting for each in passing if each.waiting]
    if waiting:
        return refuse(item, combine({str(at): e for at, e in enumerate(waiting)})), trace
    if not passing:
        return refuse(item, Entry(status=Status.REFUSED, refused=body.none)), trace
    best = min(passing, key=lambda each: _preference(each, body))
    chosen = Trace(
        rejected=rejected,
        passed=tuple(e.row for e in passing if e is not best),
        margins=best.margins,
        read=_read(best.env, body),
        source=item.decision.source,
    )
    return {name: with_value(best.base, best.row)}, chosen


def _read(env: Bound, body: ChooseBody) -> dict[str, Entry]:
    read: dict[str, Entry] = {}
    for need in body.needs.values():
        read.update(need.left.gather(env))
        read.update(need.right.gather(env))
    for preference in body.prefer:
        read.update(preference.formula.gather(env))
    return read


def _try(item: Item, body: ChooseBody, row: str) -> Tried:
    env = item.world.env({**item.bound, body.stock: row})
    base = combine(_read(env, body))
    tried = Tried(row, env, base)
    margins = []
    for name, need in body.needs.items():
        heard = combine({**need.left.gather(env), **need.right.gather(env)})
        if heard.status == Status.WAITING:
            tried.waiting = tried.waiting or heard
        elif heard.status > Status.WAITING:
            tried.refused = tried.refused or heard.refused
        else:
            passed, told = _compare(need, env)
            if not passed:
                tried.failed = Rejected(row, name, told)
                return tried
            margins.append(f"{name} ({told})")
    tried.margins = tuple(margins)
    if base.status == Status.WAITING:
        tried.waiting = tried.waiting or base
    return tried


def _compare(need: Comparison, env: Bound) -> tuple[bool, str]:
    try:
        left, right = need.left.run(env), need.right.run(env)
    except (BorewrightError, ArithmeticError, ValueError) as error:
        told = error.problem if isinstance(error, BorewrightError) else str(error)
        return False, f"cannot be worked out: {told}"
    if isinstance(left, float) and isinstance(right, float):
        left, right = float(f"{left:.12g}"), float(f"{right:.12g}")
    passed = bool(SIGNS[need.sign](left, right))
    sign = need.sign if passed else OPPOSITES[need.sign]
    first, second = _shown(left, right, need.left.type, need.right.type)
    return passed, f"{first} {sign} {second}"


def _shown(left: Value, right: Value, left_type: Typed, right_type: Typed) -> tuple[str, str]:
    if isinstance(left, float) and isinstance(right, float):
        unit = left_type.unit or right_type.unit
        kind = left_type.kind or right_type.kind
        declared = ValueType("number", unit, left_type.dimension, kind)
        return apart(left, right, declared)
    return spoken(str(left)), spoken(str(right))


def _preference(tried: Tried, body: ChooseBody) -> tuple[float, ...]:
    order = []
    for preference in body.prefer:
        value = preference.formula.run(tried.env)
        number = value if isinstance(value, float) else 0.0
        order.append(-number if preference.most else number)
    return tuple(order)


def _upstream(tried: list[Tried]) -> Entry | None:
    """A refusal that all rows share lies upstream and is passed on unchanged."""
    reasons = {each.refused for each in tried}
    if len(reasons) == 1 and None not in reasons:
        return Entry(status=Status.REFUSED, refused=reasons.pop())
    return None
