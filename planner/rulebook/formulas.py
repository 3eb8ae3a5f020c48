"""Formulas of the rule language: a whitelisted syntax tree, checked, then run. Never ``eval``."""

import ast
import re

from planner.errors import Place, Problem
from planner.rulebook.checker import Checker
from planner.rulebook.expressions import check, word_node
from planner.rulebook.pieces import Comparison, Formula, Typed
from planner.rulebook.ranges import Unreadable
from planner.rulebook.scope import Scope

_DECIMAL_COMMA = re.compile(r"(?<![\w.])\d+,\d+")


def parse_formula(text: str, place: Place, scope: Scope) -> Formula:
    """Read and check one formula.

    Parameters
    ----------
    text
        The formula as written.
    place
        Where it stands.
    scope
        Names it may use.

    Returns
    -------
    Formula
        Ready to run.

    Raises
    ------
    Unreadable
        With the first thing wrong.
    """
    tree = _tree(text, place)
    checker = Checker(text, place, scope)
    node = check(tree, checker)
    return Formula(text, place, node, tuple(checker.reads))


SIGNS: dict[type[ast.cmpop], str] = {
    ast.GtE: ">=",
    ast.LtE: "<=",
    ast.Lt: "<",
    ast.Gt: ">",
    ast.Eq: "==",
    ast.NotEq: "!=",
}


def parse_comparison(text: str, place: Place, scope: Scope) -> Comparison:
    """Read and check one comparison of a ``needs``."""
    tree = _tree(text, place)
    if not isinstance(tree, ast.Compare) or len(tree.ops) != 1:
        raise Unreadable(
            Problem(
                f"a need is one comparison, not: {text}",
                "write LEFT >= RIGHT; give each condition its own need",
                place,
            )
        )
    checker = Checker(text, place, scope)
    left = check(tree.left, checker)
    sign = SIGNS.get(type(tree.ops[0]), "")
    word = word_node(tree.comparators[0], left) if left.type.form == "choice" else None
    right = word or check(tree.comparators[0], checker)
    _comparable(checker, left.type, sign, right.type)
    reads = tuple(checker.reads)
    return Comparison(
        text, place, Formula(text, place, left, reads), sign, Formula(text, place, right, reads)
    )


def _comparable(checker: Checker, left: Typed, sign: str, right: Typed) -> None:
    if not sign:
        raise checker.bad("that sign is not one of >= <= < > ==", "use one of them")
    if left.form == "choice" or right.form == "choice":
        if left.form != right.form or sign not in ("==", "!="):
            raise checker.bad(
                "a choice can only be compared with == to a word or a choice",
                "compare numbers with numbers, choices with choices",
            )
        return
    for side in (left, right):
        if side.form != "number":
            raise checker.bad(
                f"a {side.form} stands where one number is needed",
                "name the part: low, target or high",
            )
    checker.same("compare", left, right)


def _tree(text: str, place: Place) -> ast.expr:
    if not text.strip():
        raise Unreadable(Problem("the formula is empty", "write it", place))
    comma = _DECIMAL_COMMA.search(text)
    if comma:
        raise Unreadable(
            Problem(
                f"{comma[0]} is written with a comma, in: {text}",
                "write decimals with a point, 0.85; a formula gives one value",
                place,
            )
        )
    try:
        return ast.parse(text.strip(), mode="eval").body
    except (SyntaxError, ValueError, MemoryError, RecursionError) as error:
        detail = error.msg if isinstance(error, SyntaxError) else "too deep"
        raise Unreadable(
            Problem(
                f"the formula cannot be read ({detail}): {text}",
                "use names, numbers, 'quoted quantities', + - * / **, min, max and functions; "
                "words in a quantity need quotes, as in '0.05 mm'",
                place,
            )
        ) from error
