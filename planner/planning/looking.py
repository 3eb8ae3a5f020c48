"""Look into a rulebook: what names it has, and how a rule is written."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from planner.errors import Place, nearest
from planner.planning.explaining import UnknownNameError
from planner.rulebook.syntax import Decision, Field, Rulebook

_NOWHERE = Place("", 1, 1)


@dataclass(frozen=True, slots=True)
class Named:
    """One name of the rulebook: what sort it is, what it means and where it stands."""

    sort: str
    name: str
    means: str
    place: Place


@dataclass(frozen=True, slots=True)
class Written:
    """A rule as it is written.

    Attributes
    ----------
    named
        What it is.
    lines
        Its lines in the file.
    reads, read_by
        Decisions it stands on, and names that stand on it.
    """

    named: Named
    lines: tuple[str, ...]
    reads: tuple[str, ...] = ()
    read_by: tuple[str, ...] = ()


def names_of(rulebook: Rulebook, word: str = "") -> tuple[Named, ...]:
    """List the names of a rulebook by sort; with a word, only those that hold it."""
    wanted = word.casefold()
    return tuple(
        each
        for each in _all(rulebook)
        if wanted in each.name.casefold() or wanted in each.means.casefold()
    )


def rules_named(rulebook: Rulebook, name: str) -> tuple[Written, ...]:
    """Find every rule of a name and read it as it is written.

    Parameters
    ----------
    rulebook
        The rulebook.
    name
        A decision, a result of one, an input, an advice, an operation or a source.

    Returns
    -------
    tuple of Written
        Their lines, and what they are tied to; a decision and an operation may share a name.

    Raises
    ------
    UnknownNameError
        When there is none of that name.
    """
    wanted = rulebook.results[name][0] if name in rulebook.results else name
    known = tuple(_all(rulebook))
    found = [each for each in known if each.name == wanted]
    if not found:
        offer = nearest(name, [each.name for each in known])
        raise UnknownNameError(
            problem=f"The rulebook has no name {name!r}.",
            reason="There is nothing to show.",
            remedy=f"Did you mean {offer}?" if offer else "See borewright rules names.",
        )
    return tuple(_written(rulebook, each) for each in found)


def _written(rulebook: Rulebook, named: Named) -> Written:
    """Read a rule's lines; what stands on what is known for decisions."""
    if named.sort != "decision":
        return Written(named, _block(named.place))
    decisions = rulebook.decisions
    reads = decisions[named.name].reads
    return Written(named, _block(named.place), reads, _readers(decisions, named.name))


def _all(book: Rulebook) -> Iterator[Named]:
    yield from (_input(each) for each in book.inputs.values())
    for name, record in book.records.items():
        yield Named("record", name, f"one of {record.catalog}", record.place)
    for name, stock in book.stocks.items():
        yield Named("catalog", name, f"rows with {', '.join(stock.fields)}", stock.place)
    for name, each in book.sets.items():
        yield Named("set", name, f"counted by {'.'.join(each.count)}", each.place)
    yield from (Named("decision", x.name, x.means, x.place) for x in book.decisions.values())
    for name, advice in book.advice.items():
        yield Named("advice", name, f"about {', '.join(advice.about)}", advice.place)
    yield from (Named("operation", x.name, x.does, x.place) for x in book.operations.values())
    for name, source in book.sources.items():
        yield Named("source", name, source.cite or source.status, source.place or _NOWHERE)


def _input(field: Field) -> Named:
    if field.finding:
        return Named("finding", field.name, f"{field.finding} (teardown.findings)", field.place)
    return Named("input", field.name, f"{field.ask} ({field.job})", field.place)


def _readers(decisions: Mapping[str, Decision], name: str) -> tuple[str, ...]:
    return tuple(each.name for each in decisions.values() if name in each.reads)


def _block(place: Place) -> tuple[str, ...]:
    """Read the lines of a rule: its first, and all that are indented under it."""
    lines = Path(place.file).read_text(encoding="utf-8").splitlines()
    first = lines[place.line - 1]
    indent = len(first) - len(first.lstrip())
    block = [first]
    for line in lines[place.line :]:
        if line.strip() and len(line) - len(line.lstrip()) <= indent:
            break
        block.append(line)
    while block and not block[-1].strip():
        block.pop()
    return tuple(line[indent:] for line in block)
