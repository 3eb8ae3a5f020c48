"""Which test checks which formula: found by reading the tests, not by a list kept by hand.

A check is a test that asserts something of what a formula returns. Not a check: a test of a
figure of our own from an earlier day (`test_regression_...`), a refusal alone, a direction alone.
"""

import ast
from functools import cache
from pathlib import Path

FOLDER = Path(__file__).parent


def _names(node):
    """Give every name and attribute that a piece of code mentions."""
    for each in ast.walk(node):
        if isinstance(each, ast.Name):
            yield each.id
        elif isinstance(each, ast.Attribute):
            yield each.attr


def _imported(tree):
    """Give what a module takes from the physics package, by the name it goes by there."""
    return {
        alias.asname or alias.name: alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("planner.physics")
        for alias in node.names
    }


def _asserts_a_result(test):
    return any(isinstance(each, ast.Assert) for each in ast.walk(test))


def _mentioned(name, parts, seen):
    """Give what a test mentions, in itself and in the helpers of its own module."""
    seen.add(name)
    for word in set(_names(parts[name])):
        yield word
        if word in parts and word not in seen and not word.startswith("test_"):
            yield from _mentioned(word, parts, seen)


def _parts(tree):
    """Give each function and constant of a module by name."""
    parts = {}
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            parts[node.name] = node
        elif isinstance(node, ast.Assign):
            parts |= {each.id: node.value for each in node.targets if isinstance(each, ast.Name)}
    return parts


def checks_in(path, formulas):
    """Give the checks of one test file: formula, then the tests that check it."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    parts, imported = _parts(tree), _imported(tree)
    found = {}
    for name, node in parts.items():
        if not name.startswith("test_") or "regression" in name:
            continue
        if isinstance(node, ast.FunctionDef) and _asserts_a_result(node):
            words = set(_mentioned(name, parts, set()))
            for word in formulas & {imported[each] for each in words & imported.keys()}:
                found.setdefault(word, []).append(f"{path.name}::{name}")
    return found


@cache
def every_check(formulas):
    """Give the checks of all test files of physics.

    Parameters
    ----------
    formulas
        Names of the registered formulas.
    """
    found = {name: [] for name in sorted(formulas)}
    for path in sorted(FOLDER.rglob("test_*.py")):
        for name, tests in checks_in(path, formulas).items():
            found[name] += tests
    return found
