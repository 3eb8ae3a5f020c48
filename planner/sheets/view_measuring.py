"""Blank measuring sheets: every reading that the rules ask for, by component, with boxes."""

import re
from collections.abc import Iterable

from planner.rulebook.syntax import Field
from planner.sheets.letters import clean
from planner.sheets.view import Block, Form, Section, Sheet, Signing
from planner.sheets.view_material import Material
from planner.sheets.view_spec import head_facts

_HOW = (
    "Clean parts, 20 °C, instrument zeroed on a standard of the size measured. Take each point "
    "twice; the second reading agrees within 0.002 mm, or the point is cleaned and taken again. "
    "Write what the instrument shows. A dash means it was not measured, and is never a zero."
)
# The first line that fits counts; what fits none is of the block.
_COMPONENTS: tuple[tuple[str, str], ...] = (
    (
        "What the owner says, and running tests",
        r"history|compression|leak_down|heard|smoke|rattle|overheated|rebuilt",
    ),
    ("Pistons and rings", r"skirt|piston|crown|\bring|\bpin"),
    ("Bearing shells", r"shell|bearing"),
    ("Crank", r"journal|crank|damper|flywheel|thrust"),
    ("Rods", r"\brod|big_end|_rod\b|rods"),
    ("Head", r"\bvalve|guide|seat|spring|head|cam|chamber|lobe|port|timing|follower|retainer"),
    ("Oil, cooling and fuel", r"oil|pump|debris|cooler|turbo|injector|sensor|plug|coolant"),
)
_GRIDS = {
    "bores": (("top", "middle", "bottom"), ("thrust", "crank", "diagonal", "other diagonal")),
    "main_housings": (("front", "rear"), ("upright", "60° left", "60° right")),
    "main_journals": (("front", "rear"), ("0°", "45°", "90°", "135°")),
    "rod_journals": (("front", "rear"), ("0°", "45°", "90°", "135°")),
    "big_ends": (("front", "rear"), ("along", "across", "between")),
    "deck_heights": (("front", "rear"), ("left", "right")),
    "head_thickness": (("front", "rear"), ("left", "right")),
}
_OTHER = (("first", "second"), ("reading 1", "reading 2", "reading 3"))


def measuring(material: Material) -> Sheet:
    """Make the blank measuring sheets, for whoever measures."""
    groups: dict[str, list[Field]] = {title: [] for title, _ in _COMPONENTS}
    for each in material.readings:
        groups.setdefault(component_of(each), []).append(each)
    sections = [
        Section(
            title=title,
            blocks=(*_forms(fields, material), Signing(lines=_SIGN)),
            new_page=True,
        )
        for title, fields in groups.items()
        if fields
    ]
    return Sheet(
        name="measuring",
        title="Measuring sheets",
        reader="machinist",
        lead=_HOW,
        stamp=material.stamp,
        facts=head_facts(material.plan)[:3],
        sections=tuple(sections),
    )


_SIGN = ("Measured by", "Date", "Room and part temperature", "Instruments and their numbers")


def component_of(reading: Field) -> str:
    """Name the component that a reading is taken on."""
    said = f"{reading.name} {reading.job.removeprefix('goals.').removeprefix('teardown.')}"
    if reading.type.per == ("main",) and reading.type.form == "choice":
        return "Crank" if "journal" in reading.name else _shell_or_block(reading.name)
    for title, pattern in _COMPONENTS:
        if re.search(pattern, said):
            return title
    return "Block"


def _shell_or_block(name: str) -> str:
    return "Bearing shells" if "shell" in name or "bearing" in name else "Block"


def _forms(fields: Iterable[Field], material: Material) -> list[Block]:
    """Make a form of each grid, one of all single readings of a set, and those to look at."""
    grids: list[Block] = []
    numbers: dict[tuple[str, ...], list[Field]] = {}
    once: list[Field] = []
    each_item: list[Block] = []
    for each in fields:
        if each.type.form == "grid":
            grids.append(_grid(each, material))
        elif each.type.form == "number":
            numbers.setdefault(each.type.per, []).append(each)
        elif each.type.per:
            each_item.append(_look(each, material))
        else:
            once.append(each)
    looked = [_look_once(once)] if once else []
    return [
        *grids,
        *(_numbers(per, some, material) for per, some in numbers.items()),
        *looked,
        *each_item,
    ]


def _title(each: Field) -> str:
    said = each.ask or each.finding
    return clean(said.rstrip("?"))


def _unit(each: Field, material: Material) -> str:
    name = each.type.unit.name if each.type.unit else ""
    return "in" if name == "mm" and material.system == "inch" else name


def _items(per: tuple[str, ...], material: Material) -> list[str]:
    return [
        f"{name.replace('_', ' ')} {item}" for name in per for item in material.sets.get(name, ())
    ]


def _grid(each: Field, material: Material) -> Form:
    levels, columns = _GRIDS.get(each.name, _OTHER)
    items = _items(each.type.per, material)
    rows = [f"{item}, {level}" for item in items for level in levels] if items else levels
    return Form(
        title=_title(each),
        how=clean(each.how),
        columns=columns,
        rows=tuple(rows),
        unit=_unit(each, material),
    )


def _numbers(per: tuple[str, ...], fields: list[Field], material: Material) -> Form:
    """Set single readings side by side for each item, or under one another for the whole."""
    items = _items(per, material)
    units = [_unit(each, material) for each in fields]
    titles = [
        f"{_title(each)} [{unit}]" if unit else _title(each)
        for each, unit in zip(fields, units, strict=True)
    ]
    how = "; ".join(
        dict.fromkeys(f"{_title(each)}: {clean(each.how)}" for each in fields if each.how)
    )
    if items and len(fields) <= _MOST_COLUMNS:
        title = f"Each {per[0].replace('_', ' ')}"
        return Form(title=title, how=how, columns=tuple(titles), rows=tuple(items))
    if items:
        rows = [f"{title}, {item}" for title in titles for item in items]
        return Form(title=f"Each {per[0]}", how=how, columns=("reading",), rows=tuple(rows))
    rows = [
        f"{title}: {clean(each.how)}" if each.how else title
        for title, each in zip(titles, fields, strict=True)
    ]
    return Form(title="Single readings", columns=("reading",), rows=tuple(rows))


_MOST_COLUMNS = 5


def _words(each: Field) -> tuple[str, ...]:
    return tuple(clean(word.replace("_", " ")) for word in each.type.words)


def _look(each: Field, material: Material) -> Form:
    """Make a row of words to ring for each item."""
    items = _items(each.type.per, material)
    return Form(
        title=_title(each),
        how=clean(each.how),
        columns=("note",),
        rows=tuple(items),
        answers=(_words(each),) * len(items),
    )


def _look_once(fields: list[Field]) -> Form:
    """Make a row of words to ring for each thing that is looked at once."""
    return Form(
        title="Looked at, and ringed",
        columns=("note",),
        rows=tuple(f"{_title(each)}: {clean(each.how)}" for each in fields),
        answers=tuple(_words(each) for each in fields),
    )
