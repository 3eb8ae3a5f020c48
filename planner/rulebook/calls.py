"""Calls in formulas: least and greatest, reductions over items, and registered physics."""

import ast
from collections.abc import Callable
from dataclasses import replace

from planner.errors import UnknownFormula
from planner.physics import find_formula
from planner.physics.registry import Q, Signature
from planner.rulebook import intervals
from planner.rulebook.checker import Checker
from planner.rulebook.lifting import both, joined_form, lift
from planner.rulebook.pieces import Env, Node, Typed
from planner.rulebook.reductions import REDUCTIONS, check_reduction
from planner.rulebook.remembered import called
from planner.rulebook.values import Band, Interval, Number, Several, Shifted, Value
from planner.units.dimension import LENGTH

Check = Callable[[ast.expr, Checker], Node]


def check_call(tree: ast.Call, checker: Checker, check: Check) -> Node:
    """Check one call and compile it."""
    if not isinstance(tree.func, ast.Name):
        raise checker.bad("that cannot be called", "call min, max, a reduction or a function")
    name = tree.func.id
    if name in ("min", "max"):
        return _extreme(name, tree, checker, check)
    if name in REDUCTIONS:
        return check_reduction(name, tree, checker, check)
    if name == "on_diameter":
        return _on_diameter(tree, checker, check)
    return _physics(name, tree, checker, check)


def _extreme(name: str, tree: ast.Call, checker: Checker, check: Check) -> Node:
    if len(tree.args) < 2 or tree.keywords:
        raise checker.bad(f"{name} needs two or more values", f"write {name}(a, b)")
    parts = [check(arg, checker) for arg in tree.args]
    typed = parts[0].type
    pick = min if name == "min" else max
    choose = intervals.least if name == "min" else intervals.greatest
    for part in parts[1:]:
        other = part.type
        kind = checker.same("min" if name == "min" else "max", typed, other)
        typed = Typed(
            joined_form(typed, other, checker),
            typed.dimension,
            kind,
            checker.scope.joined([typed.per, other.per]),
            typed.unit or other.unit,
            low=_pick(pick, typed.low, other.low, keep=name == "max"),
            high=_pick(pick, typed.high, other.high, keep=name == "min"),
        )
    return Node(
        typed,
        lambda env: lift(choose, *(part.run(env) for part in parts)),
        both(*(part.gather for part in parts)),
    )


def _pick(
    pick: Callable[[float, float], float], left: float | None, right: float | None, *, keep: bool
) -> float | None:
    """Bound of a least or greatest; one known end is enough on the side that it holds."""
    if left is None or right is None:
        known = left if right is None else right
        return known if keep else None
    return pick(left, right)


def _on_diameter(tree: ast.Call, checker: Checker, check: Check) -> Node:
    if len(tree.args) != 1 or tree.keywords:
        raise checker.bad("on_diameter takes one clearance per side", "write on_diameter(x)")
    inner = check(tree.args[0], checker)
    if inner.type.kind not in (None, "clearance per side"):
        raise checker.bad(
            f"on_diameter was given a {inner.type.kind}", "give it a clearance per side"
        )
    typed = replace(inner.type, kind="clearance on diameter")
    return Node(typed, lambda env: lift(lambda x: 2.0 * x, inner.run(env)), inner.gather)


def _physics(name: str, tree: ast.Call, checker: Checker, check: Check) -> Node:
    try:
        signature = find_formula(name)
    except UnknownFormula as error:
        raise checker.bad(f"there is no function {name!r}", error.remedy) from error
    parts = {
        key: check(value, checker) for key, value in _arguments(signature, tree, checker).items()
    }
    banded = [key for key, part in parts.items() if part.type.banded]
    for key, part in parts.items():
        _fits(signature, key, part.type, checker)
    if banded and not isinstance(signature.returns, Q):
        raise checker.bad(
            f"{name} gives several results and takes no band", "name the parts: low, target, high"
        )
    form = _banded_form(signature, {key: parts[key].type for key in banded}, checker)
    per = checker.scope.joined([part.type.per for part in parts.values()])
    results = tuple(
        (result, _result_type(q, form, per)) for result, q in signature.results.items()
    )

    def run(env: Env) -> Value:
        return _apply(signature, {key: part.run(env) for key, part in parts.items()})

    gather = both(*(part.gather for part in parts.values()))
    several = () if isinstance(signature.returns, Q) else results
    return Node(results[0][1], run, gather, several)


def _arguments(signature: Signature, tree: ast.Call, checker: Checker) -> dict[str, ast.expr]:
    names = tuple(signature.arguments)
    given = {key.arg: key.value for key in tree.keywords if key.arg is not None}
    if len(given) != len(tree.keywords):
        raise checker.bad(f"{signature.name} is called with **", "name every argument")
    if tree.args:
        if signature.name != "absolute" or len(tree.args) > len(names):
            raise checker.bad(
                f"{signature.name} has an argument without a name",
                f"write {names[0]}=...; it takes {', '.join(names)}",
            )
        given.update(zip(names, tree.args, strict=False))
    odd = sorted(given.keys() - signature.arguments.keys())
    lacking = [key for key in names if key not in given]
    if odd:
        raise checker.bad(f"{signature.name} takes no {odd[0]!r}", f"it takes {', '.join(names)}")
    if lacking:
        raise checker.bad(
            f"{signature.name} lacks {', '.join(lacking)}", f"it takes {', '.join(names)}"
        )
    return {key: given[key] for key in names}


def _fits(signature: Signature, key: str, typed: Typed, checker: Checker) -> None:
    wanted = signature.arguments[key]
    label = f"{signature.name}({key}=...)"
    if wanted.grid != (typed.form == "grid"):
        need = "a grid of readings" if wanted.grid else "one number"
        raise checker.bad(
            f"{label} needs {need}, not a {typed.form}",
            "name readings, or a part or reduction of them",
        )
    if typed.form not in ("number", "band", "limits", "grid"):
        raise checker.bad(f"{label} was given a {typed.form}", "give it a number")
    if wanted.dimension != typed.dimension:
        unit = typed.unit.name if typed.unit else "a value of another unit"
        raise checker.bad(f"{label} was given {unit}", "give it a value of the right unit")
    if wanted.kind and typed.kind and wanted.kind != typed.kind:
        raise checker.bad(
            f"{label} needs a {wanted.kind}, not a {typed.kind}", f"give it the {wanted.kind}"
        )


def _banded_form(signature: Signature, banded: dict[str, Typed], checker: Checker) -> str:
    forms = {typed.form for typed in banded.values()}
    if not forms:
        return "number"
    for key in banded:
        if any(key not in signature.rises.get(result, ()) for result in signature.results):
            raise checker.bad(
                f"{signature.name} is not declared to rise with {key}, and {key} is a band",
                "write low:, target: and high: yourself",
            )
    if len(forms) > 1:
        raise checker.bad("a band and limits cannot be joined", "name the parts")
    return forms.pop()


def _result_type(q: Q, form: str, per: tuple[str, ...]) -> Typed:
    return Typed(form, q.dimension, q.kind, per)


def _apply(signature: Signature, values: dict[str, Value]) -> Value:
    """Call a registered formula, part by part where bands are among its arguments."""
    bands = [value for value in values.values() if isinstance(value, Band)]
    if not bands:
        if isinstance(signature.returns, Q):
            return _call(signature, signature.name, values)
        return _several(signature, values)

    def part(name: str) -> Number:
        each = {
            key: getattr(value, name) if isinstance(value, Band) else value
            for key, value in values.items()
        }
        return _call(signature, signature.name, each)

    target = None if bands[0].target is None else part("target")
    return Band(part("low"), part("high"), target)


def _several(signature: Signature, values: dict[str, Value]) -> Several:
    """Call a formula of several results: once where all is settled."""
    if any(isinstance(value, (Interval, Shifted)) for value in values.values()):
        return Several({name: _call(signature, name, values) for name in signature.results})
    answer = called(signature, values)
    if not isinstance(answer, dict):
        raise TypeError(signature.name)
    return Several(
        {name: _plain(signature.results[name], float(answer[name])) for name in signature.results}
    )


def _plain(result: Q, value: float) -> float:
    """Drop a length's digits below a millionth of a micron: they are noise of subtraction."""
    return round(value, 12) if result.dimension == LENGTH else value


def _call(signature: Signature, result: str, values: dict[str, Value]) -> Number:
    """Call once, or at the two corners where arguments are not settled."""
    if not any(isinstance(value, (Interval, Shifted)) for value in values.values()):
        return _result(signature, result, values)
    spread = intervals.spread_within(signature, values)
    if spread is not None:
        return spread
    least = intervals.corner(signature, result, values, upper=False)
    most = intervals.corner(signature, result, values, upper=True)
    return intervals.between(_result(signature, result, least), _result(signature, result, most))


def _result(signature: Signature, result: str, values: dict[str, Value]) -> float:
    answer = called(signature, values)
    value = float(answer[result] if isinstance(answer, dict) else answer)
    return _plain(signature.results[result], value)
