"""How the work of reading, building and proving a table grows with its rows.

Run with ``python -m pytest tests/bench/bench_tables.py -s``; not part of the fast suite. Ten
times the rows of a unique table may take at most fifteen times as long: linear, with room for
the noise of a shared machine and for masks that grow with the rows. Where rows may overlap the
space is halved again and again, n log n, so ten times the rows are thirteen times the work.
"""

import itertools
import random
import time

import pytest

from planner.errors import Place
from planner.rulebook.cells import _read, parse_cell
from planner.rulebook.columns import NumberColumn, parse_range
from planner.rulebook.hits import Hit
from planner.rulebook.table_proof import prove
from planner.rulebook.tables import Row, Table
from planner.units.find import find_unit

MM = find_unit("mm")
GROWTH = {Hit.UNIQUE: 15.0, Hit.FIRST: 20.0}
LONGEST = 3.0
PLACE = Place("demo.yaml", 1, 1)


def column(name, size):
    declared = f"[0 mm .. {size} mm]"
    return NumberColumn(name, parse_range(declared, None, unit=MM), MM, None, declared)


def stretch(low, high, size):
    return f"from {low!r} to {'' if high == size else 'under '}{high!r} mm"


def lattice(count, columns):
    """Lay rows out in equal steps of each column."""
    side = round(count ** (1 / columns))
    cells = [stretch(at, at + 1, side) for at in range(side)]
    return [column(f"size_{at}", side) for at in range(columns)], [
        [cells[at] for at in each] for each in itertools.product(range(side), repeat=columns)
    ]


def patchwork(count, _):
    """Cut a square again and again at random: no two rows share a bound by design."""
    rng, size = random.Random(7), 1000.0
    boxes = [(0.0, size, 0.0, size)]
    while len(boxes) < count:
        left, right, low, high = boxes.pop(rng.randrange(len(boxes)))
        part = rng.uniform(0.3, 0.7)
        if right - left > high - low:
            cut = round(left + part * (right - left), 9)
            boxes += [(left, cut, low, high), (cut, right, low, high)]
        else:
            cut = round(low + part * (high - low), 9)
            boxes += [(left, right, low, cut), (left, right, cut, high)]
    columns = [column("size_0", 1000), column("size_1", 1000)]
    return columns, [
        [stretch(left, right, size), stretch(low, high, size)] for left, right, low, high in boxes
    ]


def work(columns, texts, hit):
    """Read, build and prove a table, from texts to the proof; give the seconds it took."""
    _read.cache_clear()
    start = time.perf_counter()
    rows = [
        Row(tuple(map(parse_cell, cells, columns, [PLACE] * len(cells))), at, PLACE)
        for at, cells in enumerate(texts)
    ]
    proof = prove(Table(columns, rows, hit))
    spent = time.perf_counter() - start
    assert proof.holds
    return spent


@pytest.mark.parametrize("hit", [Hit.UNIQUE, Hit.FIRST])
@pytest.mark.parametrize(
    ("shape", "columns"), [(lattice, 1), (lattice, 2), (lattice, 4), (patchwork, 2)]
)
def test_ten_times_the_rows_take_about_ten_times_as_long(shape, columns, hit):
    few, many = (
        min(work(*shape(count, columns), hit) for _ in range(3)) for count in (1000, 10_000)
    )
    rows = [len(shape(count, columns)[1]) for count in (1000, 10_000)]
    growth = many / few / (rows[1] / rows[0]) * 10
    print(  # noqa: T201 - the figure is what a bench is for
        f"\n{shape.__name__} of {columns}, {hit.value}: {few:.3f} s, {many:.3f} s, "
        f"{growth:.1f} times for ten times the rows"
    )
    assert growth < GROWTH[hit]
    assert many < LONGEST
