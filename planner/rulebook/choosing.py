"""Choosing one row of stock: needs tried in order, margins kept, preferences, then none."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from planner.errors import BorewrightError
from planner.rulebook.deciding import Answers, Item, refuse
from planner.rulebook.intervals import NeedsFirm, high, low, negate
from planner.rulebook.pieces import Comparison
from planner.rulebook.printing import apart, show_value
from planner.rulebook.results import Rejected, Trace
from planner.rulebook.syntax import ChooseBody, Preference
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Entry, Interval, Number, OneOf, Status, Value
from planner.rulebook.world import Bound, System, combine, with_value

OPPOSITES = {">=": "<", "<=": ">", ">": "<=", "<": ">=", "==": "is not", "!=": "is"}

ROW_WANTED = "that a row of {stock} will pass"


@dataclass(slots=True)
class Tried:
    """What came of one row: its failure, what it lacks, or its margins; open while unsure."""

    row: str
    env: Bound
    base: Entry
    failed: Rejected | None = None
    refused: str | None = None
    waiting: Entry | None = None
    open: bool = False
    margins: tuple[str, ...] = ()
    preference: tuple[Number, ...] = ()

    @property
    def possible(self) -> bool:
        """Whether the row could still be chosen."""
        return not (self.failed or self.refused)


def decide_choose(item: Item, body: ChooseBody) -> tuple[Answers, Trace]:
    """Choose the preferred row of those that pass; while unsure, every row that could win."""
    name = next(iter(item.decision.gives))
    rows = item.world.items(body.stock)
    if not rows:
        told = Entry(status=Status.WAITING, waiting_for=(body.stock,))
        return {name: told}, Trace(source=item.decision.source)
    tried = [_try(item, body, row) for row in rows]
    trace = Trace(
        rejected=tuple(_rejected(each) for each in tried if not each.possible),
        read=_read(tried[0].env, body),
        source=item.decision.source,
    )
    upstream = _upstream(tried)
    if upstream is not None:
        return refuse(item, upstream), replace(trace, rejected=())
    possible = [each for each in tried if each.possible]
    waiting = [each.waiting for each in possible if each.waiting]
    if waiting:
        return refuse(item, combine({str(at): e for at, e in enumerate(waiting)})), trace
    if not possible:
        return refuse(item, Entry(status=Status.REFUSED, refused=body.none)), trace
    return _won(name, possible, trace, body)


def _rejected(tried: Tried) -> Rejected:
    return tried.failed or Rejected(tried.row, "can be worked out", tried.refused or "")


def _won(
    name: str, possible: list[Tried], trace: Trace, body: ChooseBody
) -> tuple[Answers, Trace]:
    winners = [
        each
        for each in possible
        if not any(
            other is not each and not other.open and _surely_before(other, each, possible)
            for other in possible
        )
    ]
    best = winners[0]
    for each in winners[1:]:
        if _surely_before(each, best, possible):
            best = each
    passed = tuple(each.row for each in possible if each not in winners)
    trace = replace(trace, margins=best.margins, passed=passed, read=_read(best.env, body))
    if len(winners) == 1 and not best.open:
        return {name: with_value(best.base, best.row)}, trace
    base = combine({each.row: each.base for each in winners})
    if all(each.open for each in possible):
        reason = ROW_WANTED.format(stock=body.stock)
        base = replace(base, assumed=(*base.assumed, reason), may_refuse=True)
    loose = {name for each in winners for name in each.base.loose}
    base = replace(base, loose=tuple(sorted(loose)))
    return {name: with_value(base, OneOf(tuple(each.row for each in winners)))}, trace


def _surely_before(first: Tried, second: Tried, order: list[Tried]) -> bool:
    """Tell whether one row is preferred whatever is learned; catalog order breaks ties."""
    for mine, other in zip(first.preference, second.preference, strict=True):
        if high(mine) < low(other):
            return True
        if not (low(mine) == high(mine) == low(other) == high(other)):
            return False
    return order.index(first) < order.index(second)


def _read(env: Bound, body: ChooseBody) -> dict[str, Entry]:
    needs = ({**need.left.gather(env), **need.right.gather(env)} for need in body.needs.values())
    return _joined(needs, env, body)


def _joined(
    needs: Iterable[Mapping[str, Entry]], env: Bound, body: ChooseBody
) -> dict[str, Entry]:
    """Join what the needs read with what the preferences read."""
    read: dict[str, Entry] = {}
    for each in needs:
        read.update(each)
    for preference in body.prefer:
        read.update(preference.formula.gather(env))
    return read


def _try(item: Item, body: ChooseBody, row: str) -> Tried:
    env = item.world.env({**item.bound, body.stock: row})
    sides = {
        name: {**need.left.gather(env), **need.right.gather(env)}
        for name, need in body.needs.items()
    }
    tried = Tried(row, env, combine(_joined(sides.values(), env, body)))
    margins = []
    for name, need in body.needs.items():
        heard = combine(sides[name])
        if heard.status == Status.WAITING:
            tried.waiting = tried.waiting or heard
            continue
        if heard.status > Status.WAITING:
            tried.refused = tried.refused or heard.refused
            continue
        passed, told = _compare(need, env)
        if passed is False:
            tried.failed = Rejected(row, name, told)
            return tried
        tried.open = tried.open or passed is None or heard.may_refuse
        margins.append(f"{name} ({told})")
    tried.margins = tuple(margins)
    if tried.base.status == Status.WAITING:
        tried.waiting = tried.waiting or tried.base
    elif tried.possible and not tried.waiting:
        tried.preference = tuple(_preference(env, each) for each in body.prefer)
    return tried


def _preference(env: Bound, preference: Preference) -> Number:
    value = preference.formula.run(env)
    number = value if isinstance(value, (float, Interval)) else 0.0
    return negate(number) if preference.most else number


def _compare(need: Comparison, env: Bound) -> tuple[bool | None, str]:
    """Tell whether a need holds: yes, no, or cannot tell; with both sides in words."""
    try:
        left, right = need.left.run(env), need.right.run(env)
    except (BorewrightError, ArithmeticError, ValueError) as error:
        told = error.problem if isinstance(error, BorewrightError) else str(error)
        return False, f"cannot be worked out: {told}"
    except NeedsFirm as error:
        return None, f"cannot tell before {error.what} is measured"
    if isinstance(left, (float, Interval)) and isinstance(right, (float, Interval)):
        passed = _numbers(need.sign, left, right)
    else:
        passed = _words(need.sign, left, right)
    first, second = _shown(left, right, need, env.world.system)
    if passed is None:
        return None, f"cannot tell yet: {first} against {second}"
    sign = need.sign if passed else OPPOSITES[need.sign]
    return passed, f"{first} {sign} {second}"


def _numbers(sign: str, left: Number, right: Number) -> bool | None:
    if sign in ("<=", "<"):
        return _numbers({"<=": ">=", "<": ">"}[sign], right, left)
    if sign in ("==", "!="):
        apart = _digits(high(left)) < _digits(low(right)) or (
            _digits(high(right)) < _digits(low(left))
        )
        firm = isinstance(left, float) and isinstance(right, float)
        return (sign == "!=") if apart else (sign == "==") if firm else None
    least, most = _digits(low(left)), _digits(high(left))
    floor, ceiling = _digits(low(right)), _digits(high(right))
    if sign == ">=":
        return True if least >= ceiling else False if most < floor else None
    return True if least > ceiling else False if most <= floor else None


def _digits(value: float) -> float:
    return float(f"{value:.12g}")


def _words(sign: str, left: Value, right: Value) -> bool | None:
    mine = set(left.words) if isinstance(left, OneOf) else {left}
    others = set(right.words) if isinstance(right, OneOf) else {right}
    if not mine & others:
        return sign == "!="
    return (sign == "==") if len(mine) == len(others) == 1 else None


def _shown(left: Value, right: Value, need: Comparison, system: System) -> tuple[str, str]:
    left_type, right_type = need.left.type, need.right.type
    unit = left_type.unit or right_type.unit
    kind = left_type.kind or right_type.kind
    declared = ValueType("number", unit, left_type.dimension, kind)
    if isinstance(left, float) and isinstance(right, float):
        return apart(left, right, declared, system)
    return show_value(left, declared, system), show_value(right, declared, system)


def _upstream(tried: list[Tried]) -> Entry | None:
    """A refusal that all rows share lies upstream and is passed on unchanged."""
    reasons = {each.refused for each in tried}
    if len(reasons) == 1 and None not in reasons:
        return Entry(status=Status.REFUSED, refused=reasons.pop())
    return None
