"""Checking and compiling each piece of a formula: names, numbers, signs, calls."""

import ast
import operator
from collections.abc import Callable, Iterator
from dataclasses import replace

from planner.rulebook import intervals
from planner.rulebook.calls import check_call
from planner.rulebook.checker import Checker
from planner.rulebook.lifting import both, joined_form, lift
from planner.rulebook.literals import quantity_or_problem
from planner.rulebook.pieces import Env, Node, Run, Typed, of_type
from planner.rulebook.refs import Ref
from planner.rulebook.values import Entry, Interval, Number, Value
from planner.units.dimension import NONE, over, power, times
from planner.units.kinds import product_kind

Binary = Callable[[Number, Number], Number]
SUMS: dict[type[ast.operator], tuple[str, Binary]] = {
    ast.Add: ("+", intervals.add),
    ast.Sub: ("-", intervals.subtract),
}
PRODUCTS: dict[type[ast.operator], tuple[str, Binary]] = {
    ast.Mult: ("*", intervals.multiply),
    ast.Div: ("/", intervals.divide),
}


def check(tree: ast.expr, checker: Checker) -> Node:
    """Check one piece of a formula and compile it."""
    if isinstance(tree, ast.BinOp):
        return _binary(tree, checker)
    if isinstance(tree, (ast.Name, ast.Attribute)):
        return _name(dotted(tree, checker), checker)
    if isinstance(tree, ast.Constant):
        return _constant(tree, checker)
    if isinstance(tree, ast.UnaryOp) and isinstance(tree.op, (ast.USub, ast.UAdd)):
        return _signed(tree, checker)
    if isinstance(tree, ast.Call):
        return check_call(tree, checker, check)
    if isinstance(tree, ast.Compare):
        raise checker.bad(
            "a comparison stands in a formula",
            "comparisons belong in needs; test the sign of a difference in a table",
        )
    if isinstance(tree, ast.Tuple):
        raise checker.bad(
            "a comma stands between two parts",
            "write decimals with a point, 0.85; a formula gives one value",
        )
    raise checker.bad(
        "a formula may not hold that",
        "use names, numbers, quoted quantities, + - * / **, min, max, functions",
    )


def dotted(tree: ast.expr, checker: Checker) -> str:
    """Write a name with its dots."""
    if isinstance(tree, ast.Name):
        return tree.id
    if isinstance(tree, ast.Attribute):
        return f"{dotted(tree.value, checker)}.{tree.attr}"
    raise checker.bad("a dot follows something that is not a name", "write NAME.PART")


def word_node(tree: ast.expr, left: Node) -> Node | None:
    """Read the right side of a choice comparison as one of its words, if it is one."""
    text = (
        tree.id
        if isinstance(tree, ast.Name)
        else (
            tree.value if isinstance(tree, ast.Constant) and isinstance(tree.value, str) else None
        )
    )
    if text is None or text not in left.type.words:
        return None
    return Node(Typed("choice", words=left.type.words), lambda _: text, _nothing)


def _nothing(_: Env) -> Iterator[tuple[str, Entry]]:
    return iter(())


def _name(text: str, checker: Checker) -> Node:
    ref = checker.scope.resolve(text, checker.place)
    if ref.optional:
        raise checker.bad(
            f"{text} is optional, so it may not be stated",
            "only a weigh decision may read it, as a voice",
        )
    checker.reads.append(ref)
    return name_node(ref)


def name_node(ref: Ref) -> Node:
    """Compile the reading of one name."""

    def run(env: Env) -> Value:
        value = env.entry(ref).value
        if value is None:
            raise LookupError(ref.text)
        return value

    def gather(env: Env) -> Iterator[tuple[str, Entry]]:
        yield ref.text, env.entry(ref)

    return Node(of_type(ref.type), run, gather)


def _constant(tree: ast.Constant, checker: Checker) -> Node:
    value = tree.value
    if isinstance(value, bool) or not isinstance(value, (int, float, str)):
        raise checker.bad(f"{value!r} is not a number", "write a number or a quoted quantity")
    if isinstance(value, str):
        found = quantity_or_problem(value, checker.place)
        typed = Typed(
            "number",
            found.unit.dimension,
            found.kind,
            unit=found.unit,
            low=found.si,
            high=found.si,
        )
        return Node(typed, _always(found.si), _nothing)
    number = float(value)
    return Node(Typed("number", plain=True, low=number, high=number), _always(number), _nothing)


def _always(number: float) -> Run:
    return lambda _: number


def _signed(tree: ast.UnaryOp, checker: Checker) -> Node:
    inner = check(tree.operand, checker)
    if isinstance(tree.op, ast.UAdd):
        return inner
    if inner.type.banded:
        raise _falls(checker)
    low, high = inner.type.low, inner.type.high
    typed = replace(
        inner.type, low=None if high is None else -high, high=None if low is None else -low
    )
    return Node(typed, lambda env: intervals.negate(_one(inner.run(env))), inner.gather)


def _binary(tree: ast.BinOp, checker: Checker) -> Node:
    left, right = check(tree.left, checker), check(tree.right, checker)
    for side in (left.type, right.type):
        if side.form not in ("number", "band", "limits"):
            raise checker.bad(
                f"a {side.form} stands where a number is needed",
                "reduce it with largest(), smallest() or a function",
            )
    if type(tree.op) in SUMS:
        sign, function = SUMS[type(tree.op)]
        typed = _sum_type(sign, left.type, right.type, checker)
    elif type(tree.op) in PRODUCTS:
        sign, function = PRODUCTS[type(tree.op)]
        typed = _product_type(sign, left.type, right.type, checker)
    elif isinstance(tree.op, ast.Pow):
        function = intervals.power
        typed = _power_type(left.type, right.type, checker)
    else:
        raise checker.bad("that sign is not one of + - * / **", "use one of them")
    return Node(
        typed,
        lambda env: lift(function, left.run(env), right.run(env)),
        both(left.gather, right.gather),
    )


def _one(value: Value) -> Number:
    if isinstance(value, (float, Interval)):
        return value
    raise TypeError(value)


def _falls(checker: Checker) -> Exception:
    return checker.bad(
        "the result need not rise with the band in it", "write low:, target: and high: yourself"
    )


def _sum_type(sign: str, left: Typed, right: Typed, checker: Checker) -> Typed:
    kind = checker.same("+" if sign == "+" else "-", left, right)
    if sign == "-" and right.banded:
        raise _falls(checker)
    a, b = (
        (right.low, right.high)
        if sign == "+"
        else (
            None if right.high is None else -right.high,
            None if right.low is None else -right.low,
        )
    )
    return Typed(
        joined_form(left, right, checker),
        left.dimension,
        kind,
        checker.scope.joined([left.per, right.per]),
        left.unit or right.unit,
        low=None if left.low is None or a is None else left.low + a,
        high=None if left.high is None or b is None else left.high + b,
    )


def _not_negative(side: Typed) -> bool:
    return side.low is not None and side.low >= 0


def _product_type(sign: str, left: Typed, right: Typed, checker: Checker) -> Typed:
    if right.banded and (sign == "/" or not _not_negative(left)):
        raise _falls(checker)
    if left.banded and not _not_negative(right):
        raise _falls(checker)
    dimension = (times if sign == "*" else over)(left.dimension, right.dimension)
    kind = product_kind(
        "*" if sign == "*" else "/",
        left.kind,
        right.kind,
        left_plain=left.plain,
        right_plain=right.plain,
    )
    unit = left.unit if right.plain else right.unit if left.plain and sign == "*" else None
    low, high = _product_bounds(sign, left, right)
    return Typed(
        joined_form(left, right, checker),
        dimension,
        kind,
        checker.scope.joined([left.per, right.per]),
        unit,
        plain=left.plain and right.plain,
        low=low,
        high=high,
    )


def _product_bounds(sign: str, left: Typed, right: Typed) -> tuple[float | None, float | None]:
    if left.low is None or left.high is None or right.low is None or right.high is None:
        return _unbounded(left, right)
    if sign == "/" and right.low <= 0 <= right.high:
        return _unbounded(left, right)
    function = operator.mul if sign == "*" else operator.truediv
    products = [function(a, b) for a in (left.low, left.high) for b in (right.low, right.high)]
    return min(products), max(products)


def _unbounded(left: Typed, right: Typed) -> tuple[float | None, float | None]:
    return (0.0, None) if _not_negative(left) and _not_negative(right) else (None, None)


def _power_type(left: Typed, right: Typed, checker: Checker) -> Typed:
    if not right.plain or right.low is None:
        raise checker.bad("an exponent is not a plain number", "write it as a number, 0.5 or 2")
    if left.banded and not (_not_negative(left) and right.low > 0):
        raise _falls(checker)
    if right.low != int(right.low) and not _not_negative(left):
        raise checker.bad(
            "a root is taken of something that could be negative",
            "take it of something whose range starts at zero or above",
        )
    dimension = NONE if left.dimension == NONE else power(left.dimension, right.low)
    low = 0.0 if _not_negative(left) else None
    return Typed(left.form, dimension, None, left.per, plain=left.plain, low=low)
