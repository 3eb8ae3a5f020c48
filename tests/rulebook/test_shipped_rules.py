"""The rulebook that ships: it is proved, and breaking any one row is caught at its line."""

from pathlib import Path

import pytest

from planner.datafiles.nodes import Mapping, Scalar, Sequence
from planner.datafiles.reader import read_yaml_text
from planner.errors import ProblemsFound
from planner.rulebook import load_rulebook
from planner.rulebook.hits import Hit
from planner.rulebook.syntax import SOURCE_STATUSES, TableBody
from planner.rulebook.table_proof import prove
from planner.rulebook.tables import Table

ROOT = Path(__file__).parents[2]
NONSENSE = "no_such_word 12 furlong"


@pytest.fixture(scope="module")
def rulebook():
    return load_rulebook([ROOT / "rules"], [ROOT / "catalogs"])


def tables(rulebook):
    return [each for each in rulebook.decisions.values() if isinstance(each.body, TableBody)]


def test_every_figure_names_a_source_with_a_known_status(rulebook):
    for decision in rulebook.decisions.values():
        rows = decision.body.rows if isinstance(decision.body, TableBody) else ()
        for name in [row.source for row in rows] or [decision.source]:
            assert rulebook.sources[name].status in SOURCE_STATUSES, decision.name
    for stock in rulebook.stock_rows.values():
        for row in stock.values():
            assert row.source in rulebook.sources, row.id


def test_a_row_written_twice_is_caught_wherever_rows_must_agree(rulebook):
    tried = 0
    for decision in tables(rulebook):
        table = decision.body.table
        if table.hit.collects:
            continue
        for row in table.rows:
            tried += 1
            doubled = Table(table.columns, (*table.rows, row), table.hit)
            assert not prove(doubled).holds, (decision.name, row.place)
    assert tried > 50


def test_a_row_left_out_of_a_table_of_one_answer_each_is_caught(rulebook):
    for decision in tables(rulebook):
        table = decision.body.table
        if table.hit is not Hit.UNIQUE or len(table.rows) == 1:
            continue
        for row in table.rows:
            rows = tuple(each for each in table.rows if each is not row)
            found = prove(Table(table.columns, rows, table.hit))
            assert found.gaps, (decision.name, row.place)


def broken(text, file):
    """Put nonsense in the first cell of each row of each table, and list the lines."""
    node = read_yaml_text(text, file)
    decisions = node.get("decisions") if isinstance(node, Mapping) else None
    cells = []
    for _, block in decisions.entries if isinstance(decisions, Mapping) else ():
        table = block.get("table") if isinstance(block, Mapping) else None
        rows = table.get("rows") if isinstance(table, Mapping) else None
        for row in rows.items if isinstance(rows, Sequence) else ():
            _, cell = row.entries[0]
            assert isinstance(cell, (Scalar, Sequence))
            cells.append((cell.span, row.place.line))
    for (start, end), _ in sorted(cells, reverse=True):
        text = f"{text[:start]}{NONSENSE}{text[end:]}"
    return text, [line for _, line in cells]


def test_nonsense_in_any_row_is_told_at_its_own_line_with_a_fix(tmp_path):
    lines = set()
    for path in sorted((ROOT / "rules").glob("*.yaml")):
        text, found = broken(path.read_text(encoding="utf-8"), path.name)
        (tmp_path / path.name).write_text(text, encoding="utf-8")
        lines |= {(path.name, line) for line in found}
    assert len(lines) > 100
    with pytest.raises(ProblemsFound) as caught:
        load_rulebook([tmp_path], [ROOT / "catalogs"])
    told = {(Path(each.place.file).name, each.place.line) for each in caught.value.problems}
    assert not lines - told
    assert all(each.fix for each in caught.value.problems)
