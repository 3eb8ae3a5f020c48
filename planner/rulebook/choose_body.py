"""Bodies of choices: stock, named needs, preferences, and what to say when none passes."""

from planner.datafiles.nodes import Mapping, Node, Sequence
from planner.errors import Place
from planner.rulebook.formulas import parse_comparison, parse_formula
from planner.rulebook.gives import Outline
from planner.rulebook.keys import check_keys, text_of, texts_of
from planner.rulebook.pieces import Comparison
from planner.rulebook.ranges import Unreadable, bad
from planner.rulebook.refs import Ref
from planner.rulebook.scope import Scope
from planner.rulebook.syntax import ChooseBody, Preference


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
