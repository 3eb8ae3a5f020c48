"""Change one key of a YAML file and leave every other character as it stands."""

import json
from collections.abc import Mapping as AnyMapping
from collections.abc import Sequence as AnySequence

from planner.datafiles.nodes import Mapping, Node, Scalar, Sequence
from planner.datafiles.reader import read_yaml_text
from planner.datafiles.text import without_mark
from planner.errors import BorewrightError, ProblemsFound

Plain = str | int | float | bool | None | AnySequence["Plain"] | AnyMapping[str, "Plain"]
"""Words, numbers, lists and blocks, as `flow` writes them and `plain` reads them."""

ROOM = 99
"""Longest line that a block is written in before it is broken."""


class NotSplicedError(BorewrightError):
    """A change of a file that would have touched more than the key it names."""


def spliced(text: str, path: AnySequence[str], value: Plain) -> str:
    """Set one key of a YAML text.

    Parameters
    ----------
    text
        The text as it stands in the file.
    path
        Keys from the root down; those that are not there yet are added at the end of their block.
    value
        What to set, written on one line or, where that gets long, one line a key.

    Returns
    -------
    str
        The changed text. Nothing outside the key has moved.

    Raises
    ------
    NotSplicedError
        When the path runs through a single value, when a comment would be lost, or when the
        text read back does not hold exactly the change.
    """
    before = plain(read_yaml_text(text, "text"))
    mark = text[: len(text) - len(without_mark(text))]
    changed = mark + _changed(without_mark(text), tuple(path), value)
    wanted = _with(before, tuple(path), value)
    try:
        found = plain(read_yaml_text(changed, "text"))
    except ProblemsFound as problems:
        raise _refusal(path, f"the text would no longer read: {problems.problems[0].what}") from (
            problems
        )
    if found != wanted:
        raise _refusal(path, "the text read back would hold more than this change")
    return changed


def plain(node: Node | None) -> Plain:
    """Return what a node holds, without its places."""
    if isinstance(node, Scalar):
        return node.value
    if isinstance(node, Sequence):
        return [plain(each) for each in node.items]
    if isinstance(node, Mapping):
        return {key.text: plain(inner) for key, inner in node.entries}
    return None


def flow(value: Plain) -> str:
    """Write a value on one line of YAML.

    Examples
    --------
    >>> flow({"unit": "mm", "readings": {"1": [86.5, 86.51]}, "note": "yes: warm"})
    '{unit: mm, readings: {1: [86.5, 86.51]}, note: "yes: warm"}'
    """
    if isinstance(value, AnyMapping):
        inside = ", ".join(f"{_key(key)}: {flow(each)}" for key, each in value.items())
        return f"{{{inside}}}"
    if isinstance(value, str):
        return _word(value)
    if isinstance(value, AnySequence):
        return f"[{', '.join(flow(each) for each in value)}]"
    return "null" if value is None else json.dumps(value)


def _key(key: str) -> str:
    return key if key.isdigit() else _word(key)


def _word(word: str) -> str:
    """Leave a word bare where it reads back as itself; else put it in double quotes."""
    quoted = json.dumps(word, ensure_ascii=not word.isprintable())
    if "#" in word or not word.strip():
        return quoted
    try:
        bare = plain(read_yaml_text(f"[{{{word}: {word}}}, {word}]", "word"))
    except BorewrightError:
        return quoted
    return word if bare == [{word: word}, word] else quoted


def _changed(text: str, path: tuple[str, ...], value: Plain) -> str:
    node: Node = read_yaml_text(text, "text")
    for depth, key in enumerate(path):
        inner = node.get(key) if isinstance(node, Mapping) else None
        if not isinstance(node, Mapping):
            raise _refusal(path, f"{'.'.join(path[:depth]) or 'the file'} is a single value")
        if inner is None:
            for later in reversed(path[depth + 1 :]):
                value = {later: value}
            return _added(text, node, key, value)
        if isinstance(inner, Scalar) and inner.value is None and depth + 1 < len(path):
            for later in reversed(path[depth + 1 :]):
                value = {later: value}
            return _replaced(text, inner, value, path)
        node = inner
    return _replaced(text, node, value, path)


def _replaced(text: str, node: Node, value: Plain, path: tuple[str, ...]) -> str:
    start, end = node.span
    if "#" in text[start:end] and "\n" in text[start:end] and not isinstance(node, Scalar):
        raise _refusal(path, "its block holds comments that would be lost")
    gap = " " if text[start - 1 : start] == ":" else ""
    return f"{text[:start]}{gap}{flow(value)}{text[end:]}"


def _added(text: str, node: Mapping, key: str, value: Plain) -> str:
    """Add a key at the end of a block."""
    start, end = node.span
    if text[start:end].startswith("{"):
        comma = ", " if node.entries else ""
        inner = text[start : end - 1].rstrip()
        return f"{text[:start]}{inner}{comma}{_key(key)}: {flow(value)}}}{text[end:]}"
    indent = " " * (node.entries[0][0].place.column - 1)
    stop = text.find("\n", end)
    head, tail = (text, "") if stop < 0 else (text[: stop + 1], text[stop + 1 :])
    head = head if head.endswith("\n") else f"{head}\n"
    return f"{head}{_block(indent, key, value)}{tail}"


def _block(indent: str, key: str, value: Plain) -> str:
    line = f"{indent}{_key(key)}: {flow(value)}\n"
    if len(line) <= ROOM or not isinstance(value, AnyMapping) or not value:
        return line
    inner = "".join(_block(f"{indent}  ", each, part) for each, part in value.items())
    return f"{indent}{_key(key)}:\n{inner}"


def _with(before: Plain, path: tuple[str, ...], value: Plain) -> Plain:
    if not path:
        return _listed(value)
    held = dict(before) if isinstance(before, AnyMapping) else {}
    held[path[0]] = _with(held.get(path[0]), path[1:], value)
    return held


def _listed(value: Plain) -> Plain:
    """Return the value with lists and blocks of the kind that reading gives."""
    if isinstance(value, AnyMapping):
        return {str(key): _listed(each) for key, each in value.items()}
    if isinstance(value, str) or not isinstance(value, AnySequence):
        return value
    return [_listed(each) for each in value]


def _refusal(path: AnySequence[str], why: str) -> NotSplicedError:
    return NotSplicedError(
        problem=f"{'.'.join(path)} was not changed: {why}.",
        reason="A job file is the shop's own; a command changes only the key it was asked to.",
        remedy="Change it in an editor, or name a key further down.",
    )
