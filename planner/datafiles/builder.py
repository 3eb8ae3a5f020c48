"""Build nodes from parser events, without recursion, refusing what we do not read."""

from dataclasses import dataclass, field
from typing import Any

import yaml

from planner.datafiles.nodes import Mapping, Node, Scalar, Sequence
from planner.datafiles.resolver import is_not_finite, resolve
from planner.datafiles.traps import cut_by_comma, interval_as_list
from planner.errors import Place, Problem

DEEPEST = 50
_NUMBER_STARTS = frozenset("+-.0123456789")
_CORE = "tag:yaml.org,2002:"


@dataclass(slots=True)
class _Open:
    """A list or mapping whose end has not come yet; a mapping's key waits in `key`."""

    is_mapping: bool
    flow: bool
    place: Place
    start: int
    items: list[Node] = field(default_factory=list)
    entries: list[tuple[Scalar, Node]] = field(default_factory=list)
    key: Scalar | None = None
    seen: dict[str, Place] = field(default_factory=dict)


def _span(event: yaml.Event) -> tuple[int, int]:
    """Give the character offsets of an event; the parsers here always set its marks."""
    start: Any = event.start_mark
    end: Any = event.end_mark
    return start.index, end.index


class Builder:
    """Takes events one by one; afterwards holds the root node and the problems.

    `stopped` says that what follows is not worth reading: a second document, or a nest.
    """

    def __init__(self, text: str, file: str) -> None:
        self.root: Node | None = None
        self.problems: list[Problem] = []
        self.stopped = False
        self._text = text
        self._file = file
        self._open: list[_Open] = []
        self._documents = 0

    def take(self, event: Any) -> None:  # noqa: ANN401 - yaml's events have no common type
        """Take the next event."""
        if isinstance(event, yaml.ScalarEvent):
            if event.anchor is not None or event.tag is not None:
                self._refuse_marks(event)
            self._add(self._scalar(event))
        elif isinstance(event, yaml.AliasEvent):
            self._alias(event)
        elif isinstance(event, yaml.CollectionStartEvent):
            self._refuse_marks(event)
            self._begin(event)
        elif isinstance(event, yaml.CollectionEndEvent):
            self._end(event)
        elif isinstance(event, yaml.DocumentStartEvent):
            self._document(event)

    def _place(self, mark: Any) -> Place:  # noqa: ANN401 - yaml's C marks have no stubs
        return Place(self._file, mark.line + 1, mark.column + 1)

    def _refuse(self, what: str, fix: str, place: Place) -> None:
        self.problems.append(Problem(what, fix, place))

    def _document(self, event: yaml.DocumentStartEvent) -> None:
        """Only one document, and no directive but the version we read."""
        self._documents += 1
        place = self._place(event.start_mark)
        if self._documents > 1:
            self.stopped = True
            self._refuse(
                "a second document starts here",
                "keep one document in a file; delete the --- line",
                place,
            )
        elif event.tags or (event.version and tuple(event.version) != (1, 2)):
            self._refuse(
                "a % directive asks for other rules than YAML 1.2",
                "delete the line that starts with %",
                place,
            )

    def _refuse_marks(self, event: yaml.NodeEvent) -> None:
        """Refuse anchors and tags, at the value that bears them."""
        if event.anchor is not None:
            self._refuse(
                f"the anchor &{event.anchor} would let one value stand in two places",
                "write the value out where it is needed; quote the text if it starts with &",
                self._place(event.start_mark),
            )
        tag = getattr(event, "tag", None)
        if tag is not None:
            self._refuse(
                f"the tag {tag.replace(_CORE, '!!')} would change how the value is read",
                "delete the tag; quote the text if it starts with !",
                self._place(event.start_mark),
            )

    def _alias(self, event: yaml.AliasEvent) -> None:
        place = self._place(event.start_mark)
        self._refuse(
            f"the alias *{event.anchor} points to a value elsewhere",
            "write the value out here; quote the text if it starts with *",
            place,
        )
        self._add(Scalar(value=None, text="", quoted=True, place=place, span=_span(event)))

    def _scalar(self, event: yaml.ScalarEvent) -> Scalar:
        """Read one value; text in quotes or blocks stays text."""
        text = event.value
        quoted = bool(event.style)
        place = self._place(event.start_mark)
        if not quoted and text[:1] in _NUMBER_STARTS and is_not_finite(text):
            self._refuse(
                f"{text} is no measurement",
                "write the number that was read, or leave the line out",
                place,
            )
        value = text if quoted else resolve(text)
        return Scalar(value, text, quoted, place, _span(event))

    def _begin(self, event: yaml.CollectionStartEvent) -> None:
        place = self._place(event.start_mark)
        if len(self._open) == DEEPEST:
            self.stopped = True
            self._refuse(f"values are nested more than {DEEPEST} deep here", "flatten them", place)
        self._open.append(
            _Open(
                is_mapping=isinstance(event, yaml.MappingStartEvent),
                flow=bool(event.flow_style),
                place=place,
                start=_span(event)[0],
            )
        )

    def _end(self, event: yaml.CollectionEndEvent) -> None:
        done = self._open.pop()
        children = done.items or [value for _, value in done.entries]
        end = _span(event)[1]
        if not done.flow and children:
            end = children[-1].span[1]
        if done.is_mapping:
            self._add(Mapping(tuple(done.entries), done.place, (done.start, end)))
            return
        self._add(Sequence(tuple(done.items), done.place, (done.start, end)))
        if trap := interval_as_list(done.items, done.place, flow=done.flow):
            self.problems.append(trap)

    def _add(self, node: Node) -> None:
        """Put a finished node where it belongs."""
        if not self._open:
            self.root = node
            return
        parent = self._open[-1]
        if not parent.is_mapping:
            parent.items.append(node)
        elif parent.key is None:
            parent.key = self._key(node)
        else:
            self._entry(parent, parent.key, node)
            parent.key = None

    def _entry(self, parent: _Open, key: Scalar, value: Node) -> None:
        """Keep a name with its value, unless the name is there already."""
        if parent.flow and (trap := cut_by_comma(key, value, self._text)):
            self.problems.append(trap)
        elif key.text in parent.seen:
            first = parent.seen[key.text]
            self._refuse(
                f"{key.text!r} stands here and in line {first.line}",
                "keep one of the two",
                key.place,
            )
        else:
            parent.seen[key.text] = key.place
            parent.entries.append((key, value))

    def _key(self, node: Node) -> Scalar:
        """Take a node as a name; it must be one word or text."""
        if not isinstance(node, Scalar):
            self._refuse(
                "a list or mapping stands where a name is due",
                "write a name before the colon; quote it if it starts with [ or {",
                node.place,
            )
            name = f"({node.place})"
            return Scalar(value=name, text=name, quoted=True, place=node.place, span=node.span)
        if node.text == "<<" and not node.quoted:
            self._refuse("the merge key << is not read", "write the values out here", node.place)
        elif node.text == "":
            self._refuse("a name is missing before the colon", "write the name", node.place)
        return node
