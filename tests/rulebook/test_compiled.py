"""The compiled rulebook: the same as the proved one, never stale, and no worse when damaged."""

import hashlib
import json
import os
from dataclasses import fields, is_dataclass
from pathlib import Path

import pytest

from planner.errors import ProblemsFound
from planner.rulebook import compiled, load_rulebook
from planner.rulebook.pieces import Formula
from planner.rulebook.tables import Table

ROOT = Path(__file__).parents[2]
BOOK = """
edition: demo
sources: {practice: {status: common practice}}
inputs:
  boost: {ask: Boost, unit: bar, kind: gauge, range: "[0 bar .. 4 bar]"}
decisions:
  gap:
    means: Gap for each unit of bore
    gives: {unit: mm/mm, range: "[0.001 .. 0.02]"}
    source: practice
    table:
      columns: [boost]
      rows:
        - {boost: up to 1 bar, gap: 0.004 mm/mm}
        - {boost: over 1 bar, gap: 0.005 mm/mm}
  doubled:
    means: Twice the gap
    gives: {unit: mm/mm, range: "[0.001 .. 0.04]"}
    source: practice
    compute: gap * 2
"""


@pytest.fixture
def rules(tmp_path):
    folder = tmp_path / "rules"
    folder.mkdir()
    (folder / "book.yaml").write_text(BOOK, encoding="utf-8")
    return folder


@pytest.fixture
def kept(tmp_path):
    return tmp_path / "cache"


def opened(rules, kept):
    return compiled.open_rulebook([rules], [], kept, at_once=True)


def the_file(kept):
    (found,) = kept.glob("rulebook-*.json")
    return found


def assert_same(one, other, at="rulebook"):  # noqa: C901, PLR0912 - a branch for each form
    if isinstance(one, Formula):
        parts = ("text", "place", "reads", "type")
        assert [getattr(one, each) for each in parts] == [getattr(other, e) for e in parts], at
        assert one.node.results == other.node.results, at
    elif isinstance(one, Table):
        assert_same(one.columns, other.columns, at)
        assert_same(one.rows, other.rows, at)
        assert (one.hit, one.runs) == (other.hit, other.runs), at
    elif is_dataclass(one):
        assert type(one) is type(other), at
        for field in fields(one):
            assert_same(getattr(one, field.name), getattr(other, field.name), f"{at}.{field.name}")
    elif isinstance(one, dict):
        assert list(one) == list(other), at
        for key, value in one.items():
            assert_same(value, other[key], f"{at}[{key!r}]")
    elif isinstance(one, tuple):
        assert (type(one), len(one)) == (type(other), len(other)), at
        for place, (left, right) in enumerate(zip(one, other, strict=True)):
            assert_same(left, right, f"{at}[{place}]")
    else:
        assert (type(one), one) == (type(other), other), at


def test_our_own_rulebook_comes_back_whole(tmp_path):
    proved = load_rulebook([ROOT / "rules"], [ROOT / "catalogs"])
    compiled.write_compiled(tmp_path / "rulebook-1.json", proved)
    back = compiled.read_compiled(tmp_path / "rulebook-1.json")
    assert back is not None
    assert_same(proved, back)


def test_the_second_opening_proves_nothing(rules, kept, monkeypatch):
    first = opened(rules, kept)
    monkeypatch.setattr("planner.rulebook.load.load_rulebook", None)
    assert_same(first, opened(rules, kept))


def test_rules_asked_for_once_are_not_kept_and_the_second_time_they_are(rules, kept):
    first = compiled.open_rulebook([rules], [], kept)
    assert the_file(kept).stat().st_size == 0
    compiled.open_rulebook([rules], [], kept)
    assert compiled.read_compiled(the_file(kept)) is not None
    assert_same(first, compiled.open_rulebook([rules], [], kept))


def test_a_changed_rule_is_never_answered_from_before(rules, kept):
    opened(rules, kept)
    state = (rules / "book.yaml").stat()
    (rules / "book.yaml").write_text(BOOK.replace("0.005", "0.006"), encoding="utf-8")
    os.utime(rules / "book.yaml", ns=(state.st_atime_ns, state.st_mtime_ns))
    rows = opened(rules, kept).decisions["gap"].body.rows
    assert [row.results["gap"] for row in rows] == [0.004, 0.006]


def test_a_rule_that_breaks_is_refused_though_it_was_proved_before(rules, kept):
    opened(rules, kept)
    (rules / "book.yaml").write_text(BOOK.replace("over 1 bar", "over 2 bar"), encoding="utf-8")
    with pytest.raises(ProblemsFound, match="no row"):
        opened(rules, kept)


def test_another_version_of_the_program_reads_none_of_it(rules, kept, monkeypatch):
    opened(rules, kept)
    before = the_file(kept)
    monkeypatch.setattr(compiled, "program_stamp", lambda *_: "another")
    opened(rules, kept)
    assert {each.name for each in kept.glob("rulebook-*.json")} > {before.name}


def damage(path, change):
    """Change what is kept, with a check code that fits, as only someone on purpose would."""
    packed = json.loads(path.read_bytes().partition(b"\n")[2])
    change(packed)
    text = json.dumps(packed).encode()
    path.write_bytes(hashlib.sha256(text).hexdigest().encode() + b"\n" + text)


@pytest.mark.parametrize("cut", [0, 10, 64, 65, 200, -1])
def test_a_file_cut_short_counts_as_none(rules, kept, cut):
    first = opened(rules, kept)
    raw = the_file(kept).read_bytes()
    the_file(kept).write_bytes(raw[:cut])
    assert compiled.read_compiled(the_file(kept)) is None
    assert_same(first, opened(rules, kept))
    assert the_file(kept).read_bytes() == raw


def test_one_byte_changed_counts_as_none(rules, kept):
    opened(rules, kept)
    raw = the_file(kept).read_bytes()
    for at in range(0, len(raw), 37):
        the_file(kept).write_bytes(raw[:at] + bytes([raw[at] ^ 1]) + raw[at + 1 :])
        assert compiled.read_compiled(the_file(kept)) is None


@pytest.mark.parametrize(
    "formula",
    ["__import__('os').system('true')", "gap * nonsense", "gap + boost", "(lambda: 1)()", "gap *"],
)
def test_a_formula_changed_in_the_file_is_checked_again_and_refused(rules, kept, formula):
    opened(rules, kept)
    path = the_file(kept)
    text = path.read_text(encoding="utf-8")
    assert '"gap * 2"' in text
    swapped = text.partition("\n")[2].replace('"gap * 2"', json.dumps(formula)).encode()
    path.write_bytes(hashlib.sha256(swapped).hexdigest().encode() + b"\n" + swapped)
    assert compiled.read_compiled(path) is None
    assert opened(rules, kept).decisions["doubled"].body.formulas["value"].text == "gap * 2"


@pytest.mark.parametrize(
    "change",
    [
        lambda packed: packed[0].pop(),
        lambda packed: packed.append(1),
        lambda packed: packed.__setitem__(1, "text"),
        lambda packed: packed[0].__setitem__(0, [["=", [1]]]),
    ],
)
def test_another_shape_counts_as_none(rules, kept, change):
    opened(rules, kept)
    damage(the_file(kept), change)
    assert compiled.read_compiled(the_file(kept)) is None


def test_a_folder_that_cannot_be_written_stops_nothing(rules, tmp_path):
    (tmp_path / "cache").write_text("a file stands where the folder would", encoding="utf-8")
    assert opened(rules, tmp_path / "cache").edition == "demo"


def test_without_a_folder_nothing_is_kept(rules, tmp_path):
    assert opened(rules, None).edition == "demo"
    assert sorted(each.name for each in tmp_path.iterdir()) == ["rules"]


def test_only_a_few_are_kept(rules, kept):
    for size in range(compiled.MOST_FILES + 3):
        (rules / "book.yaml").write_text(BOOK + "\n" * size, encoding="utf-8")
        opened(rules, kept)
    assert len(list(kept.glob("rulebook-*.json"))) == compiled.MOST_FILES
    assert not list(kept.glob("*.part"))
