"""Reading ``outside``: when a voice is outside its range, and why."""

from planner.datafiles.nodes import Mapping, Node
from planner.errors import Problem
from planner.rulebook.conditions import read_when
from planner.rulebook.keys import check_keys, text_of
from planner.rulebook.ranges import Unreadable, bad
from planner.rulebook.refs import Ref
from planner.rulebook.scope import Scope
from planner.rulebook.syntax import Outside
from planner.rulebook.texts import check_text


def read_outside(
    node: Node | None, name: str, voices: tuple[str, ...], per: tuple[str, ...], scope: Scope
) -> dict[str, Outside]:
    """Read which voices can be outside their range.

    Parameters
    ----------
    node
        The block ``{VOICE: {when: {...}, because: "..."}}``.
    name
        The decision, for messages.
    voices
        Its voices, as listed; the last one always counts.
    per
        Its sets.
    scope
        Names that conditions and reasons may use.

    Returns
    -------
    dict of str to Outside
        By voice.

    Raises
    ------
    Unreadable
        With the first thing wrong.
    """
    if node is None:
        return {}
    if not isinstance(node, Mapping):
        raise bad(
            f"{name}: outside is not a block",
            "write {VOICE: {when: {...}, because: ...}}",
            node.place,
        )
    return {
        key.text: _one(inner, key.text, name, voices, (per, scope)) for key, inner in node.entries
    }


def _one(
    node: Node,
    voice: str,
    name: str,
    voices: tuple[str, ...],
    around: tuple[tuple[str, ...], Scope],
) -> Outside:
    per, scope = around
    if voice not in voices[:-1]:
        raise bad(
            f"{name}: outside names {voice!r}",
            f"one of {', '.join(voices[:-1]) or 'several voices'}; the last voice always counts",
            node.place,
        )
    if not isinstance(node, Mapping):
        raise bad(
            f"{name}: {voice} is outside without a condition",
            "write {when: {...}, because: ...}",
            node.place,
        )
    problems = check_keys(node, ("when", "because"), f"{name}: outside {voice}")
    when = read_when(node.get("when"), scope, problems, per=per)
    because = text_of(node.get("because"), name)
    if not when or not because:
        problems.append(
            Problem(
                f"{name}: outside {voice} lacks {'a when' if not when else 'a because'}",
                "say when the voice is outside its range, and what would bring it back",
                node.place,
            )
        )
    check_text(because, scope, node.place, problems)
    if problems:
        raise Unreadable(problems[0])
    return Outside(when, because)


def outside_refs(outside: dict[str, Outside]) -> list[Ref]:
    """List every name that the conditions look at."""
    return [each.ref for said in outside.values() for group in said.when for each in group]
