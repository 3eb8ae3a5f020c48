"""Random tables with their answers counted out case by case, apart from the product's code."""

import itertools
import random
from dataclasses import dataclass

from planner.errors import Place, Problem
from planner.rulebook.cells import parse_cell
from planner.rulebook.columns import ChoiceColumn, NumberColumn, Span, parse_range
from planner.rulebook.hits import Hit
from planner.rulebook.tables import Row, Table
from planner.units.find import find_unit

WORDS = ("endurance", "track", "street_track", "street")
STEPS = 5
MM = find_unit("mm")
SAY = {
    (False, False): ("from {0} to {1} mm", "[{0} mm .. {1} mm]", "[{0} .. {1} mm]"),
    (True, False): ("over {0} to {1} mm", "({0} mm .. {1} mm]", "]{0} .. {1} mm]"),
    (False, True): ("from {0} to under {1} mm", "[{0} mm .. {1} mm)", "[{0} .. {1} mm["),
    (True, True): ("over {0} to under {1} mm", "({0} mm .. {1} mm)", "]{0} .. {1} mm["),
}


def number_column(name, *, low_open=False, high_open=False):
    declared = f"{'(' if low_open else '['}0 mm .. {STEPS} mm{')' if high_open else ']'}"
    span = parse_range(declared, None, unit=MM)
    assert isinstance(span, Span)
    return NumberColumn(name, span, MM, None, declared)


def halves(low, high, low_open, high_open):
    """Give the whole and half millimetres of a stretch: its bounds and a case of each gap."""
    first, last = 2 * low + low_open, 2 * high - high_open
    return frozenset(each / 2 for each in range(first, last + 1))


@dataclass
class Column:
    """A column with every case it can have."""

    column: NumberColumn | ChoiceColumn
    cases: frozenset

    @property
    def numeric(self):
        return isinstance(self.column, NumberColumn)


@dataclass
class Sample:
    """A table with the cases each row admits, as plain sets."""

    columns: list[Column]
    admits: list[list[frozenset]]
    results: list[str]
    table: Table

    def cases(self):
        return list(itertools.product(*(sorted(each.cases) for each in self.columns)))

    def matching(self, case):
        return [
            row
            for row, cells in enumerate(self.admits)
            if all(value in cell for value, cell in zip(case, cells, strict=True))
        ]

    def inside(self, case):
        """Turn a case in millimetres into the values a table is asked about."""
        return tuple(
            value * 1e-3 if each.numeric else value
            for value, each in zip(case, self.columns, strict=True)
        )

    def outside(self, values):
        """Turn values back into the nearest whole and half millimetres."""
        return tuple(
            round(value * 2e3) / 2 if each.numeric else value
            for value, each in zip(values, self.columns, strict=True)
        )


def random_columns(rng):
    columns = []
    for at in range(rng.choice((1, 2, 2, 3))):
        if rng.random() < 0.35:
            words = WORDS[: rng.randint(2, 4)]
            columns.append(Column(ChoiceColumn(f"use_{at}", words), frozenset(words)))
        else:
            ends = rng.random() < 0.2, rng.random() < 0.2
            column = number_column(f"size_{at}", low_open=ends[0], high_open=ends[1])
            columns.append(Column(column, halves(0, STEPS, *ends)))
    return columns


def say_number(rng, low, high, low_open, high_open):
    if low == high:
        return rng.choice((f"{low} mm", f"{low / 10} cm", f"{low * 1000} um"))
    options = list(SAY[low_open, high_open])
    if low == 0 and not low_open:
        options += [f"{'under' if high_open else 'up to'} {high} mm"] * 2
        options += [f"{'<' if high_open else '<='} {high / 10} cm"]
    if high == STEPS and not high_open:
        options += [f"{'over' if low_open else 'at least'} {low} mm"] * 2
        options += [f"{'>' if low_open else '>='} {low * 1000} um"]
    return rng.choice(options).format(low, high)


def random_number_cell(rng, column):
    """Give a text and the cases it admits, counted out by hand."""
    if rng.random() < 0.2:
        return rng.choice(("any", "-")), column.cases
    low, high = sorted((rng.randint(0, STEPS), rng.randint(0, STEPS)))
    ends = (rng.random() < 0.5, rng.random() < 0.5) if high > low else (False, False)
    admitted = halves(low, high, *ends) & column.cases
    text = say_number(rng, low, high, *ends)
    if not admitted:
        return text, admitted
    if rng.random() < 0.15:
        return f"not({text})", column.cases - admitted
    if rng.random() < 0.15:
        other = rng.randint(0, STEPS)
        more = {float(other)} & column.cases
        return f"{text}, {other} mm", admitted | more if more else frozenset()
    return text, admitted


def random_choice_cell(rng, column):
    words = column.column.words
    if rng.random() < 0.2:
        return "any", column.cases
    some = rng.sample(words, rng.randint(1, len(words)))
    listed = ", ".join(some)
    if rng.random() < 0.3:
        return rng.choice((f"not {listed}", f"not({listed})")), column.cases - set(some)
    return listed, frozenset(some)


def random_cell(rng, column):
    """Draw cells until one leaves a case; those that leave none must be refused."""
    while True:
        draw = random_number_cell if column.numeric else random_choice_cell
        text, admitted = draw(rng, column)
        cell = parse_cell(text, column.column, None)
        assert isinstance(cell, Problem) == (not admitted), text
        if admitted:
            return cell, admitted


def random_sample(rng, hit):
    """Give rows drawn without a plan: most such tables are full of faults."""
    columns = random_columns(rng)
    drawn = [
        [random_cell(rng, column) for column in columns]
        for _ in range(rng.choice((1, 2, 3, 5, 8)))
    ]
    return build(rng, columns, drawn, hit)


def split_sample(rng, hit):
    """Give rows that share the space out without a gap, sometimes with one slip made."""
    columns = random_columns(rng)
    boxes = [[column.cases for column in columns]]
    for _ in range(rng.randint(0, 7)):
        boxes += _split(rng, boxes.pop(rng.randrange(len(boxes))))
    drawn = [[(_cell_of(column, cases), cases) for column, cases in zip(columns, box, strict=True)]
             for box in boxes]  # fmt: skip
    rng.shuffle(drawn)
    slip = rng.choice(("none", "none", "drop", "widen", "catch all"))
    if slip == "drop" and len(drawn) > 1:
        drawn.pop()
    if slip == "widen":
        at = rng.randrange(len(columns))
        drawn[-1][at] = random_cell(rng, columns[at])
    if slip == "catch all":
        drawn.append([(_cell_of(column, column.cases), column.cases) for column in columns])
    return build(rng, columns, drawn, hit)


def _split(rng, box):
    at = rng.randrange(len(box))
    ordered = sorted(box[at])
    if len(ordered) == 1:
        return [box]
    cut = rng.randint(1, len(ordered) - 1)
    return [
        [*box[:at], frozenset(part), *box[at + 1 :]] for part in (ordered[:cut], ordered[cut:])
    ]


def _cell_of(column, cases):
    """Word a stretch of cases as a cell and read it."""
    if not column.numeric:
        text = ", ".join(sorted(cases))
    else:
        low, high = min(cases), max(cases)
        low_open, high_open = low % 1 > 0, high % 1 > 0
        ends = int(low - low_open / 2), int(high + high_open / 2)
        text = SAY[low_open, high_open][0].format(*ends)
        text = f"{ends[0]} mm" if low == high and not low_open else text
    cell = parse_cell(text, column.column, None)
    assert not isinstance(cell, Problem), str(cell)
    return cell


def build(rng, columns, drawn, hit):
    results = [rng.choice("abc") for _ in drawn]
    rows = [
        Row(tuple(cell for cell, _ in cells), result, Place("demo.yaml", at + 1, 1), ord(result))
        for at, (cells, result) in enumerate(zip(drawn, results, strict=True))
    ]
    table = Table([each.column for each in columns], rows, hit)
    return Sample(
        columns, [[admitted for _, admitted in cells] for cells in drawn], results, table
    )


def samples(seed, count, hit=None):
    """Give random tables, planned and unplanned in turn."""
    rng = random.Random(seed)
    for at in range(count):
        policy = hit or rng.choice(list(Hit))
        yield (random_sample if at % 2 else split_sample)(rng, policy)
