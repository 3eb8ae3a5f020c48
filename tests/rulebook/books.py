# ruff: noqa: E501 - rules stand as an author writes them, one to a line
"""Small rulebooks for tests, written to files so that places and messages are real."""

from collections.abc import Mapping
from pathlib import Path

from planner.errors import ProblemsFound
from planner.rulebook import evaluate, load_rulebook
from planner.rulebook.results import Fact, Facts, Given, Results
from planner.rulebook.syntax import Rulebook
from planner.rulebook.values import Entry, Value

SOURCES = """
sources:
  practice: {status: common practice}
  recalled: {status: from memory}
  derived: {status: derived}
  textbook: {status: published, cite: "a handbook, table 1"}
  invented: {status: demo}
"""

INPUTS = """
inputs:
  engine:
    one_from: engines
    fields:
      stroke: {unit: mm, range: "[60 mm .. 120 mm]"}
      bore: {unit: mm, kind: diameter, range: "[60 mm .. 120 mm]"}
      cylinders: {range: "[1 .. 16]"}
      valves: {range: "[1 .. 32]"}
      housing: {unit: mm, kind: diameter, form: limits, range: "[30 mm .. 100 mm]"}
      wall_floor: {unit: mm, range: "[1.5 mm .. 9 mm]", optional: true}
  cylinder: {items: engine.cylinders}
  valve: {items: engine.valves, of: cylinder, called: exhaust valve}
  pins:
    all_of: pins
    fields:
      wall: {unit: mm, range: "[2 mm .. 8 mm]"}
      grade: {one_of: [tool_steel, carburised]}
  sizes:
    all_of: engine.sizes
    fields: {size: {unit: mm, kind: diameter, range: "[60 mm .. 120 mm]"}}
  boost: {ask: Highest boost, unit: bar, kind: gauge, range: "[0 bar .. 4 bar]"}
  use: {ask: What the car is for, one_of: [track, street]}
  speed:
    ask: Highest speed
    unit: rpm
    kind: speed of rotation
    range: "[3000 rpm .. 12000 rpm]"
    assume: {value: 6500 rpm, because: usual for a road car, source: practice}
  bores:
    ask: Bore readings
    unit: mm
    kind: diameter
    per: cylinder
    grid: [depth, axis]
    range: "[60 mm .. 120 mm]"
    stage: inspected
    how: dial bore gauge
  guide: {ask: Guide clearance, unit: mm, kind: clearance on diameter, per: valve, range: "[0 mm .. 1 mm]", stage: inspected, how: gauge}
  score: {ask: Score depth, unit: mm, per: cylinder, range: "[0 mm .. 1 mm]", stage: inspected, how: gauge}
"""

CATALOGS = {
    "engines.yaml": """
stock_of: engines
source: invented
rows:
  test: {stroke: 86 mm, bore: 86 mm, cylinders: 2, valves: 4, housing: 58.000 / 58.018 mm,
         sizes: {"86.25": {size: 86.25 mm}, "86.50": {size: 86.50 mm}, "87.00": {size: 87.00 mm}}}
""",
    "pins.yaml": """
stock_of: pins
source: invented
rows:
  thin: {wall: 4.0 mm, grade: carburised}
  middle: {wall: 5.0 mm, grade: tool_steel}
  thick: {wall: 6.0 mm, grade: tool_steel}
""",
}

RECORD: dict[str, Value] = {"stroke": 0.086, "bore": 0.086, "cylinders": 2.0, "valves": 4.0}
OWNED = {
    "sizes": {
        "86.25": {"size": 0.08625},
        "86.50": {"size": 0.0865},
        "87.00": {"size": 0.087},
    }
}
SETS = {"cylinder": ("1", "2"), "valve": ("1", "2", "3", "4")}


def write(folder: Path, rules: str, name: str = "rules.yaml") -> tuple[Path, Path]:
    """Write a rulebook's files and return the two folders."""
    book, stock = folder / "rules", folder / "catalogs"
    book.mkdir(exist_ok=True)
    stock.mkdir(exist_ok=True)
    (book / "a_sources.yaml").write_text(SOURCES)
    (book / "b_inputs.yaml").write_text(INPUTS)
    (book / name).write_text(rules)
    for file, text in CATALOGS.items():
        (stock / file).write_text(text)
    return book, stock


def load(folder: Path, rules: str) -> Rulebook:
    """Load a rulebook from text."""
    book, stock = write(folder, rules)
    return load_rulebook([book], [stock])


def problems(folder: Path, rules: str) -> list[str]:
    """Return the problems a rulebook has, as printed."""
    try:
        load(folder, rules)
    except ProblemsFound as found:
        return [str(each) for each in found.problems]
    return []


def facts(
    inputs: Mapping[str, Value | Mapping[tuple[str, ...], Value]] | None = None,
    *,
    stage: str = "inspected",
    given: Mapping[str, Value] | None = None,
    record: Mapping[str, Value] | None = None,
) -> Facts:
    """Make a job's facts; a mapping gives a value for each item."""
    found = {}
    for name, value in (inputs or {}).items():
        entries = value if isinstance(value, Mapping) else {(): value}
        found[name] = Fact(name, {key: Entry(each) for key, each in entries.items()})
    return Facts(
        inputs=found,
        records={"engine": {**RECORD, **(record or {})}},
        sets=SETS,
        owned=OWNED,
        stage=stage,
        given={
            name: Given(name, {(): value}, "the piston drawing")
            for name, value in (given or {}).items()
        },
    )


def run(folder: Path, rules: str, jobs_facts: Facts | None = None) -> Results:
    """Load and evaluate."""
    return evaluate(load(folder, rules), jobs_facts or facts())
