"""The view model of a plan: sheets made of a few kinds of block, which HTML and PDF both draw.

A block holds plain texts and numbers only. Whatever a person typed stays text: the templates
escape it, and the print template takes it as data.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, fields
from typing import ClassVar


@dataclass(frozen=True, kw_only=True)
class Block:
    """One thing on a sheet; `kind` names how the templates draw it."""

    kind: ClassVar[str] = ""


@dataclass(frozen=True, kw_only=True)
class Words(Block):
    """A paragraph. `look` is plain, lead, small or strong; `label` stands before it in bold."""

    kind: ClassVar[str] = "words"
    text: str
    look: str = "plain"
    label: str = ""


@dataclass(frozen=True, kw_only=True)
class Points(Block):
    """A list; `boxes` gives each line a box to tick."""

    kind: ClassVar[str] = "points"
    lines: tuple[str, ...]
    boxes: bool = False


@dataclass(frozen=True, kw_only=True)
class Facts(Block):
    """Names with their values beside them."""

    kind: ClassVar[str] = "facts"
    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, kw_only=True)
class Table(Block):
    """A table; the first cell of each row names the row.

    Attributes
    ----------
    shares
        Width of each column as a share of the whole.
    blank
        Columns, counted from 0, whose empty cells are boxes to write in.
    right
        Columns of numbers, set at the right.
    """

    kind: ClassVar[str] = "table"
    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    shares: tuple[float, ...]
    blank: tuple[int, ...] = ()
    right: tuple[int, ...] = ()
    total: bool = False


@dataclass(frozen=True, kw_only=True)
class Picture(Block):
    """One picture in each theme.

    Attributes
    ----------
    alt, caption
        What it shows, for who cannot see it; what stands under it.
    width, height
        Size on paper. [mm]
    listed
        The same as a list, for a phone that is too narrow for it.
    page
        Whether it takes a page of its own.
    """

    kind: ClassVar[str] = "picture"
    light: str
    dark: str
    alt: str
    caption: str
    width: float
    height: float
    listed: tuple[str, ...] = ()
    page: bool = False


@dataclass(frozen=True, kw_only=True)
class Pictures(Block):
    """Small pictures side by side."""

    kind: ClassVar[str] = "pictures"
    items: tuple[Picture, ...]
    caption: str
    columns: int = 2


@dataclass(frozen=True, kw_only=True)
class Photo(Block):
    """A photograph of the job: its type (png or jpeg) and its bytes in base 64."""

    kind: ClassVar[str] = "photo"
    form: str
    data: str
    alt: str
    caption: str


@dataclass(frozen=True, kw_only=True)
class Caution(Block):
    """A caution by signal word."""

    kind: ClassVar[str] = "caution"
    severity: str
    text: str


@dataclass(frozen=True, kw_only=True)
class Hold(Block):
    """A hold point: what must be signed before the next step."""

    kind: ClassVar[str] = "hold"
    text: str


@dataclass(frozen=True, kw_only=True)
class Signing(Block):
    """Lines to sign on: what each is for."""

    kind: ClassVar[str] = "signing"
    lines: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Choice(Block):
    """One decision of the specification.

    Attributes
    ----------
    status
        firm, provisional, waiting, refused or not applicable; also drawn as the frame's line.
    value
        As printed.
    mark
        Where the figure comes from.
    notes
        Label and text: evidence, reason, what it waits for.
    """

    kind: ClassVar[str] = "choice"
    title: str
    status: str
    value: str
    mark: str = ""
    given: bool = False
    notes: tuple[tuple[str, str], ...] = ()
    cautions: tuple[Caution, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Check(Block):
    """One thing to measure at a step.

    Attributes
    ----------
    measure, target, instrument
        What, to what, with what.
    status
        Empty or firm when the target is settled.
    boxes
        Label, and what this one must come to where items differ; one to fill in for each.
    """

    kind: ClassVar[str] = "check"
    measure: str
    target: str
    instrument: str = ""
    status: str = ""
    boxes: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, kw_only=True)
class Task(Block):
    """One operation on the route sheet."""

    kind: ClassVar[str] = "task"
    number: int
    title: str
    station: str
    hours: str
    marks: tuple[str, ...] = ()
    where: str = ""
    after: str = ""
    checks: tuple[Check, ...] = ()
    hold: str = ""
    why: str = ""
    rework: str = ""
    cautions: tuple[Caution, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Form(Block):
    """Boxes to fill in: one row for each name, one box for each column.

    Attributes
    ----------
    answers
        For each row, the words of which one is ringed; none when nothing is ringed.
    """

    kind: ClassVar[str] = "form"
    title: str
    how: str = ""
    columns: tuple[str, ...]
    rows: tuple[str, ...]
    answers: tuple[tuple[str, ...], ...] = ()
    unit: str = ""


@dataclass(frozen=True, kw_only=True)
class Section:
    """A heading with its blocks."""

    title: str
    blocks: tuple[Block, ...]
    new_page: bool = False


@dataclass(frozen=True, kw_only=True)
class Stamped:
    """What stands on every page of every sheet of a packet."""

    job: str
    reference: str
    revision: str
    edition: str
    check_code: str
    version: str


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """One sheet of the packet.

    Attributes
    ----------
    name
        Names its files.
    reader
        For whom it is.
    """

    name: str
    title: str
    reader: str
    lead: str
    stamp: Stamped
    facts: tuple[tuple[str, str], ...]
    sections: tuple[Section, ...]
    words: Mapping[str, str] = field(default_factory=dict)


def as_data(thing: object) -> object:
    """Turn a sheet into mappings, lists, texts and numbers, each block with its kind."""
    if isinstance(thing, Block | Section | Sheet | Stamped):
        plain = {each.name: as_data(getattr(thing, each.name)) for each in fields(thing)}
        return {"kind": thing.kind, **plain} if isinstance(thing, Block) else plain
    if isinstance(thing, Mapping):
        return {key: as_data(value) for key, value in thing.items()}
    if isinstance(thing, str):
        return thing
    if isinstance(thing, Sequence):
        return [as_data(each) for each in thing]
    return thing
