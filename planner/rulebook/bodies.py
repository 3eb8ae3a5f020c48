"""Bodies of decisions: value, compute, choose and weigh, checked against what they give."""

from planner.datafiles.nodes import Mapping, Node, Scalar, Sequence
from planner.errors import KindClash, Place
from planner.rulebook.declarations import check_keys, text_of, texts_of
from planner.rulebook.formulas import (
    Comparison,
    Formula,
    Typed,
    parse_comparison,
    parse_formula,
)
from planner.rulebook.gives import Outline
from planner.rulebook.literals import Unreadable, bad, read_literal
from planner.rulebook.scope import PARTS, Ref, Scope
from planner.rulebook.syntax import (
    ChooseBody,
    ComputeBody,
    Give,
    Preference,
    ValueBody,
    WeighBody,
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


def read_choose_body(outline: Outline, scope: Scope) -> tuple[ChooseBody, list[Ref]]:
    """Read ``choose:``: stock, named needs, preferences, and what to say when none passes."""
    node = outline.node.get("choose")
    if not isinstance(node, Mapping):
        raise bad(
            f"{outline.name}: choose is not a block",
            "write from:, needs:, none:",
            outline.entry.key,
        )
    odd = check_keys(node, ("from", "needs", "prefer", "none"), f"{outline.name}: choose")
    if odd:
        raise Unreadable(odd[0])
    stock = text_of(node.get("from"), outline.name)
    needs_node = node.get("needs")
    needs: dict[str, Comparison] = {}
    reads: list[Ref] = []
    if needs_node is not None and not isinstance(needs_node, Mapping):
        raise bad(
            f"{outline.name}: needs is not a block of named comparisons",
            "write NAME: LEFT >= RIGHT",
            needs_node.place,
        )
    for key, inner in needs_node.entries if isinstance(needs_node, Mapping) else ():
        need = parse_comparison(text_of(inner, key.text), inner.place, scope)
        _check_choice_sets(
            outline, stock, scope.joined([need.left.type.per, need.right.type.per]), inner.place
        )
        needs[key.text] = need
        reads.extend((*need.left.reads, *need.right.reads))
    prefer, prefer_reads = _preferences(node.get("prefer"), outline, stock, scope)
    none, calls = _none(node.get("none"), outline)
    return (
        ChooseBody(stock, needs, prefer, none, calls),
        [ref for ref in (*reads, *prefer_reads) if ref.name != stock or ref.origin != "stock"],
    )


def _check_choice_sets(outline: Outline, stock: str, per: tuple[str, ...], place: Place) -> None:
    odd = [name for name in per if name != stock and name not in outline.per]
    if odd:
        raise bad(
            f"{outline.name}: this compares one value for each {odd[0]}",
            f"reduce it with largest() or smallest(), or write per: {odd[0]}",
            place,
        )


def _preferences(
    node: Node | None, outline: Outline, stock: str, scope: Scope
) -> tuple[tuple[Preference, ...], list[Ref]]:
    prefer: list[Preference] = []
    reads: list[Ref] = []
    items = node.items if isinstance(node, Sequence) else ((node,) if node is not None else ())
    for item in items:
        text = text_of(item, f"{outline.name}: prefer").strip()
        word, _, rest = text.partition(" ")
        if word not in ("least", "most"):
            raise bad(f"{outline.name}: prefer is {text!r}", "write least X or most X", item.place)
        formula = parse_formula(rest, item.place, scope)
        _check_choice_sets(outline, stock, formula.type.per, item.place)
        if formula.type.form != "number":
            raise bad(
                f"{outline.name}: prefers by a {formula.type.form}",
                "prefer by one number",
                item.place,
            )
        prefer.append(Preference(word == "most", formula))
        reads.extend(formula.reads)
    return tuple(prefer), reads


def _none(node: Node | None, outline: Outline) -> tuple[str, tuple[str, ...]]:
    if isinstance(node, Mapping):
        say = text_of(node.get("say"), f"{outline.name}: none")
        calls = tuple(
            name.strip()
            for text in texts_of(node.get("calls"), outline.name)
            for name in text.split(",")
            if name.strip()
        )
        if say:
            return say, calls
    elif node is not None:
        return text_of(node, f"{outline.name}: none"), ()
    raise bad(
        f"{outline.name} does not say what to do when no row passes",
        "add none: the reason and the way out",
        outline.entry.key,
    )


def read_weigh_body(outline: Outline, scope: Scope) -> tuple[WeighBody, list[Ref]]:
    """Read ``weigh:``: the voices and which governs."""
    node = outline.node.get("weigh")
    give = only(outline)
    if not isinstance(node, Mapping):
        raise bad(
            f"{outline.name}: weigh is not a block", "write says: and governs:", outline.entry.key
        )
    odd = check_keys(node, ("says", "governs", "ask_if", "question_over"), outline.name)
    if odd:
        raise Unreadable(odd[0])
    says_node = node.get("says")
    if not isinstance(says_node, Mapping) or not says_node.entries:
        raise bad(
            f"{outline.name}: says lists no voices", "write {practice: NAME, ...}", node.place
        )
    says: dict[str, Ref] = {}
    for key, inner in says_node.entries:
        ref = scope.resolve(text_of(inner, key.text).strip(), inner.place)
        _check_voice(outline, give, key.text, ref, inner.place)
        says[key.text] = ref
    if list(says.values())[-1].optional:
        raise bad(
            f"{outline.name}: the last voice may be not stated",
            "end with a voice that always speaks",
            says_node.place,
        )
    governs = text_of(node.get("governs"), outline.name)
    _check_governs(outline, governs, says, node)
    body = WeighBody(
        says, governs, _ask_if(outline, node, says), percent(node.get("question_over"))
    )
    return body, list(says.values())


def _check_voice(outline: Outline, give: Give, voice: str, ref: Ref, place: Place) -> None:
    declared = give.type
    same = (
        ref.type.form == declared.form
        and ref.type.dimension == declared.dimension
        and set(ref.type.per) == set(outline.per)
        and (not ref.type.kind or not declared.kind or ref.type.kind == declared.kind)
    )
    if not same:
        raise bad(
            f"{outline.name}: voice {voice} ({ref.text}) is not of the sort it gives",
            "voices share unit, kind, form and per with what the decision gives",
            place,
        )


def _check_governs(outline: Outline, governs: str, says: dict[str, Ref], node: Mapping) -> None:
    if governs in ("first", "larger", "smaller"):
        if governs != "first" and any(ref.optional for ref in says.values()):
            raise bad(
                f"{outline.name}: under {governs} every voice must speak",
                "leave the optional voice out, or let a named voice govern",
                node.place,
            )
        return
    first, _, second = governs.partition(" else ")
    for name in (first, second) if second else (first,):
        if name not in says:
            raise bad(
                f"{outline.name}: governs names {name!r}",
                f"first, larger, smaller, or one of {', '.join(says)}",
                node.key_place("governs"),
            )
    if says[first].optional and not second:
        raise bad(
            f"{outline.name}: {first} may be not stated",
            f"write governs: {first} else ANOTHER VOICE",
            node.key_place("governs"),
        )


def _ask_if(outline: Outline, node: Mapping, says: dict[str, Ref]) -> tuple[str, str] | None:
    found = node.get("ask_if")
    if found is None:
        return None
    voice, _, sign = text_of(found, outline.name).rpartition(" is ")
    if voice not in says or sign not in ("smaller", "larger"):
        raise bad(
            f"{outline.name}: ask_if cannot be read",
            "write VOICE is smaller, or VOICE is larger",
            found.place,
        )
    return voice, sign


def percent(node: Node | None) -> float | None:
    """Read ``10 %`` as a fraction."""
    if node is None:
        return None
    text = text_of(node, "question_over").strip()
    try:
        share = float(text.removesuffix("%").strip()) / (100.0 if text.endswith("%") else 1.0)
    except ValueError:
        raise bad(f"{text!r} is not a share", "write it as 10 %", node.place) from None
    if not 0.0 <= share <= 10.0:
        raise bad(f"{text!r} is not a share from 0 to 1000 %", "write it as 10 %", node.place)
    return share
