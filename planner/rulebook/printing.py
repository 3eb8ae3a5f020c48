"""Values as a shop reads them: bands, limits, choices, items grouped by equal text."""

from collections.abc import Mapping
from typing import Literal

from planner.rulebook.intervals import high, low, unsettled
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import (
    Band,
    Entry,
    Interval,
    Key,
    Names,
    OneOf,
    Several,
    Shifted,
    Status,
    Value,
)
from planner.rulebook.world import System as System
from planner.rulebook.world import World
from planner.units.parse import to_unit
from planner.units.show import show, show_band
from planner.units.table import Unit

NOT_KNOWN = "not yet known"


def show_value(value: Value, declared: ValueType, system: System = "metric") -> str:
    """Print one settled value.

    Parameters
    ----------
    value
        What to print.
    declared
        Its type: unit, kind and rounding step.
    system
        Metric, inch, or both.

    Returns
    -------
    str
        For example ``0.078 to 0.103 mm, aim 0.091 mm``.
    """
    if isinstance(value, (int, float, Interval, Band)):
        return _show_numeric(value, declared, system)
    if isinstance(value, (str, OneOf)):
        words = (value,) if isinstance(value, str) else value.words
        return " or ".join(spoken(word) for word in words)
    if isinstance(value, Names):
        return _names(value)
    if isinstance(value, Several):
        return ", ".join(
            f"{spoken(name)} {plain(low(each))}" for name, each in value.results.items()
        )
    readings = value.readings if isinstance(value, Shifted) else value
    return "; ".join(
        ", ".join(show_number(cell, declared, system) for cell in row) for row in readings
    )


def _show_numeric(value: float | Interval | Band, declared: ValueType, system: System) -> str:
    if isinstance(value, Band):
        return _band(value, declared, system)
    if isinstance(value, Interval):
        low = show_number(value.low, declared, system)
        high = show_number(value.high, declared, system)
        return low if low == high else f"between {low} and {high}"
    return show_number(value, declared, system)


def spoken(word: str) -> str:
    """Write a word of a choice as it is said."""
    return word.replace("_", " ")


def show_number(
    si: float,
    declared: ValueType,
    system: System = "metric",
    towards: Literal["near", "up", "down"] = "near",
) -> str:
    """Print one number in its declared unit."""
    if declared.unit is None:
        return plain(si, declared.step)
    return show(
        si, declared.unit, kind=declared.kind, system=system, step=declared.step, towards=towards
    )


def plain(value: float, step: float | None = None) -> str:
    """Print a number without a unit: to its step, else four significant digits."""
    if step:
        decimals = max(0, -_exponent(step))
        return f"{round(value / step) * step:.{decimals}f}"
    return f"{value:.4g}"


def _exponent(step: float) -> int:
    text = f"{step:.12f}".rstrip("0")
    return -len(text.partition(".")[2])


def _band(band: Band, declared: ValueType, system: System) -> str:
    if unsettled(band):
        return _open_band(band, declared, system)
    if system == "both":
        metric = _band(band, declared, "metric")
        inch = _band(band, declared, "inch")
        return metric if metric == inch else f"{metric} ({inch})"
    parts = tuple(low(part) for part in band.parts())
    if parts[0] == parts[-1]:
        return _show_numeric(parts[0], declared, system)
    if declared.unit is None:
        texts, suffix = [plain(part, declared.step) for part in parts], ""
    else:
        texts, suffix = _with_unit(parts, declared, declared.unit, system)
    return _spoken_band(texts[0], texts[1] if len(texts) == 3 else None, texts[-1], suffix)


def _with_unit(
    parts: tuple[float, ...], declared: ValueType, unit: Unit, system: System
) -> tuple[list[str], str]:
    """Print the parts of a band, rounded inward, and the unit apart."""
    target = parts[1] if len(parts) == 3 else None
    text = show_band(
        (parts[0], target, parts[-1]),
        unit,
        kind=declared.kind,
        system=system,
        step=declared.step,
    )
    *firsts, last = text.split(" / ")
    number, _, name = last.partition(" ")
    return [*firsts, number], f" {name}" if name else ""


def _open_band(band: Band, declared: ValueType, system: System) -> str:
    """Print a band that is not settled: its aim, within what it could be."""
    within = Interval(low(band.low), high(band.high))
    text = _show_numeric(within, declared, system).removeprefix("between ")
    if band.target is None:
        return f"within {text.replace(' and ', ' to ')}"
    aim = _show_numeric(band.target, declared, system)
    return f"aim {aim}, within {text.replace(' and ', ' to ')}"


def _spoken_band(low: str, target: str | None, high: str, unit: str) -> str:
    if target is None:
        return f"{low} to {high}{unit}" if low != high else f"{low}{unit}"
    if low == high:
        return f"{low}{unit}"
    return f"{low} to {high}{unit}, aim {target}{unit}"


def _names(names: Names) -> str:
    parts = [spoken(name) for name in names.called]
    parts += [f"perhaps {spoken(name)}, not yet measured" for name in names.perhaps]
    return ", ".join(parts) or "nothing"


def show_entry(world: World, entry: Entry, declared: ValueType, system: System = "metric") -> str:
    """Print one entry, or say why there is nothing to print."""
    if entry.value is not None:
        return show_value(entry.value, declared, system)
    if entry.status == Status.WAITING:
        return f"{NOT_KNOWN} (needs {needs_text(world, entry)})"
    if entry.status == Status.NOT_APPLICABLE and entry.refused == "not stated":
        return "not stated"
    if entry.status == Status.NOT_APPLICABLE:
        return f"does not apply ({entry.refused})"
    return f"no answer ({entry.refused})"


def needs_text(world: World, entry: Entry) -> str:
    """Say what an entry waits for, in the words of the inputs."""
    words = []
    for name in entry.waiting_for:
        head, _, item = name.partition(" of ")
        field = world.rulebook.inputs.get(head)
        asked = (field.ask if field and field.ask else spoken(head)).lower()
        words.append(f"{asked}, {item}" if item else asked)
    return "; ".join(dict.fromkeys(words)) or "something not named"


def show_items(
    world: World, entries: Mapping[Key, Entry], declared: ValueType, system: System = "metric"
) -> str:
    """Print a value for each item, items grouped by equal text."""
    if not declared.per:
        only = next(iter(entries.values()), Entry(status=Status.WAITING))
        return show_entry(world, only, declared, system)
    groups: dict[str, list[Key]] = {}
    for key, entry in entries.items():
        groups.setdefault(show_entry(world, entry, declared, system), []).append(key)
    if len(groups) == 1 and len(entries) > 1:
        return f"{next(iter(groups))} (every {_called(world, declared)})"
    return "; ".join(f"{_labels(world, declared, keys)}: {text}" for text, keys in groups.items())


def _called(world: World, declared: ValueType) -> str:
    name = declared.per[-1]
    known = world.rulebook.sets.get(name)
    return known.called if known else "row"


def _labels(world: World, declared: ValueType, keys: list[Key]) -> str:
    if len(declared.per) == 1 and declared.per[0] in world.rulebook.sets:
        return f"{_called(world, declared)} {', '.join(key[0] for key in keys)}"
    return ", ".join(world.label(declared.per, key) for key in keys)


def apart(
    left: float, right: float, declared: ValueType, system: System = "metric"
) -> tuple[str, str]:
    """Print two numbers with digits enough to tell them apart."""
    first, second = show_number(left, declared, system), show_number(right, declared, system)
    if first != second or left == right:
        return first, second
    if declared.unit is None:
        return f"{left:.12g}", f"{right:.12g}"
    unit = declared.unit
    return f"{to_unit(left, unit):.12g} {unit.name}", f"{to_unit(right, unit):.12g} {unit.name}"
