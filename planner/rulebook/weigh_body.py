"""Bodies that weigh voices: who speaks, who governs, what is asked."""

from planner.datafiles.nodes import Mapping, Node
from planner.errors import Place
from planner.rulebook.bodies import only
from planner.rulebook.gives import Outline
from planner.rulebook.keys import check_keys, text_of
from planner.rulebook.ranges import Unreadable, bad
from planner.rulebook.refs import Ref
from planner.rulebook.scope import Scope
from planner.rulebook.syntax import Give, WeighBody
from planner.rulebook.weigh_outside import outside_refs, read_outside

KEYS = ("says", "governs", "ask_if", "question_over", "outside")


def read_weigh_body(outline: Outline, scope: Scope) -> tuple[WeighBody, list[Ref]]:
    """Read ``weigh:``: the voices and which governs."""
    node = outline.node.get("weigh")
    give = only(outline)
    if not isinstance(node, Mapping):
        raise bad(
            f"{outline.name}: weigh is not a block", "write says: and governs:", outline.entry.key
        )
    odd = check_keys(node, KEYS, outline.name)
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
    outside = read_outside(node.get("outside"), outline.name, tuple(says), outline.per, scope)
    body = WeighBody(
        says, governs, _ask_if(outline, node, says), percent(node.get("question_over")), outside
    )
    return body, [*says.values(), *outside_refs(outside)]


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
