"""Bodies of causes: findings for and against, read and checked."""

from collections.abc import Iterator

from planner.datafiles.nodes import Mapping
from planner.errors import Problem
from planner.rulebook.conditions import read_when
from planner.rulebook.evidence import INDEPENDENT
from planner.rulebook.gives import Outline
from planner.rulebook.keys import check_keys, text_of
from planner.rulebook.ranges import Unreadable, bad
from planner.rulebook.refs import Ref
from planner.rulebook.scope import Scope
from planner.rulebook.syntax import EvidenceBody, Sign
from planner.rulebook.texts import check_text

KEYS = ("for", "against", "then")


def read_evidence_body(
    outline: Outline, scope: Scope, problems: list[Problem]
) -> tuple[EvidenceBody, list[Ref]]:
    """Read ``evidence:``: findings for, findings against, and what to do then."""
    node = outline.node.get("evidence")
    if not isinstance(node, Mapping):
        raise bad(
            f"{outline.name}: evidence is not a block",
            "write for:, against:, then:",
            node.place if node is not None else outline.entry.key,
        )
    odd = check_keys(node, KEYS, f"{outline.name}: evidence")
    if odd:
        raise Unreadable(odd[0])
    speaking = tuple(_signs(outline, node, "for", scope, problems))
    if len(speaking) < INDEPENDENT:
        raise bad(
            f"{outline.name} has {len(speaking)} finding that speaks for it",
            f"name {INDEPENDENT} or more of different kinds, or it can never be likely",
            node.key_place("for"),
        )
    then = text_of(node.get("then"), f"{outline.name}: then")
    if not then:
        raise bad(f"{outline.name} does not say what follows", "add then: in one line", node.place)
    check_text(then, scope, node.key_place("then"), problems)
    body = EvidenceBody(speaking, tuple(_signs(outline, node, "against", scope, problems)), then)
    return body, list(body.refs)


def _signs(
    outline: Outline, node: Mapping, side: str, scope: Scope, problems: list[Problem]
) -> Iterator[Sign]:
    block = node.get(side)
    if block is None:
        return
    if not isinstance(block, Mapping):
        raise bad(
            f"{outline.name}: {side} is not a block of findings",
            "write FINDING IN WORDS: {NAME: cell, ...}",
            block.place,
        )
    for key, inner in block.entries:
        when = read_when(inner, scope, problems, per=outline.per)
        yield Sign(key.text, when, key.place)
