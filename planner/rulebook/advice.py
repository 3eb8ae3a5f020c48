"""Reading ``advice`` and ``operations``: texts, conditions, order and cautions."""

from collections.abc import Mapping as AMapping

from planner.datafiles.nodes import Mapping, Node, Sequence
from planner.errors import Place, Problem, nearest
from planner.rulebook.conditions import read_when
from planner.rulebook.files import Entry
from planner.rulebook.inputs import unknown_source
from planner.rulebook.keys import check_keys, text_of, texts_of
from planner.rulebook.ranges import Unreadable, bad
from planner.rulebook.scope import Scope
from planner.rulebook.syntax import AUDIENCES, SEVERITIES, Advice, Caution, Source
from planner.rulebook.texts import check_text

ADVICE_KEYS = ("about", "when", *AUDIENCES, "cautions", "source", "conflict", "note")
CAUTION_KEYS = ("severity", "when", "text", "source")


def read_advice(
    entries: dict[str, Entry],
    scope: Scope,
    sources: AMapping[str, Source],
    decisions: frozenset[str],
    problems: list[Problem],
) -> dict[str, Advice]:
    """Read every advice."""
    found = {}
    for name, entry in entries.items():
        try:
            found[name] = _advice(name, entry, scope, sources, decisions, problems)
        except Unreadable as error:
            problems.append(error.problem)
    return found


def _advice(
    name: str,
    entry: Entry,
    scope: Scope,
    sources: AMapping[str, Source],
    decisions: frozenset[str],
    problems: list[Problem],
) -> Advice:
    node = block(entry.node, f"advice {name}")
    problems += check_keys(node, ADVICE_KEYS, f"advice {name}")
    about = texts_of(node.get("about"), f"{name}: about")
    for each in about:
        if each not in decisions and each not in scope.results:
            problems.append(_no_name("decision", each, decisions, node.key_place("about")))
    source = text_of(node.get("source"), name)
    if source not in sources:
        problems.append(unknown_source(source, entry.key, dict(sources)))
    between, ways = _conflict(name, node.get("conflict"), scope, problems)
    return Advice(
        name,
        about,
        read_when(node.get("when"), scope, problems),
        voices(node, scope, problems),
        read_cautions(node.get("cautions"), scope, problems),
        source,
        entry.key,
        between,
        ways,
    )


def _conflict(
    name: str, node: Node | None, scope: Scope, problems: list[Problem]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    if node is None:
        return (), ()
    conflict = block(node, f"{name}: conflict")
    problems += check_keys(conflict, ("between", "ways_out"), f"{name}: conflict")
    ways = texts_of(conflict.get("ways_out"), name)
    if len(ways) < 2:
        problems.append(
            Problem(
                f"{name} is a conflict with {len(ways)} way out",
                "name two or three that would each hold",
                conflict.place,
            )
        )
    for way in ways:
        check_text(way, scope, conflict.place, problems)
    return texts_of(conflict.get("between"), name), ways


def voices(node: Mapping, scope: Scope, problems: list[Problem]) -> dict[str, str]:
    """Read the texts for builder, machinist and customer."""
    texts = {}
    for audience in AUDIENCES:
        text = text_of(node.get(audience), audience)
        if text:
            check_text(text, scope, node.key_place(audience), problems)
            texts[audience] = text
    return texts


def read_cautions(node: Node | None, scope: Scope, problems: list[Problem]) -> tuple[Caution, ...]:
    """Read a list of cautions."""
    if node is None:
        return ()
    if not isinstance(node, Sequence):
        problems.append(
            Problem("cautions is not a list", "write - {severity: ..., text: ...}", node.place)
        )
        return ()
    found = []
    for item in node.items:
        try:
            found.append(_caution(item, scope, problems))
        except Unreadable as error:
            problems.append(error.problem)
    return tuple(found)


def _caution(item: Node, scope: Scope, problems: list[Problem]) -> Caution:
    node = block(item, "a caution")
    problems += check_keys(node, CAUTION_KEYS, "a caution")
    severity = text_of(node.get("severity"), "severity")
    if severity not in SEVERITIES:
        offer = nearest(severity, SEVERITIES)
        hint = f"did you mean {offer}? " if offer else ""
        raise bad(
            f"a caution has severity {severity!r}",
            f"{hint}allowed: {', '.join(SEVERITIES)}",
            node.place,
        )
    text = text_of(node.get("text"), "text")
    if not text:
        raise bad("a caution has no text", "say what to beware of", node.place)
    check_text(text, scope, node.key_place("text"), problems)
    return Caution(severity, text, read_when(node.get("when"), scope, problems), node.place)


def block(node: Node, label: str) -> Mapping:
    """Return a block of keys, or refuse."""
    if not isinstance(node, Mapping):
        raise bad(f"{label} is not a block of keys", "write NAME: value lines", node.place)
    return node


def _no_name(sort: str, name: str, known: frozenset[str], place: Place) -> Problem:
    offer = nearest(name, known)
    return Problem(
        f"there is no {sort} {name!r}",
        f"did you mean {offer}?" if offer else f"see borewright rules names ({sort}s)",
        place,
    )


def check_names(
    names: tuple[str, ...],
    known: frozenset[str],
    sort: str,
    place: Place,
    problems: list[Problem],
) -> None:
    """Report every name that is not known."""
    problems += [_no_name(sort, name, known, place) for name in names if name not in known]
