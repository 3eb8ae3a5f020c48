"""A starter job file: every key with what it asks, nothing filled in for the shop."""

from collections.abc import Iterator, Mapping
from textwrap import wrap

from planner.errors import nearest
from planner.planning.explaining import UnknownNameError
from planner.planning.job_keys import Branch, job_tree
from planner.rulebook.printing import show_value
from planner.rulebook.ranges import range_text
from planner.rulebook.syntax import STAGES, Field, Rulebook
from planner.rulebook.values import Value

INLINE = "inline"
_STEP = "  "
_COLUMN = 40
_WIDTH = 96
_HEAD = """\
# A borewright job. Lines that start with # are comments.
# Write each size with its unit: 86.071 mm, 3.3886 in, 1.1 bar gauge, 36 degC.
# Leave empty, or write unknown, what nobody knows: it is never taken as zero.
format: 1
job:
  name:                                 # how the shop calls this job
  reference:                            # number on the job card
  sheet_units: metric                   # metric, inch or both
  # stage: enquiry                      # holds the job back; never pushes it on
"""
_WORDS = {
    "goals.budget.low": "least the owner expects to spend",
    "goals.budget.high": "most the owner will spend",
    "goals.budget.currency": "three letters, for example USD",
    "goals.deadline": "day, for example 2027-03-01",
    "goals.accessories": "what else is fitted",
    "goals.note": "anything else",
    "goals.transmission": "kind, and the torque it takes",
    "history.complaint": "why it is here, in the customer's words",
    "history.distance": "for example 210000 km",
    "history.hours": "running hours, where they are known",
    "history.oil_use": "for example 1 l in 1,000 km",
    "history.modifications": "what is fitted that the maker did not fit",
    "history.overheating": "yes, no or unknown, and how long",
    "history.water_in_oil": "yes, no or unknown",
}


def starter_job(rulebook: Rulebook, engine: str, stage: str) -> str:
    """Write a starter job.

    Parameters
    ----------
    rulebook
        Says what can be asked.
    engine
        A catalog entry, or ``inline`` for an engine that is not in the catalog.
    stage
        How far to ask: goals alone, or teardown readings, or new parts too.

    Returns
    -------
    str
        YAML with comments; it reads without a problem as it stands.

    Raises
    ------
    UnknownNameError
        When the catalog has no such engine.
    """
    record = rulebook.records.get("engine")
    rows = rulebook.stock_rows.get(record.catalog, {}) if record else {}
    if engine != INLINE and engine not in rows:
        offer = nearest(engine, [*rows, INLINE])
        raise UnknownNameError(
            problem=f"The catalog has no engine {engine!r}.",
            reason="The starter lists readings for the engine's own cylinders and mains.",
            remedy=f"Did you mean {offer}?" if offer else f"Known: {', '.join(rows)}, {INLINE}.",
        )
    values: Mapping[str, Value] = rows[engine].values if engine != INLINE else {}
    starter = Starter(rulebook, STAGES.index(stage), values)
    lines = [*_HEAD.splitlines(), "", *_engine(rulebook, engine, stage), ""]
    tree = job_tree(rulebook)
    for head in ("goals", "history", "teardown", "parts_in_hand"):
        lines += starter.block(head, tree.children[head], "")
        lines.append("")
    return "\n".join([*lines, *_TAIL.splitlines()]) + "\n"


_TAIL = """\
# given:                                # a maker's or your own value wins; say where from
#   piston_to_wall: {low: 0.085 mm, high: 0.095 mm, from: piston drawing}
# progress:                             # what is done, and who signed
#   crack_test_block: {done: 2027-01-12, by: initials}"""


def _engine(rulebook: Rulebook, engine: str, stage: str) -> Iterator[str]:
    """Name the engine, or ask for the figures of one that is not in the catalog."""
    if engine != INLINE:
        yield f"engine: {engine}"
        return
    reached = STAGES.index(stage)
    yield "engine:                                 # measured or from the maker, never from memory"
    for name, field in rulebook.records["engine"].fields.items():
        if STAGES.index(field.stage) <= reached:
            yield from commented(f"{_STEP}{name}:", told(field))
    for stock in rulebook.stocks.values():
        if stock.owner == "engine":
            yield from commented(f"{_STEP}{stock.catalog}:", "what is stocked, for example:")
            fields = ", ".join(f"{name}: ..." for name in stock.fields)
            yield f'{_STEP * 2}# "1": {{{fields}}}'


class Starter:
    """Writes blocks of keys.

    Parameters
    ----------
    rulebook
        Says what each key asks.
    reached
        The furthest stage to ask for.
    engine
        Fields of the engine, to list its cylinders and mains; empty when they are not known.
    """

    def __init__(self, rulebook: Rulebook, reached: int, engine: Mapping[str, Value]) -> None:
        self.rulebook, self.reached, self.engine = rulebook, reached, engine

    def block(self, key: str, branch: Branch, indent: str) -> list[str]:
        """Write one key and what stands under it; nothing when it is not asked yet."""
        wanted = [each for each in branch.inputs if self._due(each)]
        if branch.meaning == "special":
            listed = branch.path == "teardown.findings" and self._stage("inspected")
            return self._findings(key, indent) if listed else []
        if not branch.children:
            return self._leaf(key, branch, wanted, indent)
        below = [
            line
            for name, each in branch.children.items()
            for line in self.block(name, each, indent + _STEP)
        ]
        readings = self._readings(wanted[0], indent + _STEP) if wanted else []
        if not below and not readings:
            return []
        return [
            *commented(f"{indent}{key}:", _with_how(wanted[0]) if wanted else ""),
            *readings,
            *below,
        ]

    def _leaf(self, key: str, branch: Branch, wanted: list[Field], indent: str) -> list[str]:
        if branch.inputs and not wanted:
            return []
        if not wanted:
            late = branch.path.startswith("parts_in_hand") and not self._stage("released")
            words = _WORDS.get(branch.path, "")
            return [] if late else commented(f"{indent}{key}:", words)
        return [
            *commented(f"{indent}{key}:", _with_how(wanted[0])),
            *self._readings(wanted[0], indent + _STEP),
        ]

    def _readings(self, field: Field, indent: str) -> list[str]:
        """Write the frame of a block of readings: its unit, and a line for each item."""
        if not field.type.per and field.type.form != "grid":
            return []
        lines = [f"{indent}unit: {self._unit(field)}"] if field.type.unit else []
        if field.unlisted is not None:
            return [*lines, f"{indent}readings:  # only the items that have one: {{3: 0.04}}"]
        lines += commented(f"{indent}readings:", self._shape(field))
        return [*lines, *(f"{indent}{_STEP}{item}:" for item in self._items(field))]

    def _unit(self, field: Field) -> str:
        unit = field.type.unit.name if field.type.unit else ""
        pressure = field.type.kind in ("gauge", "absolute") and field.type.kind not in unit
        return f"{unit} {field.type.kind}" if pressure else unit

    def _shape(self, field: Field) -> str:
        if field.type.form != "grid":
            return ""
        if field.points:
            first, last = (
                field.points[axis] for axis in (field.grid_axes[0], field.grid_axes[-1])
            )
            rows = f"{len(first)} lists ({', '.join(first)})" if len(first) > 1 else "one list"
            return f"{rows} of {len(last)} ({', '.join(last)})"
        rows = f"one list for each {field.grid_axes[0]}" if len(field.grid_axes) > 1 else "a list"
        final = field.grid_axes[-1] if field.grid_axes else "reading"
        return f"{rows}, one reading for each {final}"

    def _items(self, field: Field) -> list[str]:
        if not field.type.per:
            return []
        each = self.rulebook.sets.get(field.type.per[0])
        count = self.engine.get(each.count[1]) if each else None
        return (
            [str(number + 1) for number in range(int(count))] if isinstance(count, float) else []
        )

    def _findings(self, key: str, indent: str) -> list[str]:
        """List what can be found, each as a line to uncomment."""
        lines = commented(f"{indent}{key}:", "[] when all was looked at and nothing was found")
        for name, field in self.rulebook.inputs.items():
            if field.finding:
                where, words = self._where(field), field.type.words[:-1]
                lines.append(f"{indent}{_STEP}# - {{id: {name}{where}, degree: {words[0]}}}")
                text = f"{field.finding} ({', '.join(words)}): {field.how}"
                lead = f"{indent}{_STEP}#   "
                lines += wrap(text, _WIDTH, initial_indent=lead, subsequent_indent=lead)
        return lines

    def _where(self, field: Field) -> str:
        if not field.type.per:
            return ""
        each = self.rulebook.sets.get(field.type.per[0])
        return f", where: {each.called if each else field.type.per[0]} 1"

    def _due(self, field: Field) -> bool:
        return STAGES.index(field.stage) <= self.reached

    def _stage(self, name: str) -> bool:
        return STAGES.index(name) <= self.reached


def told(field: Field) -> str:
    """Say what a key asks: the question, its words or range, and what is assumed without it."""
    parts = [field.ask or field.name.replace("_", " ")]
    if field.type.words:
        parts.append(", ".join(field.type.words))
    elif field.type.numeric:
        parts.append(range_text(field.type))
    if field.assume is not None and field.assume.value is not None:
        parts.append(f"if empty: {show_value(field.assume.value, field.type)}")
    return "; ".join(parts)


def _with_how(field: Field) -> str:
    """Say what a key asks and, of what is measured, with what and where."""
    return f"{told(field)}; {field.how}" if field.how else told(field)


def commented(line: str, comment: str) -> list[str]:
    """Set a comment beside a line, or above it when it is long."""
    if not comment:
        return [line]
    beside = f"{line:<{_COLUMN}}# {comment}"
    if len(beside) <= _WIDTH:
        return [beside]
    indent = line[: len(line) - len(line.lstrip())]
    lead = f"{indent}# "
    return [*wrap(comment, _WIDTH, initial_indent=lead, subsequent_indent=lead), line]
