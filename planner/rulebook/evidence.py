"""Causes: which findings speak for and against each, and what their count makes of it.

Each line of ``for`` and ``against`` is one independent finding: whatever its condition lists,
it counts once. One finding alone is a coincidence until a second, of another kind, agrees.
"""

from collections.abc import Iterator

from planner.errors import Place
from planner.records import record
from planner.rulebook.deciding import Answers, Item
from planner.rulebook.judging import Judged, judge
from planner.rulebook.refs import Ref
from planner.rulebook.results import Trace
from planner.rulebook.syntax import CONFIDENCE, EvidenceBody, Sign
from planner.rulebook.values import Entry, Key, OneOf, Status, Value
from planner.rulebook.world import Bound, World

INDEPENDENT = 2
"""Findings of different kinds that must agree before a cause is called likely."""


@record
class Heard:
    """One finding for or against a cause, judged on a job."""

    sign: Sign
    judged: Judged


def decide_evidence(item: Item, body: EvidenceBody) -> tuple[Answers, Trace]:
    """Count the findings for a cause, less those against it."""
    world, bound = item.world, item.bound
    speaking = heard(world, body.speaking, bound)
    against = heard(world, body.against, bound)
    read = dict(_read(world, body, bound))
    sure = [each for each in (*speaking, *against) if each.judged.holds]
    trace = Trace(
        rows=tuple((each.sign.text, each.sign.place) for each in sure),
        read=read,
        source=item.decision.source,
    )
    value = confidence(
        _count(speaking, sure=True),
        _count(speaking, sure=False),
        _count(against, sure=True),
        _count(against, sure=False),
    )
    name = next(iter(item.decision.gives))
    return {name: _entry(value, read)}, trace


def heard(world: World, signs: tuple[Sign, ...], bound: dict[str, str]) -> list[Heard]:
    """Judge some findings on a job, for the items bound."""
    return [Heard(sign, judge(world, sign.when, bound)) for sign in signs]


def confidence(least_for: int, most_for: int, least_against: int, most_against: int) -> Value:
    """Say how sure a cause is from how many findings speak for and against it.

    Parameters
    ----------
    least_for, most_for
        Findings that surely speak for it, and those that do or still could.
    least_against, most_against
        The same against it.

    Returns
    -------
    str or OneOf
        likely when two more speak for it than against, possible when any speaks for it, else
        no; the words left while some findings are not in.

    Examples
    --------
    >>> confidence(2, 2, 1, 1), confidence(0, 3, 0, 0)
    ('possible', OneOf(words=('likely', 'possible', 'no')))
    """
    words = {
        _word(speaking, against)
        for speaking in range(least_for, most_for + 1)
        for against in range(least_against, most_against + 1)
    }
    left = tuple(word for word in CONFIDENCE if word in words)
    return left[0] if len(left) == 1 else OneOf(left)


def _word(speaking: int, against: int) -> str:
    if not speaking:
        return "no"
    return "likely" if speaking - against >= INDEPENDENT else "possible"


def _count(signs: list[Heard], *, sure: bool) -> int:
    return sum(
        each.judged.holds is True or (not sure and each.judged.holds is None) for each in signs
    )


def _entry(value: Value, read: dict[str, Entry]) -> Entry:
    """Put the word on what it rests on; what nobody looked at yet is waited for by name."""
    assumed = tuple(
        dict.fromkeys(
            name for entry in read.values() for name in entry.assumed if name not in entry.loose
        )
    )
    loose = tuple(dict.fromkeys(name for entry in read.values() for name in entry.loose))
    if not isinstance(value, OneOf):
        return Entry(value, Status.PROVISIONAL if assumed else Status.FIRM, assumed, loose=loose)
    waits = tuple(
        dict.fromkeys(
            name for entry in read.values() for name in (*entry.waiting_for, *entry.overdue)
        )
    )
    return Entry(value, Status.PROVISIONAL, (*assumed, *loose), waits, loose=loose)


def _read(world: World, body: EvidenceBody, bound: dict[str, str]) -> Iterator[tuple[str, Entry]]:
    """Gather what the findings look at, for the items bound and those that belong to them."""
    env = Bound(world, bound)
    for sign in body.signs:
        for condition in (each for group in sign.when for each in group):
            ref: Ref = condition.ref
            if condition.every == "one":
                yield ref.text, env.entry(ref)
                continue
            for key in env.keys(ref.type.per):
                inner = {**bound, **dict(zip(ref.type.per, key, strict=True))}
                yield _label(world, ref, key), world.entry(ref, inner)


def _label(world: World, ref: Ref, key: Key) -> str:
    return f"{ref.text} of {world.label(ref.type.per, key)}"


def place_of_signs(body: EvidenceBody) -> list[Place]:
    """Say where each finding stands, so that cases can be held against it."""
    return [sign.place for sign in body.signs]
