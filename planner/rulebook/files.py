"""The files of a rulebook: which there are, their headings, overlays, and the check code."""

import hashlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from planner.datafiles.nodes import Mapping, Node, Scalar
from planner.datafiles.reader import read_yaml_text
from planner.errors import Place, Problem, ProblemsFound, nearest
from planner.records import record
from planner.rulebook.source_files import shown, yaml_files

Taker = Callable[[Mapping, int, "RuleFiles"], None]
HEADINGS = ("edition", "sources", "inputs", "decisions", "advice", "operations")
STOCK_KEYS = ("stock_of", "source", "marks", "rows", "note")


@record
class Entry:
    """One named block under a heading, or one row of stock."""

    name: str
    key: Place
    node: Node


@record
class StockBlock:
    """One row of stock as written, with what its catalog says of all its rows."""

    entry: Entry
    source: str
    marks: Node | None = None


@dataclass(slots=True)
class RuleFiles:
    """All blocks of all rule and catalog files, later folders replacing whole blocks."""

    headings: dict[str, dict[str, Entry]] = field(
        default_factory=lambda: {name: {} for name in HEADINGS}
    )
    stock: dict[str, dict[str, StockBlock]] = field(default_factory=dict)
    edition: str = ""
    overridden: list[str] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    sha256: str = ""


def read_rule_files(rules: Sequence[Path], catalogs: Sequence[Path]) -> RuleFiles:
    """Read every rule and catalog file.

    Parameters
    ----------
    rules, catalogs
        Folders, ours first; a block in a later folder replaces the same block of an earlier one.

    Returns
    -------
    RuleFiles
        The blocks, with every problem found while reading.
    """
    files = RuleFiles()
    digest = hashlib.sha256()
    for layer, folders, take in (
        ("rules", rules, _take_rules),
        ("catalogs", catalogs, _take_stock),
    ):
        for order, folder in enumerate(folders):
            for path in yaml_files(folder):
                text = path.read_bytes()
                digest.update(f"{layer}/{order}/{path.relative_to(folder).as_posix()}\n".encode())
                digest.update(text)
                _read_one(path, text, order, files, take)
    files.sha256 = digest.hexdigest()
    return files


def _read_one(path: Path, raw: bytes, order: int, files: RuleFiles, take: Taker) -> None:
    name = shown(path)
    try:
        text = raw.decode("utf-8")
        node = read_yaml_text(text, name)
    except UnicodeDecodeError as error:
        files.problems.append(
            Problem(
                f"the file is not UTF-8 text (byte {error.start})",
                "save it as UTF-8",
                Place(name, 1, 1),
            )
        )
        return
    except ProblemsFound as found:
        files.problems.extend(found.problems)
        return
    if isinstance(node, Scalar) and node.value is None:
        return
    if not isinstance(node, Mapping):
        files.problems.append(
            Problem(
                "the file is not a block of headings",
                f"start with one of {', '.join(HEADINGS)}",
                node.place,
            )
        )
        return
    take(node, order, files)


def _take_rules(node: Mapping, order: int, files: RuleFiles) -> None:
    if node.get("stock_of") is not None:
        files.problems.append(
            Problem(
                "stock rows stand in a rule file",
                f"stock goes in catalogs/{_text(node, 'stock_of')}.yaml",
                node.key_place("stock_of"),
            )
        )
        return
    for key, block in node.entries:
        if key.text not in HEADINGS:
            offer = nearest(key.text, HEADINGS)
            hint = f"did you mean {offer}? " if offer else ""
            files.problems.append(
                Problem(
                    f"there is no heading {key.text!r}",
                    f"{hint}allowed: {', '.join(HEADINGS)}",
                    key.place,
                )
            )
        elif key.text == "edition":
            files.edition = block.text if isinstance(block, Scalar) else ""
        else:
            _take_blocks(key.text, block, order, files)


def _take_blocks(heading: str, block: Node, order: int, files: RuleFiles) -> None:
    if not isinstance(block, Mapping):
        files.problems.append(
            Problem(
                f"{heading} is not a block of names",
                "write NAME: with its block under it",
                block.place,
            )
        )
        return
    kept = files.headings[heading]
    for key, node in block.entries:
        before = kept.get(key.text)
        if before is not None:
            if before.key.file == key.place.file or order == 0:
                files.problems.append(
                    Problem(
                        f"{key.text} is written twice, first at {before.key}",
                        "keep one of them",
                        key.place,
                    )
                )
                continue
            files.overridden.append(
                f"{heading}: {key.text} ({before.key} replaced by {key.place})"
            )
        kept[key.text] = Entry(key.text, key.place, node)


def _take_stock(node: Mapping, order: int, files: RuleFiles) -> None:
    for key, _ in node.entries:
        if key.text not in STOCK_KEYS:
            files.problems.append(
                Problem(
                    f"a catalog has no key {key.text!r}",
                    f"allowed: {', '.join(STOCK_KEYS)}",
                    key.place,
                )
            )
    stock, rows = _text(node, "stock_of"), node.get("rows")
    if not stock or not isinstance(rows, Mapping):
        files.problems.append(
            Problem(
                "a catalog needs stock_of and rows", "name the set and list its rows", node.place
            )
        )
        return
    kept = files.stock.setdefault(stock, {})
    for key, row in rows.entries:
        before = kept.get(key.text)
        if before is not None:
            first = before.entry.key
            if order == 0 or first.file == key.place.file:
                told = f"{stock}: {key.text} is written twice, first at {first}"
                files.problems.append(Problem(told, "keep one of them", key.place))
                continue
            files.overridden.append(f"{stock}: {key.text} ({first} replaced by {key.place})")
        entry = Entry(key.text, key.place, row)
        kept[key.text] = StockBlock(entry, _text(node, "source"), node.get("marks"))


def _text(node: Mapping, key: str) -> str:
    found = node.get(key)
    return found.text if isinstance(found, Scalar) else ""
