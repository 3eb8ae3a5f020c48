"""Working out one item of a decision: value, table, compute or weigh, with its reasons."""

import math
from collections.abc import Mapping
from dataclasses import field, replace
from itertools import pairwise

from planner.errors import BorewrightError, OutsideValidity
from planner.records import record
from planner.rulebook.intervals import NeedsFirm, high, low
from planner.rulebook.printing import show_value
from planner.rulebook.ranges import range_text
from planner.rulebook.results import Trace
from planner.rulebook.syntax import (
    ComputeBody,
    Decision,
    ValueBody,
)
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import (
    Band,
    Entry,
    Interval,
    Key,
    Number,
    Several,
    Status,
    Value,
)
from planner.rulebook.world import Bound, World, combine, with_value

Answers = dict[str, Entry]


@record
class Item:
    """One item of a decision being worked out."""

    world: World
    decision: Decision
    key: Key
    bound: dict[str, str] = field(default_factory=dict)

    @property
    def label(self) -> str:
        """Which item this is, in words; nothing for the whole engine."""
        return self.world.label(self.decision.per, self.key)


def refuse(item: Item, entry: Entry) -> Answers:
    """Give every result of the decision the same entry without a value."""
    return dict.fromkeys(item.decision.gives, entry)


def decide_value(item: Item, body: ValueBody) -> tuple[Answers, Trace]:
    """Answer with the value written."""
    name = next(iter(item.decision.gives))
    return {name: Entry(body.value)}, Trace(source=item.decision.source)


def decide_compute(item: Item, body: ComputeBody) -> tuple[Answers, Trace]:
    """Work out formulas; a refusal of a function is the decision's."""
    env = item.world.env(item.bound)
    read: dict[str, Entry] = {}
    for formula in body.formulas.values():
        read.update(formula.gather(env))
    text = "; ".join(formula.text for formula in body.formulas.values())
    trace = Trace(read=read, formula=text, source=item.decision.source)
    base = combine(read)
    if base.status > Status.PROVISIONAL:
        return refuse(item, base), trace
    values = _worked_out(body, env)
    if isinstance(values, Entry):
        if base.loose:
            values = Entry(status=Status.WAITING, waiting_for=base.loose)
        return refuse(item, values), trace
    return {
        name: _checked(base, value, item.decision.gives[name].type, name)
        for name, value in _results(item, values).items()
    }, trace


def _worked_out(body: ComputeBody, env: Bound) -> dict[str, Value] | Entry:
    """Run the formulas; an entry without a value where one refuses."""
    try:
        return {part: formula.run(env) for part, formula in body.formulas.items()}
    except NeedsFirm as error:
        return Entry(status=Status.WAITING, waiting_for=(error.what,))
    except OutsideValidity as error:
        return Entry(status=Status.REFUSED, refused=f"{error.problem} {error.remedy}")
    except BorewrightError as error:
        return Entry(status=Status.REFUSED, refused=error.problem)
    except (ArithmeticError, ValueError) as error:
        told = f"the formula cannot be worked out ({error})"
        return Entry(status=Status.REFUSED, refused=told)


def _results(item: Item, values: Mapping[str, Value]) -> dict[str, Value]:
    names = tuple(item.decision.gives)
    if "value" not in values:
        parts = {part: _number(value) for part, value in values.items()}
        return {names[0]: Band(parts["low"], parts["high"], parts.get("target"))}
    value = values["value"]
    if isinstance(value, Several):
        return {name: value.results[name] for name in names}
    return {names[0]: value}


def _number(value: Value) -> Number:
    if isinstance(value, (float, Interval)):
        return value
    raise ValueError(f"{value!r} is not one number")


def _checked(base: Entry, value: Value, declared: ValueType, name: str) -> Entry:
    """Hold a result against its declared range; a written-out band must rise."""
    if isinstance(value, Band):
        return _checked_band(base, value, declared, name)
    if not isinstance(value, (float, Interval)):
        return with_value(base, value)
    number = _inside(value, declared, name)
    if isinstance(number, str):
        return Entry(status=Status.REFUSED, refused=number)
    if number != value and not base.may_refuse:
        base = replace(base, may_refuse=True)
    return with_value(base, number)


def _checked_band(base: Entry, value: Band, declared: ValueType, name: str) -> Entry:
    parts = [_inside(part, declared, name) for part in value.parts()]
    refusal = next((part for part in parts if isinstance(part, str)), None)
    numbers = [part for part in parts if not isinstance(part, str)]
    ends = [[low(part) for part in numbers], [high(part) for part in numbers]]
    if refusal is None and not all(map(_rises, ends)):
        if base.loose:
            return Entry(status=Status.WAITING, waiting_for=base.loose)
        shown = ", ".join(show_value(part, declared.as_number()) for part in numbers)
        refusal = f"{name} does not rise from low to high ({shown})"
    if refusal is not None:
        return Entry(status=Status.REFUSED, refused=refusal)
    target = numbers[1] if value.target is not None else None
    cut = any(a != b for a, b in zip(numbers, value.parts(), strict=True))
    if cut and not base.may_refuse:
        base = replace(base, may_refuse=True)
    return with_value(base, Band(numbers[0], numbers[-1], target))


def _rises(parts: list[float]) -> bool:
    """Tell whether parts rise; what outward rounding of an open end adds does not count."""
    return all(b >= a - 1e-9 * abs(a) for a, b in pairwise(parts))


def _inside(number: Number, declared: ValueType, name: str) -> Number | str:
    """Return a number that its range allows, cut to it where unsettled; else why not."""
    if not (math.isfinite(low(number)) and math.isfinite(high(number))):
        return f"{name} does not come to a finite number"
    if isinstance(number, Interval):
        return _cut(number, declared, name)
    if declared.holds(float(f"{number:.12g}")):
        return number
    return _outside(number, declared, name)


def _outside(number: Number, declared: ValueType, name: str) -> str:
    shown = show_value(number, declared.as_number())
    return (
        f"{name} comes to {shown}, outside what it can be ({range_text(declared)}); "
        "check the readings behind it"
    )


def _cut(number: Interval, declared: ValueType, name: str) -> Number | str:
    """Cut a stretch to the declared range: what lies beyond would be refused when known."""
    least = number.low if declared.low is None else max(number.low, declared.low)
    most = number.high if declared.high is None else min(number.high, declared.high)
    return Interval(least, most) if least < most else _outside(number, declared, name)
