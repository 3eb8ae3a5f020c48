"""Bodies of decisions: value, compute, choose and weigh, checked against what they give."""

from planner.datafiles.nodes import Mapping, Node, Scalar
from planner.errors import KindClash, Place
from planner.rulebook.formulas import parse_formula
from planner.rulebook.gives import Outline
from planner.rulebook.literals import read_literal
from planner.rulebook.pieces import Formula, Typed
from planner.rulebook.ranges import bad
from planner.rulebook.refs import PARTS, Ref
from planner.rulebook.scope import Scope
from planner.rulebook.syntax import (
    ComputeBody,
    Give,
    ValueBody,
)
from planner.units.kinds import sum_kind


def read_value_body(outline: Outline) -> ValueBody:
    """Read ``value:`` by the type it gives."""
    give = only(outline)
    node = outline.node.get("value")
    if node is None or outline.per:
        raise bad(f"{outline.name} is one value", "leave per: out", outline.entry.key)
    return ValueBody(read_literal(node, give.type, outline.name))


def only(outline: Outline) -> Give:
    """Return the one result of a decision that may have only one."""
    if len(outline.gives) != 1:
        raise bad(
            f"{outline.name} gives {', '.join(outline.gives)}",
            "this form gives one result",
            outline.entry.key,
        )
    return next(iter(outline.gives.values()))


def read_compute_body(outline: Outline, scope: Scope) -> tuple[ComputeBody, list[Ref]]:
    """Read ``compute:``, one formula or one for each part, and check what comes out."""
    node = outline.node.get("compute")
    if isinstance(node, Mapping):
        return _parts(outline, node, scope)
    formula = _formula(node, outline, scope)
    _check_sets(outline, formula.type.per, formula.place)
    results = dict(formula.node.results)
    if results:
        for name, give in outline.gives.items():
            if name not in results:
                raise bad(
                    f"{outline.name}: the function gives {', '.join(results)}, and not {name}",
                    "name one of its results",
                    give.place,
                )
            _check_type(outline, give, results[name], formula)
        return ComputeBody({"value": formula}, tuple(outline.gives)), list(formula.reads)
    _check_type(outline, only(outline), formula.type, formula)
    return ComputeBody({"value": formula}), list(formula.reads)


def _parts(outline: Outline, node: Mapping, scope: Scope) -> tuple[ComputeBody, list[Ref]]:
    give = only(outline)
    wanted = PARTS if give.type.form == "band" else ("low", "high")
    if give.type.form not in ("band", "limits") or set(node.keys()) != set(wanted):
        raise bad(
            f"{outline.name} writes out {', '.join(node.keys())}",
            f"a {give.type.form} has {', '.join(wanted)}",
            node.place,
        )
    formulas = {}
    sets = []
    for part in wanted:
        formula = _formula(node.get(part), outline, scope)
        _check_type(outline, give, formula.type, formula, part=part)
        formulas[part] = formula
        sets.append(formula.type.per)
    _check_sets(outline, scope.joined(sets), node.place)
    reads = [ref for formula in formulas.values() for ref in formula.reads]
    return ComputeBody(formulas), reads


def _formula(node: Node | None, outline: Outline, scope: Scope) -> Formula:
    if not isinstance(node, Scalar):
        raise bad(
            f"{outline.name}: the formula is not one line of text",
            "write it on one line, in quotes if it holds ': ' or '#'",
            node.place if node else outline.entry.key,
        )
    return parse_formula(node.text, node.place, scope)


def _check_sets(outline: Outline, per: tuple[str, ...], place: Place) -> None:
    if set(per) == set(outline.per):
        return
    comes = f"one value for each {' and '.join(per)}" if per else "one value"
    said = f"per: [{', '.join(outline.per)}]" if outline.per else "no per"
    fix = f"write per: {per[0] if len(per) == 1 else list(per)}" if per else "leave per: out"
    raise bad(
        f"{outline.name} comes out as {comes}, and says {said}",
        f"{fix}, or reduce it with largest() or smallest()",
        place,
    )


def _check_type(
    outline: Outline, give: Give, typed: Typed, formula: Formula, part: str | None = None
) -> None:
    declared = give.type
    wanted = "number" if part else declared.form
    if typed.form != wanted:
        cure = (
            "write low:, target: and high: yourself"
            if declared.form == "band"
            else "name the part: low, target or high"
        )
        raise bad(
            f"{outline.name} gives a {declared.form}, and its formula comes to a {typed.form}",
            cure,
            formula.place,
        )
    if typed.dimension != declared.dimension:
        unit = declared.unit.name if declared.unit else "a plain number"
        raise bad(
            f"{outline.name} gives {unit}, and its formula comes out in another unit: "
            f"{formula.text}",
            _dimension_cure(typed, plain=declared.unit is None),
            formula.place,
        )
    try:
        if typed.kind != declared.kind:
            sum_kind("compare", typed.kind, declared.kind)
    except KindClash as clash:
        raise bad(
            f"{outline.name} gives a {declared.kind}, and its formula is a {typed.kind}",
            clash.remedy,
            formula.place,
        ) from clash


def _dimension_cure(typed: Typed, *, plain: bool) -> str:
    unit = typed.unit.name if typed.unit else None
    if plain:
        return f"it comes out in {unit}: say so in gives" if unit else "divide by a unit value"
    return "check what is multiplied and divided (a value for each unit of bore times the bore)"
