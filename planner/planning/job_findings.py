"""Findings the builder typed: what was seen, where, and how bad."""

from dataclasses import dataclass, field

from planner.datafiles.nodes import Mapping, Node, Scalar, Sequence
from planner.errors import Place, Problem, nearest
from planner.models.job import FindingEntry
from planner.planning.job_items import Items, called, read_where
from planner.planning.job_nodes import unknown_keys
from planner.rulebook.results import Fact
from planner.rulebook.syntax import Field, Rulebook
from planner.rulebook.values import Entry, Key

KEYS = ("id", "where", "degree", "note", "photo")
PATH = "teardown.findings"


@dataclass(slots=True)
class Findings:
    """Reads the list of findings; an empty list says that all was looked at and nothing found."""

    rulebook: Rulebook
    sets: Items
    problems: list[Problem]
    entries: list[FindingEntry] = field(default_factory=list)
    _found: dict[str, dict[Key, tuple[str, Place]]] = field(default_factory=dict)

    def read(self, node: Node | None) -> dict[str, Fact]:
        """Read all findings.

        Parameters
        ----------
        node
            What stands under teardown.findings.

        Returns
        -------
        dict
            A fact for every finding the rulebook knows; what is not listed was not found.
        """
        if node is None or (isinstance(node, Scalar) and node.value is None):
            return {}
        if not isinstance(node, Sequence):
            what = f"{PATH} is not a list"
            fix = "write each finding as - {id: ..., where: ..., note: ...}; [] if none was found"
            self.problems.append(Problem(what, fix, node.place))
            return {}
        for item in node.items:
            self._one(item)
        return {name: self._fact(each, node.place) for name, each in self._known().items()}

    def _one(self, node: Node) -> None:
        if not isinstance(node, Mapping):
            fix = "write - {id: cap_fretting, where: main 3}"
            self.problems.append(Problem("a finding is not a block of keys", fix, node.place))
            return
        self.problems += unknown_keys(node, "a finding", KEYS)
        name, known = _text(node, "id"), self._known()
        if name not in known:
            self._unknown(name, known, node)
            return
        degree = self._degree(node, known[name])
        items = self._items(node, known[name])
        if degree is None or items is None:
            return
        for item in items:
            self._note(node, known[name], item, degree)

    def _note(self, node: Mapping, each: Field, key: Key, degree: str) -> None:
        seen = self._found.setdefault(each.name, {})
        if key in seen and seen[key][0] != degree:
            what = f"{each.name} is {degree} here and {seen[key][0]} at {seen[key][1]}"
            self.problems.append(Problem(what, "keep the one that is right", node.place))
            return
        seen[key] = (degree, node.place)
        spoken = called(self.rulebook, each.type.per[0]) if each.type.per else ""
        where = f"{spoken} {key[0]}" if key else ""
        note, photo = _text(node, "note"), _text(node, "photo")
        self.entries.append(
            FindingEntry(
                id=each.name,
                title=each.finding,
                where=where,
                degree=degree,
                note=note,
                photo=photo,
            )
        )

    def _degree(self, node: Mapping, each: Field) -> str | None:
        words = each.type.words
        degree = _text(node, "degree") or words[0]
        if degree in words:
            return degree
        offer = nearest(degree, words)
        hint = f"did you mean {offer}? " if offer else ""
        what = f"{each.name} has no degree {degree!r}"
        self.problems.append(
            Problem(what, f"{hint}allowed: {', '.join(words)}", node.key_place("degree"))
        )
        return None

    def _items(self, node: Mapping, each: Field) -> tuple[Key, ...] | None:
        where = node.get("where")
        if not each.type.per:
            if where is None:
                return ((),)
            what = f"{each.name} is about the whole engine and takes no where"
            self.problems.append(Problem(what, "put the spot in note:", where.place))
            return None
        wanted = each.type.per[0]
        spoken = called(self.rulebook, wanted)
        if where is None:
            what, fix = f"{each.name} does not say where", f"add where: {spoken} and its number"
            self.problems.append(Problem(what, fix, node.place))
            return None
        text = ", ".join(_words(where))
        found = read_where(text, where.place, self.rulebook, self.sets, wanted)
        if isinstance(found, Problem):
            self.problems.append(found)
            return None
        return tuple((item,) for item in found.items)

    def _fact(self, each: Field, place: Place) -> Fact:
        seen = self._found.get(each.name, {})
        keys: tuple[Key, ...] = ((),)
        if each.type.per:
            keys = tuple((item,) for item in self.sets.get(each.type.per[0], ()))
        absent = each.type.words[-1]
        entries = {key: Entry(seen[key][0] if key in seen else absent) for key in keys}
        return Fact(
            each.name, entries, {key: seen[key][1] if key in seen else place for key in keys}
        )

    def _known(self) -> dict[str, Field]:
        return {name: each for name, each in self.rulebook.inputs.items() if each.finding}

    def _unknown(self, name: str, known: dict[str, Field], node: Mapping) -> None:
        offer = nearest(name, known)
        hint = f"did you mean {offer}? " if offer else ""
        fix = f"{hint}known findings: {', '.join(known) or 'none'}"
        what = f"there is no finding {name!r}" if name else "a finding has no id"
        self.problems.append(Problem(what, fix, node.key_place("id")))


def _text(node: Mapping, key: str) -> str:
    found = node.get(key)
    return found.text.strip() if isinstance(found, Scalar) and found.value is not None else ""


def _words(node: Node) -> list[str]:
    if isinstance(node, Sequence):
        return [item.text for item in node.items if isinstance(item, Scalar)]
    return [node.text] if isinstance(node, Scalar) else []
