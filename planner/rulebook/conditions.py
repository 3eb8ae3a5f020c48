"""Conditions of ``when``: names and cells that must hold, read, and judged on a job."""

import re
from collections.abc import Iterable

from planner.datafiles.nodes import Mapping, Node, Scalar, Sequence
from planner.errors import Place, Problem
from planner.rulebook.cells import Cell, parse_cell
from planner.rulebook.columns import ChoiceColumn, Column, NumberColumn, Span
from planner.rulebook.keys import text_of
from planner.rulebook.ranges import Unreadable, bad, range_text
from planner.rulebook.refs import Ref
from planner.rulebook.scope import AlreadyTold, Scope
from planner.rulebook.syntax import Condition, When

_QUANTIFIED = re.compile(r"(some|every)\s*\((.*)\)\s*", re.DOTALL)


def column_of(ref: Ref, place: Place) -> Column:
    """Return the column a name makes in a table or condition.

    Raises
    ------
    Unreadable
        When the name holds something a cell cannot test.
    """
    declared = ref.type
    if declared.form == "choice":
        if not declared.words:
            raise bad(
                f"{ref.text} is a row of stock that only the job lists",
                "test one of its fields",
                place,
            )
        return ChoiceColumn(ref.text, declared.words)
    if declared.form != "number" or declared.low is None or declared.high is None:
        parts = "low, target or high" if declared.form in ("band", "limits") else "a number of it"
        raise bad(
            f"{ref.text} is a {declared.form}, where one number is needed",
            f"name the part: {parts}",
            place,
        )
    span = Span(declared.low, declared.high, declared.low_open, declared.high_open)
    return NumberColumn(ref.text, span, declared.unit, declared.kind, range_text(declared))


def cell_text(node: Node) -> str:
    """Return a cell as text; a YAML list is words with commas."""
    if isinstance(node, Sequence):
        return ", ".join(text_of(item, "cell") for item in node.items)
    return text_of(node, "cell")


def read_when(
    node: Node | None, scope: Scope, problems: list[Problem], *, per: tuple[str, ...] = ()
) -> When:
    """Read a ``when``: one block, or a list of blocks of which any may hold.

    Under ``per`` a name of those sets, or of their owners, is this item's own and needs no
    some() or every().
    """
    if node is None:
        return ()
    blocks = node.items if isinstance(node, Sequence) else (node,)
    groups = []
    for block in blocks:
        if not isinstance(block, Mapping):
            problems.append(
                Problem(
                    "when is not a block of names and cells",
                    "write {NAME: cell, ...}",
                    block.place,
                )
            )
            continue
        groups.append(tuple(_conditions(block, scope, problems, per)))
    return tuple(groups)


def _conditions(
    block: Mapping, scope: Scope, problems: list[Problem], per: tuple[str, ...]
) -> Iterable[Condition]:
    for key, node in block.entries:
        try:
            yield _condition(key, node, scope, per)
        except Unreadable as error:
            problems.append(error.problem)
        except AlreadyTold:
            continue


def _condition(key: Scalar, node: Node, scope: Scope, per: tuple[str, ...]) -> Condition:
    ref = scope.resolve(key.text, key.place)
    if ref.optional:
        raise bad(
            f"{key.text} is optional, so it may not be stated",
            "only a weigh decision may read it",
            key.place,
        )
    text = cell_text(node)
    match = _QUANTIFIED.fullmatch(text.strip())
    every = match[1] if match else "one"
    own = {*per, *(scope.owner(name) for name in per)}
    if not match and not own.issuperset(ref.type.per):
        raise bad(
            f"{key.text} has one value for each {ref.type.per[0]}",
            f"write some({text}) or every({text})",
            node.place,
        )
    if match and not ref.type.per:
        raise bad(f"{key.text} has one value only", f"write {match[2].strip()}", node.place)
    column = column_of(ref, key.place)
    cell = parse_cell(match[2] if match else text, column, node.place)
    if isinstance(cell, Problem):
        raise Unreadable(cell)
    return Condition(ref, every, cell, text, key.place)  # type: ignore[arg-type]


def holds(cell: Cell, value: object) -> bool:
    """Tell whether a settled value meets a cell."""
    return bool(cell.contains(value))  # type: ignore[arg-type]
