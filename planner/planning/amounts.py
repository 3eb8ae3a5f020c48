"""Values of the rulebook turned into amounts of the plan document."""

from collections.abc import Mapping
from typing import Any

from planner.models.amount import Amount, Bounds, ItemAmount, PerItem
from planner.planning.names import Names
from planner.rulebook.printing import show_entry
from planner.rulebook.results import Answer
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Band, Entry, Interval, Key, OneOf, Value
from planner.rulebook.values import Names as Called
from planner.units import to_unit


def parts_of(value: Value | None, declared: ValueType) -> dict[str, Any]:
    """Return the fields of an amount that hold a value.

    Parameters
    ----------
    value
        The value, SI; none when there is no answer.
    declared
        Its type; numbers come out in its unit, unrounded but for the twelfth digit.

    Returns
    -------
    dict
        low, target, high, unit, bounds, value, could_be, called, perhaps as they apply.
    """
    unit = declared.unit.name if declared.unit else None
    if isinstance(value, Band):
        return {**_band(value, declared), "unit": unit}
    if isinstance(value, Interval):
        low, high = _out(value.low, declared), _out(value.high, declared)
        return {"bounds": Bounds(low=low, high=high), "unit": unit}
    if isinstance(value, int | float):
        return {"target": _out(value, declared), "unit": unit}
    return _words_of(value)


def _band(band: Band, declared: ValueType) -> dict[str, Any]:
    """Return the parts of a band that are settled; the ends of one that is not are its bounds."""
    parts = {"low": band.low, "target": band.target, "high": band.high}
    shown: dict[str, Any] = {
        name: _out(si, declared) for name, si in parts.items() if isinstance(si, int | float)
    }
    if any(isinstance(si, Interval) for si in parts.values()):
        low = band.low.low if isinstance(band.low, Interval) else band.low
        high = band.high.high if isinstance(band.high, Interval) else band.high
        shown["bounds"] = Bounds(low=_out(low, declared), high=_out(high, declared))
    return shown


def _words_of(value: Value | None) -> dict[str, Any]:
    if isinstance(value, str):
        return {"value": value}
    if isinstance(value, OneOf):
        return {"could_be": value.words}
    if isinstance(value, Called):
        return {"called": value.called, "perhaps": value.perhaps}
    return {}


def whole(answer: Answer, names: Names) -> dict[str, Any]:
    """Return the amount fields of an answer, with the values of its items under `per`."""
    text = names.text(answer.entries, answer.type)
    if not answer.type.per:
        entry = answer.entries.get((), Entry())
        return {**parts_of(entry.value, answer.type), "text": text}
    return {"text": text, "per": per_item(answer, names)}


def row_fields(answer: Answer, names: Names) -> dict[str, Amount]:
    """Return the figures of the row that a choice from stock came to; nothing for others."""
    stock = names.rulebook.stocks.get(answer.type.catalog or "")
    if stock is None or not isinstance(answer.entries.get((), Entry()).value, str):
        return {}
    found = {}
    for name, each in stock.fields.items():
        value = names.world.entries(names.ref(f"{answer.name}.{name}"))[()].value
        if value is not None:
            text = names.plain(value, each.type)
            found[name] = Amount(**parts_of(value, each.type), text=text)
    return found


def per_item(answer: Answer, names: Names) -> PerItem:
    """Return the values of each item under the name of its set."""
    declared = answer.type.over(())
    items = {
        ", ".join(key): _item(entry, declared, names) for key, entry in answer.entries.items()
    }
    return {", ".join(answer.type.per): items}


def _item(entry: Entry, declared: ValueType, names: Names) -> ItemAmount:
    return ItemAmount(
        **parts_of(entry.value, declared),
        text=show_entry(names.world, entry, declared, names.system),
        status=entry.status.word,
        refused=entry.refused,
        waiting_for=entry.waiting_for,
    )


def same_for_all(entries: Mapping[Key, Entry]) -> Value | None:
    """Return the value that every item shares, or nothing when they differ."""
    values = [entry.value for entry in entries.values()]
    return values[0] if values and all(each == values[0] for each in values) else None


def _out(si: float, declared: ValueType) -> float:
    return to_unit(si, declared.unit) if declared.unit else float(f"{si:.12g}")
