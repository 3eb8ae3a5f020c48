"""Readings of a table set into a job file: only what differs, every other character kept."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from planner.datafiles.nodes import Mapping as Block
from planner.datafiles.nodes import Node, Scalar, Sequence
from planner.datafiles.splice import Plain, flow, spliced
from planner.datafiles.text import without_mark
from planner.errors import Problem, ProblemsFound
from planner.rulebook.syntax import Field
from planner.rulebook.values import Value
from planner.teardown.asked import Asked
from planner.teardown.held import held_cells, shown
from planner.teardown.shape import Shape, plain_number, shape_of
from planner.teardown.sheet import Figure
from planner.units import find_unit

Token = str | float
Grown = list[list[Token | None]]


@dataclass(frozen=True, slots=True)
class Change:
    """One item that a table fills or changes: what it holds now, if anything, and what then."""

    label: str
    before: str
    after: str


@dataclass(slots=True)
class Filling:
    """What a table does to a job file.

    Attributes
    ----------
    text
        The job file as it would stand.
    changes
        What is new or changed, in the table's order.
    same
        How many figures the job holds already.
    """

    text: str
    changes: list[Change]
    same: int


@dataclass(slots=True)
class Filler:
    """Sets figures into the text of one job.

    Attributes
    ----------
    asked
        The job as read.
    text
        Its file.
    """

    asked: Asked
    text: str
    problems: list[Problem] = field(default_factory=list)
    changes: list[Change] = field(default_factory=list)
    same: int = 0
    _edits: list[tuple[tuple[int, int], Plain]] = field(default_factory=list)
    _added: list[tuple[tuple[str, ...], Plain]] = field(default_factory=list)

    def fill(self, figures: list[Figure]) -> Filling:
        """Set every figure.

        Raises
        ------
        ProblemsFound
            When figures of a grid are missing, or do not fit what the job holds.
        """
        by_input: dict[str, list[Figure]] = {}
        for figure in figures:
            by_input.setdefault(figure.input.name, []).append(figure)
        for some in by_input.values():
            self._input(some[0].input, some)
        if self.problems:
            raise ProblemsFound(self.problems)
        return Filling(self._text(), self.changes, self.same)

    def _input(self, each: Field, figures: list[Figure]) -> None:
        values = self.asked.values(each)
        shape = shape_of(self.asked, each, figures) if each.type.form == "grid" else None
        new: dict[str, Plain] = {}
        for item, some in _by_item(figures).items():
            old = self._held(values, each, item)
            if shape is not None:
                self._grid(each, item, some, old, shape, new)
            else:
                self._single(each, item, some[0], old, new)
        if new:
            self._add(each, values, new, shape, figures[0])

    def _held(self, values: Node | None, each: Field, item: str) -> Node | None:
        """Return the node that holds one item now."""
        if not item:
            return values if not isinstance(values, Block) else None
        if isinstance(values, Sequence):
            at = self.asked.items(each).index(item)
            return values.items[at] if at < len(values.items) else None
        return values.get(item) if isinstance(values, Block) else None

    def _known(self, each: Field, item: str) -> Value | None:
        fact = self.asked.facts.inputs.get(each.name)
        entry = fact.entries.get((item,) if item else ()) if fact is not None else None
        return entry.value if entry is not None else None

    def _single(
        self, each: Field, item: str, figure: Figure, old: Node | None, new: dict[str, Plain]
    ) -> None:
        known = self._known(each, item)
        listed = isinstance(old, Scalar) and old.value is not None
        if known == figure.si and (listed or not each.type.per):
            self.same += 1
            return
        token = self._token(figure, in_block=bool(each.type.per))
        before = old.text if isinstance(old, Scalar) and listed else ""
        self._note(each, item, before, flow(token))
        if isinstance(old, Scalar):
            self._edits.append((old.span, token))
        else:
            new[item] = token

    def _grid(
        self,
        each: Field,
        item: str,
        figures: list[Figure],
        old: Node | None,
        shape: Shape,
        new: dict[str, Plain],
    ) -> None:
        known = self._known(each, item)
        cells = held_cells(old, known)
        grown: Grown = [[None] * shape.columns for _ in range(shape.rows)]
        differing = 0
        for figure in figures:
            row, column = shape.at(figure)
            held = cells.get((row, column))
            if held is not None and held[1] == figure.si:
                self.same += 1
                continue
            differing += 1
            grown[row][column] = self._token(figure, in_block=True)
            if held is not None and held[0] is not None:
                self._edits.append((held[0].span, grown[row][column]))
        if not differing:
            return
        told = "; ".join(
            ", ".join("=" if cell is None else flow(cell) for cell in row) for row in grown
        )
        self._note(each, item, shown(old), told)
        if len(cells) == shape.rows * shape.columns:
            return
        lacking = next(
            ((r, c) for r, row in enumerate(grown) for c, cell in enumerate(row) if cell is None),
            None,
        )
        if lacking is not None or cells:
            self._lacks(each, item, figures[0], shape, lacking)
        elif isinstance(old, Scalar):
            self._edits.append((old.span, _rows(grown)))
        else:
            new[item] = _rows(grown)

    def _lacks(
        self, each: Field, item: str, figure: Figure, shape: Shape, at: tuple[int, int] | None
    ) -> None:
        label = self.asked.label(each, item)
        if at is None:
            what = f"{label} holds another number of readings in the job"
            fix = "give as many rows and readings as the job holds, or take that item out first"
        else:
            what = f"{label} lacks {shape.name(*at)}"
            fix = "measure it and add the row, or leave this item out of the table"
        self.problems.append(Problem(what, fix, figure.cell.place))

    def _note(self, each: Field, item: str, before: str, after: str) -> None:
        self.changes.append(Change(self.asked.label(each, item), before, after))

    def _token(self, figure: Figure, *, in_block: bool) -> Token:
        """Write a figure as it was typed; bare only where the block's unit is its own."""
        if figure.unit is None or figure.input.type.unit is None:
            return plain_number(figure.text)
        if any(sign.isalpha() for sign in figure.text.replace("e", "").replace("E", "")):
            return figure.text
        stated = self.asked.unit_of(figure.input) if in_block else ""
        own = not stated or find_unit(stated) == figure.unit
        if in_block and own:
            return plain_number(figure.text)
        return f"{figure.text} {figure.unit.name}"

    def _add(
        self,
        each: Field,
        values: Node | None,
        new: dict[str, Plain],
        shape: Shape | None,
        first: Figure,
    ) -> None:
        """Add items, and what their block lacks: its unit, depths and axes."""
        path = tuple(each.job.split("."))
        block = self.asked.node(each)
        body: Plain = new if each.type.per else new[""]
        if isinstance(values, Block) and values is not block:
            self._added += [((*path, "readings", item), one) for item, one in new.items()]
        elif isinstance(values, Block) and any(key in values.keys() for key in new):  # noqa: SIM118
            self._added += [((*path, item), one) for item, one in new.items()]
        elif not each.type.per and each.type.form != "grid":
            self._added.append((path, body))
        else:
            self._added += self._framed(each, path, body, shape, first)

    def _framed(
        self,
        each: Field,
        path: tuple[str, ...],
        body: Plain,
        shape: Shape | None,
        first: Figure,
    ) -> Iterator[tuple[tuple[str, ...], Plain]]:
        frame: dict[str, Plain] = {}
        if each.type.unit is not None and not self.asked.unit_of(each) and first.unit is not None:
            frame["unit"] = first.unit.name
        if shape is not None:
            frame |= shape.listing()
        frame["readings"] = body
        if isinstance(self.asked.node(each), Block):
            yield from (((*path, key), value) for key, value in frame.items())
        else:
            yield path, frame

    def _text(self) -> str:
        plain = without_mark(self.text)
        mark = self.text[: len(self.text) - len(plain)]
        for (start, end), value in sorted(self._edits, key=lambda edit: edit[0], reverse=True):
            gap = " " if plain[start - 1 : start] == ":" else ""
            plain = f"{plain[:start]}{gap}{flow(value)}{plain[end:]}"
        text = mark + plain
        for path, value in self._added:
            text = spliced(text, path, value)
        return text


def _by_item(figures: list[Figure]) -> dict[str, list[Figure]]:
    found: dict[str, list[Figure]] = {}
    for figure in figures:
        found.setdefault(figure.item, []).append(figure)
    return found


def _rows(grown: Grown) -> Plain:
    return [[cell for cell in row if cell is not None] for row in grown]
