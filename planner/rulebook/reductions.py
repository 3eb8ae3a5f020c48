"""Reductions over items and readings: largest, smallest, spread, count."""

import ast
from collections.abc import Callable, Iterator
from dataclasses import replace

from planner.rulebook import intervals
from planner.rulebook.checker import Checker
from planner.rulebook.pieces import Env, Node, Typed
from planner.rulebook.values import Entry, Interval, Number, OneOf, Shifted, Value
from planner.units.dimension import NONE

Check = Callable[[ast.expr, Checker], Node]
REDUCTIONS = ("largest", "smallest", "spread", "count")


def check_reduction(name: str, tree: ast.Call, checker: Checker, check: Check) -> Node:
    """Check a reduction and compile it."""
    if not tree.args or len(tree.args) > 2 or tree.keywords:
        raise checker.bad(
            f"{name} takes one value, and perhaps what to keep",
            f"write {name}(values) or {name}(values, cylinder)",
        )
    inner = check(tree.args[0], checker)
    extra = _word(tree.args[1], checker) if len(tree.args) == 2 else None
    if inner.type.form == "grid" and extra is None:
        return _of_grid(name, inner, checker)
    if name == "count":
        return _count(inner, extra, checker)
    if inner.type.form != "number":
        raise checker.bad(
            f"{name} needs numbers, not a {inner.type.form}", "name the part: low, target or high"
        )
    removed, kept = _removed(name, inner.type.per, extra, checker)
    typed = replace(inner.type, per=kept)
    if name == "spread":
        typed = replace(typed, kind=checker.same("-", inner.type, inner.type), low=0.0, high=None)
    return Node(
        typed,
        lambda env: _reduce(name, [_float(inner.run(each)) for each in _each(env, removed)]),
        _gather_each(inner, removed),
    )


def _word(tree: ast.expr, checker: Checker) -> str:
    if isinstance(tree, ast.Name):
        return tree.id
    if isinstance(tree, ast.Constant) and isinstance(tree.value, str):
        return tree.value
    raise checker.bad(
        "the second part of a reduction is neither a set nor a word",
        "write the set to keep, or for count the word in quotes",
    )


def _removed(
    name: str, per: tuple[str, ...], keep: str | None, checker: Checker
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Say which sets a reduction runs over and which it leaves."""
    if not per:
        raise checker.bad(
            f"{name} has only one value to look at",
            "leave the reduction out, or give it something with items",
        )
    if keep is None:
        if len(per) > 1:
            raise checker.bad(
                f"{name} could run over {' or '.join(per)}",
                f"say what to keep, as in {name}(values, {per[0]})",
            )
        return per, ()
    if keep in per:
        return tuple(each for each in per if each != keep), (keep,)
    for each in per:
        if checker.scope.owner(each) == keep:
            return per, (keep,)
    raise checker.bad(
        f"{keep} is no set of these values, nor owns one", f"their sets are {', '.join(per)}"
    )


def _each(env: Env, removed: tuple[str, ...]) -> list[Env]:
    envs = [env]
    for name in removed:
        envs = [each.bind(name, item) for each in envs for item in each.items(name)]
    return envs


def _gather_each(
    inner: Node, removed: tuple[str, ...]
) -> Callable[[Env], Iterator[tuple[str, Entry]]]:
    def gather(env: Env) -> Iterator[tuple[str, Entry]]:
        for each in _each(env, removed):
            bound = " ".join(f"{each_name} {item}" for each_name, item in _bound(each, removed))
            for label, entry in inner.gather(each):
                yield f"{label} of {bound}", entry

    return gather


def _bound(env: Env, names: tuple[str, ...]) -> list[tuple[str, str]]:
    return [(name, getattr(env, "bound", {}).get(name, "")) for name in names]


def _reduce(name: str, values: list[Number]) -> Number:
    if name == "largest":
        return intervals.greatest(*values)
    if name == "smallest":
        return intervals.least(*values)
    if all(isinstance(value, float) for value in values):
        return max(map(intervals.low, values)) - min(map(intervals.low, values))
    apart = max(map(intervals.low, values)) - min(map(intervals.high, values))
    most = max(map(intervals.high, values)) - min(map(intervals.low, values))
    return intervals.between(max(0.0, apart), most)


def _float(value: Value) -> Number:
    if isinstance(value, (float, Interval)):
        return value
    raise TypeError(value)


def _of_grid(name: str, inner: Node, checker: Checker) -> Node:
    if name == "count":
        raise checker.bad("count works on choices", "use largest, smallest or spread")
    typed = replace(inner.type, form="number")
    if name == "spread":
        typed = replace(typed, kind=checker.same("-", inner.type, inner.type), low=0.0, high=None)

    def run(env: Env) -> Value:
        grid = inner.run(env)
        if isinstance(grid, Interval):
            apart = Interval(0.0, grid.high - grid.low)
            return apart if name == "spread" else grid
        if isinstance(grid, Shifted):
            return _shifted(name, grid)
        if not isinstance(grid, tuple):
            raise TypeError(grid)
        return _reduce(name, [cell for row in grid for cell in row])

    return Node(typed, run, inner.gather)


def _shifted(name: str, grid: Shifted) -> Number:
    """Reduce readings that may all move together: their spread does not change."""
    settled = _reduce(name, [cell for row in grid.readings for cell in row])
    if name == "spread":
        return settled
    return intervals.add(settled, Interval(grid.low, grid.high))


def _count(inner: Node, word: str | None, checker: Checker) -> Node:
    if inner.type.form != "choice" or word is None:
        raise checker.bad(
            "count needs a choice and the word to count", "write count(verdict, 'replace')"
        )
    if word not in inner.type.words:
        raise checker.bad(f"{word!r} is not one of {', '.join(inner.type.words)}", "use one")
    removed = _removed("count", inner.type.per, None, checker)[0] if inner.type.per else ()
    typed = Typed("number", NONE, low=0.0)

    def run(env: Env) -> Value:
        values = [inner.run(each) for each in _each(env, removed)]
        sure = sum(value == word for value in values)
        could = sum(isinstance(value, OneOf) and word in value.words for value in values)
        return intervals.between(float(sure), float(sure + could))

    return Node(typed, run, _gather_each(inner, removed))
